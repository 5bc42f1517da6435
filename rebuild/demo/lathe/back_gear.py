"""BG: the back gear behind the spindle."""

from __future__ import annotations

from rebuild.demo.words import (
    BORE,
    CLEANED,
    DRAWING,
    END_PLAY,
    FOUND,
    GEAR,
    JUDGED,
    OD,
    REMAKE,
    REUSE,
    REWORK,
    TAPER,
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
    part("BG-01", "eccentric shaft", "C45",
        feat("quill journal", OD, "28 f7", None, "left/right",
            read(CLEANED, "2026-10-23", "k2", "27.968|27.951", temp="13 C")),
        feat("eccentric ends", OD, "34 g6", None, "left/right",
            read(CLEANED, "2026-10-23", "k2", "33.986|33.981", temp="13 C")), at="bench2",
        figure_item="plate 4, 1"),
    part("BG-02", "quill with pinion, 20 teeth", "C45",
        feat("bore", BORE, "28 H7", None, "left/right",
            read(CLEANED, "2026-10-23", "kb", "28.031|28.044", temp="13 C")),
        feat("pinion outside diameter", GEAR, "54.85-55.00", DRAWING, "",
            read(CLEANED, "2026-10-23", "kc", "54.91", note="20 teeth, module 2.5: 22 x 2.5")),
        feat("rim seat", OD, "120 s6", None, "",
            read(CLEANED, "2026-10-23", "kc", "120.09", note="caliper only: seat is 120.079-120.101")),
        at="bench2", figure_item="plate 4, 2"),
    part("BG-03", "gear rim, 60 teeth", "C45",
        feat("outside diameter", GEAR, "154.80-155.00", DRAWING, "",
            read(CLEANED, "2026-10-23", "rule", "155 mm", note="60 teeth, module 2.5: 62 x 2.5")),
        feat("bore", BORE, "120 H7", None, "",
            read(CLEANED, "2026-10-23", "kb2", "120.058", note="cracked through at the keyway: sprung open")),
        at="bench2", condition="cracked through at the keyway, slips under a heavy cut",
        figure_item="plate 4, 3",
        settled=settle(REMAKE, "2026-10-23", "cracked rim slips", "H7/s6 shrunk on, no key")),
    part("BG-04", "quill bush", "CuSn7Zn4Pb7-C", quantity="2", at="bench2"),
    part("BG-05", "back gear lever", "EN-GJMB-350", at="bag5"),
    part("BG-06", "taper pin 6 x 50", "C45",
        feat("small end", TAPER, "5.95-6.05", DRAWING, "", read(CLEANED, "2026-10-23", "k1", "5.996")),
        note="ISO 2339, 1:50", at="bag5"),
    part("BG-07", "spacing collar", "C45",
        feat("width", END_PLAY, "11.90-12.00", JUDGED, "", read(FOUND, "2026-10-23", "k1", "11.71")),
        at="bag5"),
)

STEPS = (
    step("BG.off", T.REMOVE, "Drive the taper pin, eccentric shaft out", "30/45/90", "2026-10-12",
        after="HS.spindle"),
    step("BG.measure", T.MEASURE, "Measure shaft, quill and rim", "45/60/90", "2026-10-23", after="BG.off"),
    step("BG.cutgear", T.SEND_OUT, "Have a 60 tooth rim cut, module 2.5", "30/45/60", part="BG-03",
        after="BG.measure"),
    step("BG.bushes", T.MAKE, "Bush the quill to the shaft", "1.5 h/2 h/3 h", part="BG-02",
        after="BG.measure"),
    step("BG.pressrim", T.REFIT, "Shrink the rim on, oven at 180 C", "45/60/90", final=True, part="BG-03",
        after="BG.cutgear BG.bushes", cautions="heating"),
    step("BG.in", T.REFIT, "Back gear in, mesh with paper between the teeth", "45/60/90",
        after="BG.pressrim HS.in"),
    step("BG.pin", T.REFIT, "Drive the taper pin", "5/10/15", final=True,
        because=(wait("BG.in", "pinned only when it meshes"),)),
)

GROUP = group(
    "BG", "Back gear", PARTS, STEPS,
    settle(REUSE, "2026-10-23",
        "outside its unworn size by little: turns slowly, is adjusted out or flooded; live with it and note "
        "it", codes="BG-01"),
    settle(REWORK, "2026-10-23", "0.06-0.09 mm on the shaft: bush it", codes="BG-02"),
    settle(REUSE, "2026-10-23", "sound", codes="BG-05 BG-06"),
    settle(REMAKE, "2026-10-23", "worn out of round", codes="BG-04 BG-07"), parent="HS", off="2026-10-12",
)
