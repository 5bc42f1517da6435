"""XS: the cross slide with its screw, worn where most work is done."""

from __future__ import annotations

from rebuild.demo.words import (
    BORE,
    CLEANED,
    COMMON,
    END_PLAY,
    FOUND,
    GAP,
    GEAR,
    JUDGED,
    LOST,
    NEEDS,
    OD,
    REMAKE,
    REUSE,
    REWORK,
    THREAD,
    UNWORN,
    WAY,
    WIDTH,
    T,
    feat,
    group,
    part,
    read,
    settle,
    step,
    wait,
)  # fmt: skip

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
TRAVEL = "20/60/100/140 mm"

PARTS = (
    part("XS-01", "cross slide", "EN-GJL-250",
        feat("way, hollow", WAY, "max 0.02", JUDGED, "front/middle/rear",
            read(CLEANED, "2026-06-13", "kl", "0.008|0.016|0.006"), sense="hollow"),
        feat("gib gap", GAP, "0.01-0.03", JUDGED, "front/rear", read(FOUND, "2025-12-13", "kf", "0.05|0.09")),
        at="T4", stamped="418"),
    part("XS-02", "cross slide gib, tapered", "EN-GJL-200",
        feat("thick end", WIDTH, "10.90-11.20", UNWORN, "", read(CLEANED, "2026-06-13", "k1", "10.962")),
        at="T4", orientation="thick end to the operator"),
    part("XS-03", "cross screw", "C45",
        feat("lost motion on the dial", LOST, "max 0.15", JUDGED, TRAVEL,
            read(FOUND, "2025-12-13", "kd", "0.18|0.42|0.61|0.24"), spec_note="0.10-0.20 mm: " + COMMON),
        feat("pitch diameter", THREAD, "17.640-17.900", JUDGED, TRAVEL,
            read(CLEANED, "2026-06-13", "wires", "17.832|17.641|17.512|17.806"), thread="Tr 20x4 LH",
            spec_note="against the unworn end"),
        feat("collar journal", OD, "16 g6", None, "",
            read(CLEANED, "2026-06-13", "k1", "15.982; 15.982; 15.983")),
        feat("end play", END_PLAY, "max 0.03", JUDGED, "", read(FOUND, "2025-12-13", "kd", "0.12")),
        at="rack", condition="worn in the third nearest the work", figure_item="plate 8, 3",
        settled=settle(REMAKE, "2026-06-13", "0.43 mm more in the middle than at the ends: no nut helps",
            "lost motion under 0.15 mm everywhere", "an elastic nut turns up that takes the difference")),
    part("XS-04", "cross slide nut", "CuSn12",
        feat("spigot", OD, "24 g6", None, "", read(CLEANED, "2026-06-13", "k1", "23.987; 23.988; 23.987")),
        at="T4",
        settled=settle(REMAKE, "2026-06-13", "follows the new screw", "0.05-0.10 mm lost motion")),
    part("XS-05", "dial, 80 divisions", "C45",
        feat("bore", BORE, "28 H8", None, "", read(CLEANED, "2026-06-13", "kb", "28.024")), at="T4",
        note="0.05 mm a division on 4 mm lead"),
    part("XS-06", "thrust ball bearing 51102", "100Cr6", quantity="2", note="15 x 28 x 9 mm", at="bag4"),
    part("XS-07", "screw pinion, 20 teeth", "C45",
        feat("outside diameter", GEAR, "32.85-33.00", JUDGED, "",
            read(CLEANED, "2026-06-13", "kc", "32.92", note="module 1.5: 22 x 1.5")), at="T4"),
    part("XS-08", "gib screw", "C45", quantity="2", note="M8, slotted, with collar", at="bag4"),
    part("XS-09", "ball handle", "EN-GJMB-350", at="T4"),
    part("XS-10", "chip cover", "S235", origin="missing"),
)

STEPS = (
    step("XS.off", T.REMOVE, "Cross slide off, screw out", "30/45/60", "2026-02-14", after="TS.off"),
    step("XS.measure", T.MEASURE, "Measure slide, screw over wires, nut", "1 h/1.5 h/2 h", "2026-06-13",
        after="XS.off"),
    step("XS.screw", T.MAKE, "Turn the cross screw Tr 20x4 left hand", "6 h/8 h/10 h", part="XS-03",
        after="XS.measure", tools="travelling steady, left-hand tool",
        note="on the neighbour's lathe: this one is in pieces"),
    step("XS.nut", T.MAKE, "Make the cross nut to the new screw", "3 h/4 h/6 h", part="XS-04",
        because=(wait("XS.screw", "screw first, nut to screw"),)),
    step("XS.scrape", T.REWORK, "Scrape slide and saddle dovetail", "6 h/9 h/14 h", part="XS-01",
        after="XS.measure SD.on"),
    step("XS.on", T.REFIT, "Slide on, gib, screw threaded into its nut", "1 h/1.5 h/2 h",
        after="XS.nut XS.scrape", needs=((NEEDS.AT_POSITION, "saddle slid back"),)),
    step("XS.endplay", T.ADJUST, "Screw end play to about zero", "15/20/30", after="XS.on"),
    step("XS.lost", T.MEASURE, "Measure lost motion over the travel", "15/20/30",
        because=(wait("XS.endplay", "collar play first"),)),
    step("XS.cover", T.MAKE, "Make the chip cover", "45/60/90", part="XS-10"),
)

GROUP = group(
    "XS", "Cross slide", PARTS, STEPS,
    settle(REUSE, "2026-06-13", "sound", codes="XS-02 XS-05 XS-06 XS-07 XS-08 XS-09"),
    settle(REWORK, "2026-06-13", "0.016 mm hollow", "0.02 mm over its length", codes="XS-01"),
    settle(REMAKE, "2026-06-13", "missing", codes="XS-10"), parent="SD", off="2026-02-14",
)
