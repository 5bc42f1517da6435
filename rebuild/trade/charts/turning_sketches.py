"""Set-ups of the geometry tests of a lathe, drawn."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.trade.charts.machine_outlines import (
    AXIS,
    WAYS,
    bar,
    bed,
    carriage,
    headstock,
    stand,
    tailstock,
    travel,
    turn,
)
from rebuild.trade.drawing.sketch import Pad, Weight


def _level(pad: Pad) -> None:
    bed(pad)
    pad.box(12, WAYS - 8, 34, 8)
    for x in (36.0, 128.0):
        pad.box(x, WAYS - 7, 36, 7, Weight.MARK)
        pad.arc(x + 18, WAYS - 3.6, 2.0, weight=Weight.MARK)
        pad.line((x + 10, WAYS - 5.4), (x + 26, WAYS - 5.4), weight=Weight.MARK)
    travel(pad, 78, 122, WAYS - 4)
    pad.shape((66, 46), (74, 36), (82, 46), (82, 52), (118, 52), (118, 46), (134, 46), (134, 58), (66, 58))
    pad.box(70, 27, 62, 7, Weight.MARK)
    pad.line((74, 36), (74, 34), weight=Weight.MARK)
    pad.line((126, 46), (126, 34), weight=Weight.MARK)
    pad.arc(101, 30.5, 2.0, weight=Weight.MARK)
    pad.word(101, 22, "across")
    pad.word(164, WAYS - 12, "along")


def _tailstock_ways(pad: Pad) -> None:
    bed(pad)
    tailstock(pad)
    carriage(pad, 100)
    stand(pad, 112, 46)
    pad.line((112, 46), (126, 46), weight=Weight.THIN)
    pad.indicator(146, AXIS, (1, 0), 15)
    pad.indicator(150, 66, (1, 0), 22)
    travel(pad, 96, 140, 96)


def _axial(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    pad.shape((59, AXIS - 4), (72, AXIS - 3), (72, AXIS + 3), (59, AXIS + 4))
    pad.arc(74.4, AXIS, 2.4)
    pad.indicator(76.8, AXIS, (-1, 0), 18)
    carriage(pad, 84)
    stand(pad, 96, 45)
    turn(pad, 66, 30)


def _nose(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    pad.indicator(55.5, AXIS - 8, (0, 1), 15)
    carriage(pad, 70)
    pad.line((80, WAYS - 8), (80, 17), (60, 17), weight=Weight.THIN)
    turn(pad, 66, 46)


def _taper(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    bar(pad)
    pad.indicator(64, AXIS - 4, (0, 1), 14)
    pad.indicator(134, AXIS - 4, (0, 1), 14)
    turn(pad, 100, 34, 12)
    pad.word(64, 14, "nose")
    pad.word(134, 14, "far")


def _parallel(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    bar(pad)
    pad.indicator(70, AXIS - 4, (0, 1), 14)
    pad.line((88, WAYS - 8), (88, 22), (74.6, 22), weight=Weight.THIN)
    pad.indicator(130, AXIS - 4, (0, 1), 14)
    carriage(pad, 72)
    travel(pad, 76, 136, 60)
    pad.arc(176, AXIS, 8)
    pad.indicator(176, AXIS - 8, (0, 1), 12)
    pad.indicator(184, AXIS, (-1, 0), 12)
    pad.word(174, 68, "top and tool side")


def _centre(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    pad.shape((59, AXIS - 7), (74, AXIS), (59, AXIS + 7))
    pad.indicator(66, AXIS - 3.5, (-0.4, 1), 15)
    carriage(pad, 80)
    pad.line((90, WAYS - 8), (90, 25), (76, 25), weight=Weight.THIN)
    turn(pad, 64, 54, 7)


def _quill(pad: Pad) -> None:
    bed(pad)
    tailstock(pad, 44)
    pad.line((96, AXIS), (196, AXIS), weight=Weight.CENTRE)
    pad.indicator(118, AXIS - 5, (0, 1), 14)
    pad.indicator(148, AXIS - 5, (0, 1), 14)
    carriage(pad, 92)
    pad.line((104, WAYS - 8), (104, 21), (113, 21), weight=Weight.THIN)
    travel(pad, 108, 148, 60)


def _tailstock_bar(pad: Pad) -> None:
    bed(pad)
    tailstock(pad, 6)
    pad.box(72, AXIS - 4, 78, 8)
    pad.line((60, AXIS), (196, AXIS), weight=Weight.CENTRE)
    pad.indicator(80, AXIS - 4, (0, 1), 14)
    pad.indicator(140, AXIS - 4, (0, 1), 14)
    carriage(pad, 66)
    pad.line((92, WAYS - 8), (92, 22), (84.6, 22), weight=Weight.THIN)
    travel(pad, 76, 140, 60)


def _between(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    tailstock(pad)
    pad.shape((59, AXIS - 3), (66, AXIS), (59, AXIS + 3))
    pad.shape((146, AXIS - 3), (140, AXIS), (146, AXIS + 3))
    pad.box(66, AXIS - 4, 74, 8)
    pad.indicator(72, AXIS - 4, (0, 1), 14)
    pad.indicator(134, AXIS - 4, (0, 1), 14)
    carriage(pad, 84)
    travel(pad, 76, 132, 60)


def _top_slide(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    bar(pad)
    carriage(pad, 92, 44)
    pad.box(98, WAYS - 14, 34, 6)
    pad.box(106, WAYS - 20, 40, 6)
    pad.line((112, WAYS - 20), (112, 22), (100, 22), weight=Weight.THIN)
    pad.indicator(96, AXIS - 4, (0, 1), 14)
    travel(pad, 140, 184, WAYS - 17)


def _facing(pad: Pad) -> None:
    pad.box(30, 10, 26, 84)
    pad.hatch(30, 10, 26, 84, 7)
    pad.shape((56, 10), (76, 10), (72, 52), (76, 94), (56, 94))
    pad.line((20, 52), (150, 52), weight=Weight.CENTRE)
    pad.box(76, 6, 7, 92, Weight.MARK)
    pad.arrow((110, 52), (75, 52))
    pad.word(112, 49, "hollow here, never proud", "l")
    pad.indicator(76, 20, (-1, 0), 40)
    pad.word(124, 18, "far half", "l")
    pad.arrow((150, 66), (150, 92))
    pad.word(154, 82, "cross slide", "l")


def _leadscrew(pad: Pad) -> None:
    bed(pad)
    for x in (20.0, 168.0):
        pad.box(x, WAYS + 1, 9, 11)
    pad.box(29, WAYS + 4, 139, 5)
    x = 32.0
    while x < 166:
        pad.line((x, WAYS + 9), (x + 2, WAYS + 4), weight=Weight.THIN)
        x += 5
    carriage(pad, 84, 40)
    for at in (44.0, 152.0):
        pad.indicator(at, WAYS + 4, (0, 1), 26)
    pad.line((48.6, 56), (96, 56), (96, WAYS - 8), weight=Weight.THIN)
    travel(pad, 60, 140, 44)


def _collars(pad: Pad) -> None:
    headstock(pad)
    bed(pad)
    pad.shape(
        (59, 34),
        (66, 34),
        (66, 30),
        (76, 30),
        (76, 35),
        (122, 35),
        (122, 30),
        (132, 30),
        (132, 50),
        (122, 50),
        (122, 45),
        (76, 45),
        (76, 50),
        (66, 50),
        (66, 46),
        (59, 46),
    )
    carriage(pad, 92)
    pad.shape((104, WAYS - 8), (104, 58), (116, 58), (116, WAYS - 8))
    pad.shape((108, 58), (112, 58), (110, 51), weight=Weight.MARK)
    travel(pad, 72, 128, 20)
    pad.word(100, 14, "one setting, free end unsupported")


#: Each by the name a chart gives it.
TURNING: dict[str, Callable[[Pad], None]] = {
    "level": _level,
    "tailstock-ways": _tailstock_ways,
    "axial": _axial,
    "nose-runout": _nose,
    "taper-runout": _taper,
    "bar-parallel": _parallel,
    "centre-runout": _centre,
    "quill": _quill,
    "tailstock-bar": _tailstock_bar,
    "between-centres": _between,
    "top-slide": _top_slide,
    "facing": _facing,
    "leadscrew": _leadscrew,
    "two-collar": _collars,
}
