"""What was asked about the shaper, and what came back."""

from __future__ import annotations

from rebuild.demo.words import asked

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
QUESTIONS = (
    asked("Which side does the thick bronze washer go, stroke shaft or first gearbox shaft?", "2025-07-12",
        group="GB", part="X-02", holds_up="GB.in", where="letter to an owner of the 20 in size"),
    asked("What oil was 300 seconds at 100 F?", "2025-07-17", group="OIL", where="old oil chart in the door",
        answer="300 SUS at 100 F is about ISO VG 68", by="viscosity table", answered="2025-07-27"),
    asked("Do the clutch linings hold asbestos?", "2025-07-12", group="CL", part="CL-02", holds_up="CL.build",
        where="laboratory, sample not sent yet"),
    asked("Original colour under the grey?", "2025-08-09", group="BAS", where="scraped steps on the column",
        answer="dark green under two greys; kept grey", by="found under the speed plate",
        answered="2025-08-17"),
    asked("Is the 5/8 hole in the saddle an oil hole or an owner's?", "2025-09-14", group="RL", part="RL-04",
        where="two other owners", answer="an owner's: no groove behind it; plugged", by="owner of a 24 in",
        answered="2026-03-01"),
    asked("How much lost motion is normal on a 1-5 Acme cross feed?", "2025-09-20", group="RL", part="RL-06",
        where="a forum of shaper owners", answer="assume 0.012 in until somebody measures a good one",
        by="two owners", answered="2025-09-30", assumed=True),
    asked("Which way round do the oil grooves of the thrust ring face?", "2026-06-20", group="BG",
        part="BG-14", answer="towards the gear: wear shows it", by="witness marks", answered="2026-07-04"),
    asked("Is the small spring with 14 coils ours?", "2025-07-12", part="X-06",
        where="parts sheet has no springs"),
    asked("Torque for the ram keeper screws?", "2026-08-15", group="RAM", part="RAM-07",
        answer="assume 50 lb-ft: 1/2-13 into cast iron", by="common practice, no source",
        answered="2026-08-22", assumed=True),
    asked("What did the missing chip guard look like?", "2025-09-30", group="TB", part="TB-08",
        where="asked for pictures"),
    asked("May the retaining compound carry a bearing on a shaft 0.006 mm low?", "2026-03-07", group="DR",
        part="DR-06", holds_up="DR.seat", where="retired toolmaker, asked twice"),
)
