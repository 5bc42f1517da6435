"""TS: the top slide and tool post."""

from __future__ import annotations

from rebuild.demo.words import (
    BORE,
    CLEANED,
    COMMON,
    FOUND,
    GAP,
    JUDGED,
    LOST,
    OD,
    REMAKE,
    REUSE,
    WIDTH,
    T,
    feat,
    group,
    part,
    read,
    settle,
    step,
)  # fmt: skip

# One record to a few lines: a table reads better than a tower of single arguments.
# fmt: off
PARTS = (
    part("TS-01", "top slide", "EN-GJL-250",
        feat("gib gap", GAP, "0.01-0.03", JUDGED, "", read(FOUND, "2025-12-13", "kf", "0.06")), at="T4",
        figure_item="plate 8, 20"),
    part("TS-02", "top slide base", "EN-GJL-250",
        feat("swivel spigot", OD, "60 h6", None, "",
            read(CLEANED, "2026-06-13", "k3", "59.988", temp="21 C")), at="T4", figure_item="plate 8, 21"),
    part("TS-03", "top slide screw", "C45",
        feat("lost motion on the dial", LOST, "max 0.15", JUDGED, "", read(FOUND, "2025-12-13", "kd", "0.22"),
            spec_note=COMMON), at="T4", note="Tr 16x4 left hand"),
    part("TS-04", "top slide nut", "CuSn12", at="T4",
        settled=settle(REMAKE, "2026-06-13", "cheap and worn, screw is even", "0.05-0.10 mm lost motion")),
    part("TS-05", "gib and screws", "EN-GJL-200",
        feat("thickness", WIDTH, "7.90-8.00", JUDGED, "", read(CLEANED, "2026-06-13", "k1", "7.862")),
        at="T4"),
    part("TS-06", "tool post, four-way", "C45",
        feat("bore", BORE, "25 H7", None, "",
            read(CLEANED, "2026-06-13", "kb", "25.012; 25.013; 25.012", temp="21 C")), at="T4"),
    part("TS-07", "tool post stud", "42CrMo4",
        feat("diameter", OD, "25 g6", None, "",
            read(CLEANED, "2026-06-13", "k1", "24.987; 24.986; 24.987", temp="21 C")), at="T4",
        note="M16 below"),
    part("TS-08", "indexing pin and spring", "C45", at="bag4"),
)

STEPS = (
    step("TS.off", T.REMOVE, "Tool post and top slide off", "20/30/45", "2026-02-07"),
    step("TS.measure", T.MEASURE, "Measure gib, spigot and post", "30/45/60", "2026-06-13", after="TS.off"),
    step("TS.nut", T.MAKE, "Make the top slide nut Tr 16x4 left hand", "2 h/3 h/4 h", part="TS-04",
        after="TS.measure"),
    step("TS.on", T.REFIT, "Top slide on, gib set", "45/60/90", after="TS.nut XS.on"),
    step("TS.square", T.ALIGN, "Mark zero against the spindle", "30/45/60", after="TS.on HS.on"),
)

GROUP = group(
    "TS", "Top slide and tool post", PARTS, STEPS,
    settle(REUSE, "2026-06-13",
        "outside its unworn size by little: turns slowly, is adjusted out or flooded; live with it and note "
        "it", codes="TS-01 TS-03 TS-05"),
    settle(REUSE, "2026-06-13", "sound", codes="TS-02 TS-06 TS-07 TS-08"), parent="SD", off="2026-02-07",
)
