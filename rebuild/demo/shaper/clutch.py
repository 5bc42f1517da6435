"""CL: the multi-disc clutch and brake on the drive shaft."""

from __future__ import annotations

from rebuild.demo.words import (
    BUY,
    CLEANED,
    DEFER,
    FOUND,
    JUDGED,
    LENGTH,
    OD,
    REUSE,
    REWORK,
    UNWORN,
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
    part("CL-01", "clutch drum", "cast iron", at="T3", figure_item="sheet 8, 10", match_mark="two dots"),
    part("CL-02", "lined disc", "SAE 1020",
        feat("thickness over linings", WIDTH, "0.240-0.252", UNWORN, "first/middle/last",
            read(CLEANED, "2025-09-20", "m1", "0.2341|0.2362|0.2388")), quantity="5", at="bag3",
        condition="lining may hold asbestos: wetted, double bag, never blown", figure_item="sheet 8, 12",
        settled=settle(DEFER, "2025-09-30", "within 0.010 in of new; not touched until the lining is tested",
            would_change="test result")),
    part("CL-03", "plain disc", "SAE 1020",
        feat("thickness", WIDTH, "0.122-0.126", UNWORN, "",
            read(CLEANED, "2025-09-20", "m1", "0.1236; 0.1235; 0.1236")), quantity="6", at="bag3",
        condition="blued, flat"),
    part("CL-04", "pressure plate", "cast iron", at="T3"),
    part("CL-05", "clutch finger", "SAE 1045",
        feat("tip to pivot", LENGTH, "1.245-1.255", UNWORN, "1/2/3",
            read(FOUND, "2025-09-20", "cal", "1.238|1.241|1.249")), quantity="3", at="bag3",
        handedness="a set of three", match_mark="1, 2, 3"),
    part("CL-06", "release spring", "music wire ASTM A228",
        feat("free length", LENGTH, "1.22-1.28", JUDGED, "", read(CLEANED, "2025-09-20", "cal", "1.25")),
        quantity="6", at="bag3"),
    part("CL-07", "shifter collar", "SAE 64 (C93700)",
        feat("groove width", WIDTH, "0.500-0.508", UNWORN, "", read(CLEANED, "2025-09-20", "cal", "0.521")),
        at="T3", figure_item="sheet 8, 16"),
    part("CL-08", "brake cone facing", "lining, unknown", origin="unknown", at="bag3",
        condition="oil-soaked, may hold asbestos",
        settled=settle(BUY, "2025-09-30", "oil-soaked; a modern facing is bonded by a brake shop",
            "holds the ram at any point")),
    part("CL-09", "clutch lever shaft", "SAE 1045",
        feat("journal", OD, "0.8735-0.8745", UNWORN, "", read(CLEANED, "2025-09-20", "m1", "0.8722")),
        at="rack"),
)

STEPS = (
    step("CL.out", T.REMOVE, "Clutch out, wetted, discs into a double bag", "1 h/1.5 h/2 h", "2025-07-12",
        after="DR.shaftout", cautions="asbestos"),
    step("CL.sample", T.SEND_OUT, "Send a lining sample to be tested for asbestos", "20/30/45", part="CL-02",
        after="CL.out", cautions="asbestos"),
    step("CL.measure", T.MEASURE, "Measure discs and fingers, wet", "30/45/60", "2025-09-20", after="CL.out"),
    step("CL.facing", T.SEND_OUT, "Have the brake cone faced by a brake shop", "20/30/45", part="CL-08",
        after="CL.sample"),
    step("CL.fingers", T.REWORK, "Build up the two short fingers and file to the third", "1.5 h/2 h/3 h",
        after="CL.measure", part="CL-05", cautions="torch"),
    step("CL.build", T.REFIT, "Assemble discs, plate, fingers and springs", "1.5 h/2 h/3 h",
        after="CL.sample CL.fingers CL.facing", cautions="asbestos"),
    step("CL.set", T.ADJUST, "Set the clutch: snaps over, frees fully", "30/45/60",
        because=(wait("DR.belts", "clutch is set last, under belt tension"),), after="CL.build"),
)

GROUP = group(
    "CL", "Clutch and brake", PARTS, STEPS,
    settle(REUSE, "2025-09-30",
        "outside its unworn size by little: turns slowly, is adjusted out or flooded; live with it and note "
        "it", codes="CL-07 CL-09"),
    settle(REWORK, "2025-09-30", "two fingers 0.008-0.010 in short: build up, file to the third",
        codes="CL-05"),
    settle(REUSE, "2025-09-30", "sound", codes="CL-01 CL-03 CL-04 CL-06"), parent="DR", off="2025-07-12",
)
