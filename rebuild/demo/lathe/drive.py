"""DR: motor, countershaft and electrics."""

from __future__ import annotations

from rebuild.demo.words import (
    BORE,
    BUY,
    CLEANED,
    DEFER,
    JUDGED,
    OD,
    REUSE,
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
    part("DR-01", "motor 2.2 kW", "",
        feat("shaft", OD, "28 k6", None, "", read(CLEANED, "2026-07-19", "k2", "28.009; 28.009; 28.010")),
        at="A1", placed="2026-07-19", stamped="2.2 kW 1430 rpm 220/380 V"),
    part("DR-02", "motor sheave 100 mm", "EN-GJL-200",
        feat("bore", BORE, "28 H7", None, "", read(CLEANED, "2026-07-19", "kb", "28.014; 28.013; 28.014")),
        at="A1", placed="2026-07-19"),
    part("DR-03", "countershaft", "C45",
        feat("bearing seat", OD, "25 k6", None, "left/right",
            read(CLEANED, "2026-07-19", "k2", "25.011|25.007")), at="rack", placed="2026-07-19"),
    part("DR-04", "ball bearing 6205", "100Cr6",
        feat("bore", BORE, "25 0/-0.010", JUDGED, "", read(CLEANED, "2026-07-19", "kb", "24.996")),
        quantity="2", at="A1", placed="2026-07-19", note="25 x 52 x 15 mm", condition="one rumbles",
        settled=settle(BUY, "2026-07-19", "one rumbles after washing")),
    part("DR-05", "V-belt A 1250", "rubber", quantity="2", origin="missing",
        settled=settle(BUY, "2026-07-19", "belts are always replaced")),
    part("DR-06", "drum switch", "", at="A1", placed="2026-07-19", condition="brass contacts burnt",
        settled=settle(DEFER, "2026-07-19", "an inverter wants low-level inputs, not a drum switch",
            would_change="inverter manual allows it")),
    part("DR-07", "belt cover", "S235", at="A2", placed="2026-07-19",
        condition="hinge torn, old paint flaking", finish="grey enamel"),
    part("DR-08", "work light, 24 V", "", at="A1", placed="2026-07-19", identity="suspected",
        suspects="not from this lathe: bracket holes do not match"),
)

STEPS = (
    step("DR.isolate", T.REMOVE, "Isolate, tag the wires, take the motor off", "45/60/90", "2026-07-19",
        cautions="mains lockout"),
    step("DR.measure", T.MEASURE, "Measure shafts and seats, meg the motor", "30/45/60", "2026-07-19",
        after="DR.isolate", done_note="over 20 megohm"),
    step("DR.bearings", T.BUY, "Buy two 6205 and two belts", "10/15/20", part="DR-04"),
    step("DR.counter", T.REFIT, "Warm the bearings on, countershaft in", "45/60/90", after="DR.bearings",
        part="DR-04", cautions="heating"),
    step("DR.motor", T.REFIT, "Motor and sheave on", "30/45/60", after="DR.counter"),
    step("DR.inverter", T.BUY, "Choose and buy an inverter for 2.2 kW", "45/60/90", cautions="mains"),
    step("DR.wire", T.REFIT, "Wire inverter, earth and emergency stop", "3 h/4 h/6 h",
        after="DR.inverter DR.motor", cautions="mains",
        note="no switch between drive and motor; an electrician looks at it"),
    step("DR.direction", T.COMMISSION, "Prove direction with belt and chuck off", "10/15/20",
        after="DR.wire"),
    step("DR.belts", T.REFIT, "Belts on, cover closed", "20/30/45", part="DR-05",
        because=(wait("DR.direction", "direction proved before belt and chuck go on"),), after="HS.on"),
    step("DR.cover", T.REWORK, "Weld the cover's hinge", "30/45/60", part="DR-07", cautions="torch"),
)

GROUP = group(
    "DR", "Drive and electrics", PARTS, STEPS,
    settle(REUSE, "2026-07-19", "sound", codes="DR-01 DR-02 DR-03 DR-07"), off="2026-07-19",
    scope="refurbish",
)
