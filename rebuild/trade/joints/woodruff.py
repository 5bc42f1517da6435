"""Woodruff keys: which one, the depths of its seats, and the next wider key for a worn seat.

Inch depths (ASME B17.2) are at the keyseat's side, so that the shaft measures S = D - Y - depth across, with Y the
chord's height; DIN 6888 gives t1 and t2 on the centre line. A segment of a circle of diameter d and height h is
2 √(h (d - h)) long.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.keys import INCH_MM, chord_mm
from rebuild.trade.limits.iso286 import limits
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, own_unit, said
from rebuild.trade.sizes.show import show_length

AT_SIDE = Source("ASME B17.2", "inch depths are taken at the keyseat's side", Status.FROM_MEMORY)
SEGMENT = Source("Geometry of a segment", "length 2 √(h (d - h))", Status.COMPUTED)
#: How far the table goes; beyond it there are wider and larger keys.
HELD = {"in": "full-radius keys to 3/8 x 1-1/2 in of ASME B17.2", "mm": "DIN 6888 keys to 3 x 6.5 mm"}
#: ISO 286-2 has no N9 up to here [mm].
NO_N9_MM = 1.0
#: Depth over the least (inch from memory, mm as DIN 6888 prints it) [mm].
DEPTH_OVER_MM = {"in": 0.005 * INCH_MM, "mm": 0.1}


@dataclass(frozen=True, slots=True)
class Woodruff:
    """A Woodruff key [mm]: ``number`` as the trade says it; depths of the seat in shaft and hub."""

    number: str
    unit: str
    width_mm: float
    diameter_mm: float
    height_mm: float
    shaft_depth_mm: float
    hub_depth_mm: float
    source: Source

    @property
    def length_mm(self) -> float:
        """Length of its flat top."""
        return 2 * sqrt(self.height_mm * (self.diameter_mm - self.height_mm))

    @property
    def name(self) -> str:
        """``No. 606`` or ``3 x 5``."""
        return f"No. {self.number}" if self.unit == "in" else f"{self.number} mm"


@dataclass(frozen=True, slots=True)
class Seat:
    """A key's seat in a shaft [mm]: across the shaft to its floor, across the bore, and the wider keys that follow."""

    key: Woodruff
    across_shaft_mm: float
    across_bore_mm: float
    wider: tuple[Woodruff, ...]


@cache
def woodruff_keys() -> tuple[Woodruff, ...]:
    """Every key of the table.

    >>> len(woodruff_keys()) >= 30
    True
    """
    found = table("woodruff_keys")
    return tuple(_key(row, found.row_source(row)) for row in found.rows)


def _key(row: Mapping[str, str], source: Source) -> Woodruff:
    scale = INCH_MM if row["unit"] == "in" else 1.0
    standard = "ASME B17.2" if row["unit"] == "in" else "DIN 6888:1956, series A"
    return Woodruff(
        row["number"],
        row["unit"],
        float(row["width"]) * scale,
        float(row["diameter"]) * scale,
        float(row["height"]) * scale,
        float(row["shaft_depth"]) * scale,
        float(row["hub_depth"]) * scale,
        Source(standard, "", source.status),
    )


@door()
def woodruff(number: str) -> Woodruff:
    """The key of a number, as ``606`` or ``3 x 5``.

    Raises:
        BadEntry: no such key; the message names those held.

    >>> round(woodruff("606").shaft_depth_mm / 25.4, 4)
    0.2143
    """
    typed = " x ".join(
        number.lower().removeprefix("no.").removesuffix("mm").replace("×", "x").replace(" ", "").split("x")
    )
    for key in woodruff_keys():
        if key.number == typed.strip():
            return key
    held = ", ".join(key.number for key in woodruff_keys())
    raise BadEntry(
        "is no key of the table.", where="Key", value=number.strip()[:30], way_out=f"Held: {held}."
    )


@door()
def woodruff_seat(key: Woodruff, shaft_mm: float, worn_width_mm: float | None = None) -> Worked[Seat]:
    """The seats of a key in a shaft and its hub, and what to do about a worn one.

    Raises:
        OutOfRange: a shaft too thin for the key, or a worn seat narrower than the key.

    >>> seat = woodruff_seat(woodruff("606"), 25.4).value
    >>> round(seat.across_shaft_mm / 25.4, 4)
    0.7768
    """
    if not shaft_mm > max(key.width_mm, 2 * key.shaft_depth_mm):
        raise OutOfRange(
            f"is too thin for {key.name}: its seat is {said(key.shaft_depth_mm, 3)} deep.",
            where="Shaft",
            value=said(shaft_mm, 4),
            way_out="Check the key and the shaft.",
        )
    chord = chord_mm(shaft_mm, key.width_mm) if key.unit == "in" else 0.0
    across = shaft_mm - chord - key.shaft_depth_mm
    bore = shaft_mm - chord + key.hub_depth_mm
    wider = _wider(key, worn_width_mm)
    sheet = Sheet(f"Seat of Woodruff key {key.name}")
    sheet.table(
        key.name,
        f"{sizes_in_words(key)}; seats {_short(key.shaft_depth_mm)} and {_short(key.hub_depth_mm)} deep",
        key.source,
    )
    width = keyseat_width(key)
    if width is not None:
        sheet.take(width.working)
    if key.unit == "in":
        sheet.equation("Y", f"(D - √(D² - W²)) / 2 = {both(chord, 4)}", AT_SIDE)
    sheet.equation(
        "across the shaft",
        f"{num(shaft_mm):.4f} - {num(chord):.4f} - {num(key.shaft_depth_mm):.4f} = {both(across, 3)}",
    )
    sheet.equation(
        "across the bore",
        f"{num(shaft_mm):.4f} - {num(chord):.4f} + {num(key.hub_depth_mm):.4f} = {both(bore, 3)}",
    )
    sheet.equation("length", f"2 √(h (d - h)) = {both(key.length_mm, 2)}", SEGMENT)
    if worn_width_mm is not None:
        names = ", ".join(one.name for one in wider)
        sheet.result(
            "worn seat",
            f"next wider of the same circle: {names}"
            if names
            else f"{none_wider(key)}: a stepped key, or look further",
        )
        sheet.note(
            "A stepped key is as wide below as the seat was cleaned up to, and as wide above as the hub."
        )
    return Worked(Seat(key, across, bore, wider), sheet.close())


def none_wider(key: Woodruff) -> str:
    """What may be said when no wider key follows: it is the table that ends.

    >>> none_wider(woodruff("806"))
    'none wider of this circle in this table (full-radius keys to 3/8 x 1-1/2 in of ASME B17.2)'
    """
    return f"none wider of this circle in this table ({HELD[key.unit]})"


@door()
def keyseat_width(key: Woodruff) -> Worked[tuple[float, float]] | None:
    """Least and greatest width of the seat in the shaft [mm]; None where the standard gives none (to 1 mm).

    >>> seat = keyseat_width(woodruff("606"))
    >>> low, high = seat.value if seat else (0.0, 0.0)
    >>> round(low / 25.4, 4), round(high / 25.4, 4)
    (0.1863, 0.188)
    """
    sheet = Sheet(f"Seat width of Woodruff key {key.name}")
    if key.unit == "mm" and key.width_mm <= NO_N9_MM:
        return None
    if key.unit == "mm":
        wide = limits(key.width_mm, "N9").value
        low, high = wide.low_mm, wide.high_mm
        sheet.table("seat width", f"N9, sliding: {both(low)} to {both(high)}", Source("DIN 6888:1956", "N9"))
        return Worked((low, high), sheet.close())
    found = table("woodruff_seat_widths")
    for row in found.rows:
        if abs(float(row["width_in"]) * INCH_MM - key.width_mm) < 1e-6:
            low, high = float(row["low_in"]) * INCH_MM, float(row["high_in"]) * INCH_MM
            sheet.table("seat width in the shaft", f"{both(low)} to {both(high)}", found.row_source(row))
            return Worked((low, high), sheet.close())
    return None


def _wider(key: Woodruff, worn_mm: float | None) -> tuple[Woodruff, ...]:
    if worn_mm is None:
        return ()
    if worn_mm < key.width_mm - 0.1:
        raise OutOfRange(
            f"is narrower than the key of {said(key.width_mm)}.",
            where="Worn width",
            value=said(worn_mm, 4),
            way_out="Give the width the seat is worn or cleaned up to.",
        )
    return tuple(
        one
        for one in woodruff_keys()
        if one.unit == key.unit
        and abs(one.diameter_mm - key.diameter_mm) < 1e-6
        and one.width_mm > max(worn_mm, key.width_mm) - 1e-6
        and one is not key
        and one.width_mm > key.width_mm
    )


def sizes_in_words(key: Woodruff) -> str:
    """Width, circle and height of a key, in the unit of the one who asks.

    >>> sizes_in_words(woodruff("606"))
    '4.762 mm wide, of a 19.050 mm circle, 7.950 mm high'
    """
    width, circle, height = (_short(mm) for mm in (key.width_mm, key.diameter_mm, key.height_mm))
    return f"{width} wide, of a {circle} circle, {height} high"


def _short(mm: float) -> str:
    return show_length(mm, own_unit())
