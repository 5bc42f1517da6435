"""LS: leadscrew, feed shaft and their brackets."""

from __future__ import annotations

from rebuild.demo.words import (
    BORE,
    CLEANED,
    DEFER,
    END_PLAY,
    FOUND,
    HANDBOOK,
    JUDGED,
    KEYWAY,
    OD,
    REMAKE,
    REUSE,
    RUNOUT,
    STRAIGHT,
    THREAD,
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
ALONG = "100/200/300/450/600/750 mm"

PARTS = (
    part("LS-01", "leadscrew", "C45",
        feat("pitch diameter", THREAD, "26.547-26.882", HANDBOOK, ALONG,
            read(CLEANED, "2026-03-14", "wires", "26.561|26.538|26.602|26.744|26.812|26.836", temp="10 C"),
            thread="Tr 30x6-7e", spec_note="ISO 2903, 7e"),
        feat("runout in V-blocks", RUNOUT, "max 0.10", JUDGED, "quarter/middle/three quarters",
            read(CLEANED, "2026-03-14", "kd", "0.05|0.09|0.04")),
        feat("journal, gearbox end", OD, "25 h6", None, "",
            read(CLEANED, "2026-03-14", "k1", "24.978; 24.979; 24.978", temp="10 C")),
        feat("journal, bracket end", OD, "22 h6", None, "",
            read(CLEANED, "2026-03-14", "k1", "21.972; 21.971; 21.972", temp="10 C")),
        feat("end play", END_PLAY, "max 0.03", JUDGED, "", read(FOUND, "2025-12-13", "kd", "0.11")),
        at="rack", figure_item="plate 7, 1", condition="thin near the headstock, crests still flat",
        settled=settle(DEFER, "2026-06-13", "0.27 mm thinner at 200 mm than at 750; threads so far are short",
            "lead within 0.02 mm in 100 mm", "a long thread is wanted: turn end for end")),
    part("LS-02", "feed shaft", "C45",
        feat("outside diameter", OD, "22 h8", None, "near/middle/far",
            read(CLEANED, "2026-03-14", "k1", "21.953|21.941|21.978", temp="10 C")),
        feat("keyway width", KEYWAY, "6 H9", None, "near/middle/far",
            read(CLEANED, "2026-03-14", "kc", "6.14|6.09|6.02")),
        feat("straightness over 1100 mm", STRAIGHT, "max 0.10", HANDBOOK, "",
            read(CLEANED, "2026-03-14", "kd", "0.18")), at="rack", figure_item="plate 7, 4"),
    part("LS-03", "right bracket", "EN-GJL-200",
        feat("leadscrew bush bore", BORE, "22 H7", None, "", read(CLEANED, "2026-03-14", "kb", "22.061")),
        feat("feed shaft bush bore", BORE, "22 F8", None, "", read(CLEANED, "2026-03-14", "kb", "22.048")),
        at="T6", figure_item="plate 7, 6", condition="dowel holes hammered"),
    part("LS-04", "bracket bush", "CuSn7Zn4Pb7-C", quantity="2", at="T6",
        settled=settle(REMAKE, "2026-06-13", "0.09 mm clearance on the leadscrew", "22 H7 after pressing")),
    part("LS-05", "thrust washer, leadscrew", "CuSn12", quantity="2", at="T6",
        orientation="grooves to the collar"),
    part("LS-06", "adjusting nut", "C45", note="M20 x 1.5", at="T6"),
    part("LS-07", "shear pin", "C15",
        feat("diameter", OD, "5.95-6.00", JUDGED, "",
            read(FOUND, "2026-03-14", "k1", "6.487", note="a hardened drill shank: no shear pin at all")),
        origin="earlier repair", at="T6",
        settled=settle(REMAKE, "2026-03-14", "a hardened drill shank cannot shear",
            "soft C15, 6 mm, notched")),
    part("LS-08", "dowel 8 x 40", "C45", quantity="2", note="ISO 8734", at="T6"),
)

STEPS = (
    step("LS.off", T.REMOVE, "Leadscrew and feed shaft out with the right bracket", "45/60/90", "2026-02-14"),
    step("LS.measure", T.MEASURE, "Measure screw over wires, runout, journals", "1.5 h/2 h/3 h", "2026-03-14",
        after="LS.off"),
    step("LS.pin", T.MAKE, "Make three soft shear pins, two to keep", "20/30/45", "2026-08-01", part="LS-07",
        after="LS.measure"),
    step("LS.straight", T.REWORK, "Straighten the feed shaft cold", "45/60/90", part="LS-02",
        after="LS.measure"),
    step("LS.bushes", T.MAKE, "Make the two bracket bushes", "1.5 h/2 h/3 h", part="LS-04",
        after="LS.measure"),
    step("LS.press", T.REFIT, "Press the bracket bushes in, then ream", "30/45/60", final=True, part="LS-04",
        after="LS.bushes"),
    step("LS.on", T.REFIT, "Leadscrew and feed shaft through apron, brackets snug", "1 h/1.5 h/2 h",
        after="LS.press LS.straight AP.on QC.on"),
    step("LS.align", T.ALIGN, "Brackets in line with the closed half nuts", "45/60/90", after="LS.on HN.in",
        note="within 0.10 mm both ways"),
    step("LS.pinbracket", T.REFIT, "Ream and pin the right bracket", "20/30/45", final=True,
        because=(wait("LS.align", "aligned before it is pinned"),)),
    step("LS.endplay", T.ADJUST, "End play of the leadscrew to about zero", "15/20/30", after="LS.align"),
)

GROUP = group(
    "LS", "Leadscrew and feed shaft", PARTS, STEPS,
    settle(REUSE, "2026-06-13", "sound", codes="LS-02 LS-03 LS-05 LS-06 LS-08"), off="2026-02-14",
)
