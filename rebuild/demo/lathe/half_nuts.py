"""HN: the half nuts, their cam and interlock."""

from __future__ import annotations

from rebuild.demo.words import (
    BORE,
    CLEANED,
    DRAWING,
    FOUND,
    JUDGED,
    MADE,
    OD,
    REMAKE,
    REUSE,
    THREAD,
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
    part("HN-01", "half nut, upper", "CuSn12",
        feat("crest width", THREAD, "2.00-2.20", JUDGED, "",
            read(FOUND, "2026-03-14", "kc", "1.42", note="crests sharp", sure=True)),
        feat("slide thickness", WIDTH, "14.95-14.98", JUDGED, "", read(CLEANED, "2026-03-14", "k1", "14.91")),
        at="T5", match_mark="418 and one dot", figure_item="plate 9, 20",
        settled=settle(REMAKE, "2026-03-21", "slips under drag", "full depth on the leadscrew's unworn end",
            "leadscrew turned end for end first")),
    part("HN-02", "half nut, lower", "CuSn12",
        feat("crest width", THREAD, "2.00-2.20", JUDGED, "",
            read(FOUND, "2026-03-14", "kc", "1.38", sure=True)), at="T5", match_mark="418 and one dot",
        settled=settle(REMAKE, "2026-03-21", "a pair with the upper", "full depth")),
    part("HN-03", "half nut blank, pair", "CuSn12",
        feat("bore before threading", BORE, "24.00-24.05", DRAWING, "",
            read(MADE, "2026-09-12", "kb", "24.02")),
        feat("slide thickness", WIDTH, "14.95-14.98", DRAWING, "",
            read(MADE, "2026-09-12", "k1", "14.968; 14.969; 14.968")), origin="remade", at="B2",
        placed="2026-09-12", note="bored, not threaded: waits for a Tr 30x6 tap or a day at the neighbour's"),
    part("HN-04", "cam plate", "C45",
        feat("slot width", WIDTH, "8.00-8.10", JUDGED, "upper/lower",
            read(FOUND, "2026-03-14", "kc", "8.31|8.12")), at="T5", figure_item="plate 9, 22"),
    part("HN-05", "cam pin", "C45",
        feat("outside diameter", OD, "8 h8", None, "upper/lower",
            read(FOUND, "2026-03-14", "k1", "7.914|7.961")), quantity="2", at="bag4",
        settled=settle(REMAKE, "2026-03-21", "0.09 mm worn", "8 h8")),
    part("HN-06", "half nut gib", "C45", origin="earlier repair", at="T5",
        condition="home-made from strip, no dimples"),
    part("HN-07", "half nut lever", "EN-GJMB-350", at="T5"),
    part("HN-08", "interlock pin", "C45",
        feat("length", WIDTH, "", None, "", read(FOUND, "2026-03-14", "kc", "63.4")),
        other_names="long pin, apron?", at="bag4",
        note="bag said: long pin, apron? It stops half nuts and feed engaging together"),
)

STEPS = (
    step("HN.out", T.REMOVE, "Half nuts and cam out", "20/30/45", "2026-02-21", after="AP.off"),
    step("HN.measure", T.MEASURE, "Measure half nuts, slides and cam", "30/45/60", "2026-03-14",
        after="HN.out"),
    step("HN.blank", T.MAKE, "Plane and bore the half nut blank in one piece", "4 h/6 h/8 h", "2026-09-12",
        part="HN-03", after="HN.measure"),
    step("HN.thread", T.MAKE, "Thread the half nuts Tr 30x6 and part them", "4 h/6 h/9 h", part="HN-01",
        after="HN.blank", tools="Tr 30x6 tap, or a long boring bar"),
    step("HN.pins", T.MAKE, "Make two cam pins 8 h8", "30/45/60", part="HN-05", after="HN.measure"),
    step("HN.cam", T.REWORK, "Weld up and file the cam slots", "1 h/1.5 h/2 h", part="HN-04",
        after="HN.measure", cautions="torch"),
    step("HN.gib", T.MAKE, "Make a proper half nut gib with dimples", "1 h/1.5 h/2 h", part="HN-06",
        after="HN.thread"),
    step("HN.trial", T.REFIT, "Trial on the leadscrew: full depth, no jump", "20/30/45",
        after="HN.thread HN.pins HN.cam"),
    step("HN.in", T.REFIT, "Half nuts, cam and interlock in", "45/60/90", after="HN.trial HN.gib",
        because=(wait("AP.worm", "worm drive goes in before the half nuts"),)),
)

GROUP = group(
    "HN", "Half nuts", PARTS, STEPS,
    settle(REUSE, "2026-03-21", "sound", codes="HN-04 HN-07 HN-08"),
    settle(REMAKE, "2026-03-21", "home-made strip", codes="HN-06"), parent="AP", off="2026-02-21",
)
