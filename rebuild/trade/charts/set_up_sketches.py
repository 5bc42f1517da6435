"""How each geometry test is set up, as small line drawings: what stands, what moves, what the indicator touches."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from rebuild.trade.drawing.sketch import Drawing, Pad, Weight

WIDTH, HEIGHT = 200.0, 104.0
_AXIS = 40.0
_WAYS = 78.0


def sketch_names() -> tuple[str, ...]:
    """Every sketch there is, to choose from for a test of one's own.

    >>> "tram" in sketch_names()
    True
    """
    return tuple(_SKETCHES)


@cache
def sketch(name: str) -> Drawing | None:
    """The drawing of a set-up, or None for a name without one.

    >>> len(sketch("bar-parallel").strokes) > 10
    True
    """
    draw = _SKETCHES.get(name)
    if draw is None:
        return None
    pad = Pad(WIDTH, HEIGHT)
    draw(pad)
    return pad.drawing()


def _bed(pad: Pad, left: float = 8, right: float = 192) -> None:
    pad.box(left, _WAYS, right - left, 5)
    pad.box(left + 3, _WAYS + 5, right - left - 6, 12)
    for x in (left + 8, right - 26):
        pad.line((x, _WAYS + 17), (x - 3, 100), (x + 21, 100), (x + 18, _WAYS + 17))
    pad.line((2, 100), (198, 100), weight=Weight.THIN)


def _headstock(pad: Pad) -> None:
    pad.shape((12, _WAYS), (12, 26), (18, 20), (46, 20), (52, 26), (52, _WAYS))
    pad.box(52, _AXIS - 8, 7, 16)
    pad.line((6, _AXIS), (196, _AXIS), weight=Weight.CENTRE)


def _tailstock(pad: Pad, quill: float = 10.0) -> None:
    pad.shape((150, _WAYS), (150, 62), (156, 52), (156, 30), (186, 30), (186, 52), (190, 62), (190, _WAYS))
    pad.box(156 - quill, _AXIS - 5, quill, 10)


def _carriage(pad: Pad, x: float, width: float = 34.0) -> None:
    pad.box(x, _WAYS - 8, width, 8)
    pad.line(
        (x + 3, _WAYS),
        (x + 3, _WAYS + 14),
        (x + width - 3, _WAYS + 14),
        (x + width - 3, _WAYS),
        weight=Weight.THIN,
    )


def _bar(pad: Pad, left: float = 59.0, right: float = 140.0) -> None:
    pad.box(left, _AXIS - 4, right - left, 8)


def _stand(pad: Pad, x: float, y: float) -> None:
    """A post from the carriage to the indicator's stem."""
    pad.line((x, _WAYS - 8), (x, y), weight=Weight.THIN)


def _travel(pad: Pad, x1: float, x2: float, y: float) -> None:
    middle = (x1 + x2) / 2
    pad.arrow((middle, y), (x2, y))
    pad.arrow((middle, y), (x1, y))


def _turn(pad: Pad, x: float, y: float, r: float = 9.0) -> None:
    pad.arc(x, y, r, 200, 340, Weight.THIN)
    pad.arrow((x + r * 0.80, y - r * 0.60), (x + r * 0.98, y - r * 0.22))


def _level(pad: Pad) -> None:
    _bed(pad)
    pad.box(12, _WAYS - 8, 34, 8)
    for x in (36.0, 128.0):
        pad.box(x, _WAYS - 7, 36, 7, Weight.MARK)
        pad.arc(x + 18, _WAYS - 3.6, 2.0, weight=Weight.MARK)
        pad.line((x + 10, _WAYS - 5.4), (x + 26, _WAYS - 5.4), weight=Weight.MARK)
    _travel(pad, 78, 122, _WAYS - 4)
    pad.shape((66, 46), (74, 36), (82, 46), (82, 52), (118, 52), (118, 46), (134, 46), (134, 58), (66, 58))
    pad.box(70, 27, 62, 7, Weight.MARK)
    pad.line((74, 36), (74, 34), weight=Weight.MARK)
    pad.line((126, 46), (126, 34), weight=Weight.MARK)
    pad.arc(101, 30.5, 2.0, weight=Weight.MARK)
    pad.word(101, 22, "across")
    pad.word(164, _WAYS - 12, "along")


def _tailstock_ways(pad: Pad) -> None:
    _bed(pad)
    _tailstock(pad)
    _carriage(pad, 100)
    _stand(pad, 112, 46)
    pad.line((112, 46), (126, 46), weight=Weight.THIN)
    pad.indicator(146, _AXIS, (1, 0), 15)
    pad.indicator(150, 66, (1, 0), 22)
    _travel(pad, 96, 140, 96)


def _axial(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
    pad.shape((59, _AXIS - 4), (72, _AXIS - 3), (72, _AXIS + 3), (59, _AXIS + 4))
    pad.arc(74.4, _AXIS, 2.4)
    pad.indicator(76.8, _AXIS, (-1, 0), 18)
    _carriage(pad, 84)
    _stand(pad, 96, 45)
    _turn(pad, 66, 30)


def _nose(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
    pad.indicator(55.5, _AXIS - 8, (0, 1), 15)
    _carriage(pad, 70)
    pad.line((80, _WAYS - 8), (80, 17), (60, 17), weight=Weight.THIN)
    _turn(pad, 66, 46)


def _taper(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
    _bar(pad)
    pad.indicator(64, _AXIS - 4, (0, 1), 14)
    pad.indicator(134, _AXIS - 4, (0, 1), 14)
    _turn(pad, 100, 34, 12)
    pad.word(64, 14, "nose")
    pad.word(134, 14, "far")


def _parallel(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
    _bar(pad)
    pad.indicator(70, _AXIS - 4, (0, 1), 14)
    pad.line((88, _WAYS - 8), (88, 22), (74.6, 22), weight=Weight.THIN)
    pad.indicator(130, _AXIS - 4, (0, 1), 14)
    _carriage(pad, 72)
    _travel(pad, 76, 136, 60)
    pad.arc(176, _AXIS, 8)
    pad.indicator(176, _AXIS - 8, (0, 1), 12)
    pad.indicator(184, _AXIS, (-1, 0), 12)
    pad.word(174, 68, "top and tool side")


def _centre(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
    pad.shape((59, _AXIS - 7), (74, _AXIS), (59, _AXIS + 7))
    pad.indicator(66, _AXIS - 3.5, (-0.4, 1), 15)
    _carriage(pad, 80)
    pad.line((90, _WAYS - 8), (90, 25), (76, 25), weight=Weight.THIN)
    _turn(pad, 64, 54, 7)


def _quill(pad: Pad) -> None:
    _bed(pad)
    _tailstock(pad, 44)
    pad.line((96, _AXIS), (196, _AXIS), weight=Weight.CENTRE)
    pad.indicator(118, _AXIS - 5, (0, 1), 14)
    pad.indicator(148, _AXIS - 5, (0, 1), 14)
    _carriage(pad, 92)
    pad.line((104, _WAYS - 8), (104, 21), (113, 21), weight=Weight.THIN)
    _travel(pad, 108, 148, 60)


def _tailstock_bar(pad: Pad) -> None:
    _bed(pad)
    _tailstock(pad, 6)
    pad.box(72, _AXIS - 4, 78, 8)
    pad.line((60, _AXIS), (196, _AXIS), weight=Weight.CENTRE)
    pad.indicator(80, _AXIS - 4, (0, 1), 14)
    pad.indicator(140, _AXIS - 4, (0, 1), 14)
    _carriage(pad, 66)
    pad.line((92, _WAYS - 8), (92, 22), (84.6, 22), weight=Weight.THIN)
    _travel(pad, 76, 140, 60)


def _between(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
    _tailstock(pad)
    pad.shape((59, _AXIS - 3), (66, _AXIS), (59, _AXIS + 3))
    pad.shape((146, _AXIS - 3), (140, _AXIS), (146, _AXIS + 3))
    pad.box(66, _AXIS - 4, 74, 8)
    pad.indicator(72, _AXIS - 4, (0, 1), 14)
    pad.indicator(134, _AXIS - 4, (0, 1), 14)
    _carriage(pad, 84)
    _travel(pad, 76, 132, 60)


def _top_slide(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
    _bar(pad)
    _carriage(pad, 92, 44)
    pad.box(98, _WAYS - 14, 34, 6)
    pad.box(106, _WAYS - 20, 40, 6)
    pad.line((112, _WAYS - 20), (112, 22), (100, 22), weight=Weight.THIN)
    pad.indicator(96, _AXIS - 4, (0, 1), 14)
    _travel(pad, 140, 184, _WAYS - 17)


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
    _bed(pad)
    for x in (20.0, 168.0):
        pad.box(x, _WAYS + 1, 9, 11)
    pad.box(29, _WAYS + 4, 139, 5)
    x = 32.0
    while x < 166:
        pad.line((x, _WAYS + 9), (x + 2, _WAYS + 4), weight=Weight.THIN)
        x += 5
    _carriage(pad, 84, 40)
    for at in (44.0, 152.0):
        pad.indicator(at, _WAYS + 4, (0, 1), 26)
    pad.line((48.6, 56), (96, 56), (96, _WAYS - 8), weight=Weight.THIN)
    _travel(pad, 60, 140, 44)


def _collars(pad: Pad) -> None:
    _headstock(pad)
    _bed(pad)
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
    _carriage(pad, 92)
    pad.shape((104, _WAYS - 8), (104, 58), (116, 58), (116, _WAYS - 8))
    pad.shape((108, 58), (112, 58), (110, 51), weight=Weight.MARK)
    _travel(pad, 72, 128, 20)
    pad.word(100, 14, "one setting, free end unsupported")


def _table(pad: Pad, y: float = 78.0) -> None:
    pad.box(14, y, 172, 12)
    for x in (50.0, 100.0, 150.0):
        pad.line(
            (x - 3, y),
            (x - 3, y + 4),
            (x - 5, y + 4),
            (x - 5, y + 8),
            (x + 5, y + 8),
            (x + 5, y + 4),
            (x + 3, y + 4),
            (x + 3, y),
        )
    pad.line((14, y + 12), (30, y + 22), weight=Weight.THIN)
    pad.line((186, y + 12), (170, y + 22), weight=Weight.THIN)


def _head(pad: Pad, x: float = 100.0) -> None:
    pad.box(x - 14, 4, 28, 22)
    pad.box(x - 6, 26, 12, 8)
    pad.line((x, 2), (x, 98), weight=Weight.CENTRE)


def _flat(pad: Pad) -> None:
    _table(pad)
    pad.box(34, 72, 8, 6)
    pad.box(158, 72, 8, 6)
    pad.shape((30, 72), (170, 72), (160, 56), (40, 56), weight=Weight.MARK)
    pad.box(96, 72.6, 8, 5, Weight.MARK)
    pad.word(100, 50, "gauge blocks or feelers under it")


def _square(pad: Pad) -> None:
    _table(pad)
    _head(pad, 76)
    pad.shape((96, 78), (96, 22), (104, 22), (104, 70), (140, 70), (140, 78))
    pad.line((76, 34), (76, 46), (82, 46), weight=Weight.THIN)
    pad.indicator(96, 46, (1, 0), 15)
    pad.arrow((168, 54), (168, 30))
    pad.arrow((168, 54), (168, 72))


def _slot(pad: Pad) -> None:
    _table(pad)
    _head(pad)
    pad.line((100, 34), (92, 52), weight=Weight.THIN)
    pad.indicator(97, 80, (0.5, 1), 24)
    _travel(pad, 40, 160, 100)


def _tram(pad: Pad) -> None:
    _table(pad)
    _head(pad)
    pad.line((100, 34), (100, 44), (62, 44), (62, 56), weight=Weight.THIN)
    pad.indicator(62, 78, (0, 1), 16)
    pad.indicator(138, 78, (0, 1), 16)
    pad.arc(100, 50, 30, 200, 340, Weight.THIN)
    pad.arrow((126, 35), (128.4, 40.6))


def _over_table(pad: Pad) -> None:
    _table(pad)
    pad.shape((8, 18), (120, 18), (128, 24), (128, 36), (8, 36))
    pad.box(118, 30, 16, 20)
    pad.line((126, 50), (126, 58), weight=Weight.THIN)
    pad.indicator(126, 78, (0, 1), 16)
    _travel(pad, 40, 104, 10)
    _travel(pad, 40, 160, 97)


_SKETCHES: dict[str, Callable[[Pad], None]] = {
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
    "flat": _flat,
    "square": _square,
    "slot": _slot,
    "tram": _tram,
    "over-table": _over_table,
}
