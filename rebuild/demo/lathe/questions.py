"""What was asked about the lathe."""

from __future__ import annotations

from rebuild.demo.words import asked

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
QUESTIONS = (
    asked("Which bearing lift did the maker want on a 65 mm plain spindle?", "2025-12-14", group="HS",
        part="HS-02", answer="assume 0.018-0.025 mm with a 35 kg pull",
        by="common practice for plain bearings of this size", answered="2026-10-23", assumed=True),
    asked("Where does the thick washer of the apron go?", "2026-02-21", group="AP", part="AP-20",
        holds_up="AP.worm", where="plate 9 shows none"),
    asked("Is the front journal's scratch a reason to grind?", "2026-10-12", group="HS", part="HS-01",
        holds_up="HS.decide", where="retired toolmaker, letter"),
    asked("Which module has the tumbler reverse?", "2026-07-19", group="TR", part="TR-02",
        answer="module 1.75: 45.44 over 26", by="measured", answered="2026-08-03"),
    asked("Does the depot's 47 tooth gear belong to a pitch we need?", "2025-12-13", part="X-03",
        where="depot's old foreman"),
    asked("What colour was it in 1957?", "2025-12-13", where="inside of the gearbox",
        answer="blue-grey, paint inside the gearbox is whole", by="found under the oil trough",
        answered="2026-06-13"),
    asked("Torque for the cap screws M12 in grey iron?", "2026-10-23", group="HS", part="HS-07",
        answer="assume 45 N·m, oiled", by="common practice, no source", answered="2026-11-07", assumed=True),
    asked("Insert one tooth in the 32, or a new gear?", "2026-06-13", group="QC", part="QC-03",
        holds_up="QC.tooth", where="gear cutter, asked for a price"),
    asked("Is the bed hardened?", "2025-12-14", group="BED", part="BED-01",
        answer="no: a file bites at the end face", by="tried", answered="2026-06-13"),
)
