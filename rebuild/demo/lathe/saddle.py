"""SD: the saddle and what holds it down."""

from __future__ import annotations

from rebuild.demo.words import (
    BUY,
    CLEANED,
    COMMON,
    DEFER,
    FOUND,
    GAP,
    JUDGED,
    NEEDS,
    REMAKE,
    REUSE,
    REWORK,
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
PARTS = (
    part("SD-01", "saddle", "EN-GJL-250",
        feat("underside wear, front V", WAY, "max 0.05", JUDGED, "headstock end/middle/tailstock end",
            read(CLEANED, "2026-06-13", "kl", "0.180|0.110|0.090",
                note="against a bridge on the tailstock ways"), sense="low",
            spec_note="about four times the bed: " + COMMON),
        feat("cross way, hollow", WAY, "max 0.02", JUDGED, "front/middle/rear",
            read(CLEANED, "2026-06-13", "kl", "0.006|0.024|0.008"), sense="hollow"), at="floor",
        stamped="418", condition="oil grooves worn shallow, bed ridge cut into the front edge",
        settled=settle(DEFER, "2026-06-13", "bed first: no use scraping it to a worn bed", "bed decided",
            "bed is ground: line the saddle")),
    part("SD-02", "front hold-down", "EN-GJL-200",
        feat("gap under the way", GAP, "0.01-0.04", JUDGED, "headstock end/tailstock end",
            read(FOUND, "2025-12-13", "kf", "0.12|0.07")), at="T4", match_mark="one dot"),
    part("SD-03", "rear hold-down", "EN-GJL-200",
        feat("gap under the way", GAP, "0.01-0.04", JUDGED, "headstock end/tailstock end",
            read(FOUND, "2025-12-13", "kf", "0.10|0.09")), at="T4", match_mark="two dots"),
    part("SD-04", "hold-down shims", "C26000",
        feat("thickness", WIDTH, "", None, "front/rear", read(CLEANED, "2026-06-13", "k1", "0.302|0.251")),
        at="bag4", quantity="2"),
    part("SD-05", "saddle wiper", "felt", quantity="4", origin="missing",
        settled=settle(BUY, "2026-06-13", "felt is always replaced")),
    part("SD-06", "wiper retainer", "S235", quantity="4", at="bag4"),
    part("SD-07", "carriage lock bolt", "C45", note="M12 x 1.75, eccentric head", at="bag4"),
    part("SD-08", "apron screw", "steel 8.8", quantity="4", note="M12 x 50", at="bag4"),
    part("SD-09", "thread dial", "C45", at="T4", condition="worn gear, reads half a division late",
        note="worm wheel 30 teeth on the leadscrew"),
)

STEPS = (
    step("SD.off", T.REMOVE, "Saddle off the bed", "45/60/90", "2026-02-14", after="AP.off XS.off",
        needs=((NEEDS.TWO_PEOPLE, "saddle about 62 kg"),), cautions="lifting"),
    step("SD.clean", T.CLEAN, "Clean the saddle, open the way oil drillings", "1 h/1.5 h/2 h", "2026-06-13",
        after="SD.off"),
    step("SD.measure", T.MEASURE, "Measure underside and cross way", "1 h/1.5 h/2 h", "2026-06-13",
        after="SD.clean"),
    step("SD.grooves", T.REWORK, "Deepen the oil grooves, prove the drillings", "1 h/1.5 h/2 h",
        after="SD.measure", part="SD-01"),
    step("SD.on", T.REFIT, "Saddle onto the bed, hold-downs set", "1.5 h/2 h/3 h",
        after="SD.grooves BED.rackswap", needs=((NEEDS.TWO_PEOPLE, "62 kg"),),
        because=(wait("BED.ridge", "ridge would ride under the front edge"),), cautions="lifting"),
    step("SD.wipers", T.REFIT, "Fit wipers after the ways are oiled", "30/45/60", after="SD.on"),
)

GROUP = group(
    "SD", "Saddle", PARTS, STEPS,
    settle(REWORK, "2026-06-13", "gap closed by peeling the shims under it", codes="SD-02 SD-03"),
    settle(REUSE, "2026-06-13", "sound", codes="SD-06 SD-07 SD-08"),
    settle(REMAKE, "2026-06-13", "worn gear", codes="SD-09"),
    settle(REWORK, "2026-06-13", "peel to close the gap", codes="SD-04"), off="2026-02-14",
)
