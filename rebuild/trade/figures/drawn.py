"""Small drawings of figures, to scale: a dovetail with its rollers, holes on a circle, a belt, a key in its seat."""

from __future__ import annotations

from math import acos, cos, pi, radians, sin, tan

from rebuild.trade.drawing.sketch import Drawing, Pad, Weight
from rebuild.trade.drives.belts import OPEN, Belt
from rebuild.trade.geometry.dovetail import EXTERNAL, Dovetail
from rebuild.trade.joints.woodruff import Seat
from rebuild.trade.shop.hole_circle import HoleCircle
from rebuild.trade.sizes.own_unit import own_unit
from rebuild.trade.sizes.show import show_length

WIDTH, HEIGHT = 200.0, 104.0
_MIDDLE = WIDTH / 2
#: Beyond this many holes their numbers would lie on one another.
MOST_NUMBERED = 24


def dovetail(found: Dovetail, kind: str, height_mm: float, angle_deg: float, roller_mm: float) -> Drawing:
    """A dovetail in section, its rollers, and the size over or between them.

    >>> from rebuild.trade.geometry.dovetail import over_rollers
    >>> one = over_rollers("external", 40.0, 20.0, 60.0, 10.0).value
    >>> len(dovetail(one, "external", 20.0, 60.0, 10.0).words)
    2
    """
    pad = Pad(WIDTH, HEIGHT)
    outside = kind == EXTERNAL
    across = max(found.wide_mm, found.rollers_mm) if outside else found.wide_mm
    scale = min(150.0 / across, 58.0 / height_mm)
    floor, top = 80.0, 80.0 - height_mm * scale
    narrow, wide, r = found.narrow_mm * scale / 2, found.wide_mm * scale / 2, roller_mm * scale / 2
    low, high = (narrow, wide) if outside else (wide, narrow)
    for side in (-1, 1):
        ends = ((_MIDDLE + side * 94, floor), (_MIDDLE + side * low, floor)) if outside else ()
        rim = () if outside else ((_MIDDLE + side * 94, top),)
        pad.line(*ends, (_MIDDLE + side * low, floor), (_MIDDLE + side * high, top), *rim)
        reach = r / tan(radians(angle_deg) / 2)
        pad.arc(_MIDDLE + side * (low + reach if outside else low - reach), floor - r, r, weight=Weight.MARK)
    flat = top if outside else floor
    pad.line((_MIDDLE - (wide if outside else low), flat), (_MIDDLE + (wide if outside else low), flat))
    pad.line((_MIDDLE, top - 6), (_MIDDLE, floor + 6), weight=Weight.CENTRE)
    half = found.rollers_mm * scale / 2
    _dimension(pad, _MIDDLE - half, _MIDDLE + half, 92.0, _size(found.rollers_mm, 4), floor - r)
    # In the metal beside the corner, where no roller lies.
    pad.word(_MIDDLE + low + (-7 if outside else 5), floor - 3, f"{angle_deg:g}°", "r" if outside else "l")
    return pad.drawing()


def hole_circle(found: HoleCircle, circle_mm: float) -> Drawing:
    """The holes on their circle, numbered; x to the right, y upward.

    >>> from rebuild.trade.shop.hole_circle import hole_circle as work
    >>> len(hole_circle(work(100.0, 6).value, 100.0).words)
    7
    """
    pad = Pad(WIDTH, HEIGHT)
    R, middle = 40.0, HEIGHT / 2
    pad.arc(_MIDDLE, middle, R, weight=Weight.CENTRE)
    pad.line((_MIDDLE - 50, middle), (_MIDDLE + 50, middle), weight=Weight.CENTRE)
    pad.line((_MIDDLE, 2), (_MIDDLE, HEIGHT - 2), weight=Weight.CENTRE)
    size = max(0.8, min(3.4, 0.35 * R * 2 * sin(pi / max(len(found.holes), 2))))
    for hole in found.holes:
        turn = radians(hole.angle_deg)
        x, y = _MIDDLE + R * cos(turn), middle - R * sin(turn)
        pad.arc(x, y, size)
        if len(found.holes) <= MOST_NUMBERED:
            pad.word(_MIDDLE + (R - 9) * cos(turn), middle - (R - 9) * sin(turn) + 2, f"{hole.number}")
    pad.word(WIDTH - 4, HEIGHT - 4, f"⌀ {_size(circle_mm, 3)}", "r")
    return pad.drawing()


def belt(found: Belt, driver_mm: float, driven_mm: float, way: str) -> Drawing:
    """Two pulleys and the belt round them.

    >>> from rebuild.trade.drives.belts import belt_length
    >>> len(belt(belt_length(105.0, 393.0, 697.0).value, 105.0, 393.0, "open").strokes) > 4
    True
    """
    pad = Pad(WIDTH, HEIGHT)
    whole = found.centres_mm + (driver_mm + driven_mm) / 2
    scale = min(184.0 / whole, 84.0 / max(driver_mm, driven_mm))
    a, b, between, y = driver_mm * scale / 2, driven_mm * scale / 2, found.centres_mm * scale, 46.0
    left = _MIDDLE - (a + b + between) / 2 + a
    right = left + between
    sign = 1.0 if way == OPEN else -1.0
    turn = acos(max(-1.0, min(1.0, (a - sign * b) / between)))
    pad.line((left - a - 4, y), (right + b + 4, y), weight=Weight.CENTRE)
    for x, r in ((left, a), (right, b)):
        pad.arc(x, y, r)
    for side in (1.0, -1.0):
        start = (left + a * cos(turn), y - side * a * sin(turn))
        pad.line(start, (right + sign * b * cos(turn), y - sign * side * b * sin(turn)), weight=Weight.MARK)
    _dimension(pad, left, right, 98.0, _size(found.centres_mm, 1), y)
    return pad.drawing()


def woodruff(seat: Seat, shaft_mm: float) -> Drawing:
    """A shaft in section with the key in its seat, and the size across to the seat's floor.

    >>> from rebuild.trade.joints.woodruff import woodruff as key, woodruff_seat
    >>> len(woodruff(woodruff_seat(key("606"), 25.4).value, 25.4).words)
    1
    """
    pad = Pad(WIDTH, HEIGHT)
    R, middle = 38.0, 60.0
    scale = 2 * R / shaft_mm
    floor = middle + R - seat.across_shaft_mm * scale
    half = seat.key.width_mm * scale / 2
    pad.arc(_MIDDLE, middle, R)
    pad.box(
        _MIDDLE - half, floor - seat.key.height_mm * scale, 2 * half, seat.key.height_mm * scale, Weight.MARK
    )
    pad.line((_MIDDLE, 2), (_MIDDLE, HEIGHT - 2), weight=Weight.CENTRE)
    at = _MIDDLE + R + 12
    for y in (floor, middle + R):
        pad.line((_MIDDLE + half, y), (at + 3, y), weight=Weight.THIN)
    pad.arrow((at, middle), (at, floor))
    pad.arrow((at, middle), (at, middle + R))
    pad.word(at + 4, middle + 2, _size(seat.across_shaft_mm, 3), "l")
    return pad.drawing()


def _size(mm: float, places: int) -> str:
    """A size as it is lettered: in the unit of the one who asks, one more decimal of an inch than of a millimetre."""
    unit = own_unit()
    return show_length(mm, unit, places if unit == "mm" else places + 1)


def _dimension(pad: Pad, left: float, right: float, y: float, text: str, start: float) -> None:
    for x in (left, right):
        pad.line((x, start), (x, y + 2), weight=Weight.THIN)
    middle = (left + right) / 2
    pad.arrow((middle, y), (left, y))
    pad.arrow((middle, y), (right, y))
    pad.word(middle, y - 2, text)
