"""Set-ups of the geometry tests of a milling machine, drawn."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.trade.charts.machine_outlines import head, table, travel
from rebuild.trade.drawing.sketch import Pad, Weight


def _flat(pad: Pad) -> None:
    table(pad)
    pad.box(34, 72, 8, 6)
    pad.box(158, 72, 8, 6)
    pad.shape((30, 72), (170, 72), (160, 56), (40, 56), weight=Weight.MARK)
    pad.box(96, 72.6, 8, 5, Weight.MARK)
    pad.word(100, 50, "gauge blocks or feelers under it")


def _square(pad: Pad) -> None:
    table(pad)
    head(pad, 76)
    pad.shape((96, 78), (96, 22), (104, 22), (104, 70), (140, 70), (140, 78))
    pad.line((76, 34), (76, 46), (82, 46), weight=Weight.THIN)
    pad.indicator(96, 46, (1, 0), 15)
    pad.arrow((168, 54), (168, 30))
    pad.arrow((168, 54), (168, 72))


def _slot(pad: Pad) -> None:
    table(pad)
    head(pad)
    pad.line((100, 34), (92, 52), weight=Weight.THIN)
    pad.indicator(97, 80, (0.5, 1), 24)
    travel(pad, 40, 160, 100)


def _tram(pad: Pad) -> None:
    table(pad)
    head(pad)
    pad.line((100, 34), (100, 44), (62, 44), (62, 56), weight=Weight.THIN)
    pad.indicator(62, 78, (0, 1), 16)
    pad.indicator(138, 78, (0, 1), 16)
    pad.arc(100, 50, 30, 200, 340, Weight.THIN)
    pad.arrow((126, 35), (128.4, 40.6))


def _over_table(pad: Pad) -> None:
    table(pad)
    pad.shape((8, 18), (120, 18), (128, 24), (128, 36), (8, 36))
    pad.box(118, 30, 16, 20)
    pad.line((126, 50), (126, 58), weight=Weight.THIN)
    pad.indicator(126, 78, (0, 1), 16)
    travel(pad, 40, 104, 10)
    travel(pad, 40, 160, 97)


#: Each by the name a chart gives it.
MILLING: dict[str, Callable[[Pad], None]] = {
    "flat": _flat,
    "square": _square,
    "slot": _slot,
    "tram": _tram,
    "over-table": _over_table,
}
