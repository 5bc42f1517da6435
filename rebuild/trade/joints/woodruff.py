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
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, said
from rebuild.trade.sizes.show import show_both

AT_SIDE = Source("ASME B17.2", "inch depths are taken at the keyseat's side", Status.FROM_MEMORY)
SEGMENT = Source("Geometry of a segment", "length 2 √(h (d - h))", Status.COMPUTED)
CLOSE_MM = 0.35


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
def identify_woodruff(
    width_mm: float, diameter_mm: float | None, height_mm: float | None
) -> Worked[tuple[Woodruff, ...]]:
    """The keys that readings may be, best first.

    Args:
        width_mm: its width.
        diameter_mm: of the circle it is cut from (twice its radius), if known.
        height_mm: from the flat top to the round bottom, if known.

    Raises:
        BadEntry: only a width, or a size not above zero.
        OutOfRange: no key within 0.35 mm of every reading.

    >>> identify_woodruff(4.75, 19.0, 7.9).value[0].number
    '606'
    """
    given = [
        (name, mm)
        for name, mm in (("width", width_mm), ("diameter", diameter_mm), ("height", height_mm))
        if mm is not None
    ]
    if len(given) < 2:
        raise BadEntry(
            "alone does not tell a key.",
            where="Width",
            value=said(width_mm),
            way_out="Give its diameter or height too.",
        )
    for name, mm in given:
        if not mm > 0:
            raise BadEntry("is not above zero.", where=name.capitalize(), value=said(mm))
    offs = sorted(
        ((max(abs(_size(key, name) - mm) for name, mm in given), key) for key in woodruff_keys()),
        key=lambda pair: pair[0],
    )
    near = [(off, key) for off, key in offs if off <= CLOSE_MM][:4]
    if not near:
        best = offs[0][1]
        raise OutOfRange(
            f"is within {said(CLOSE_MM)} of no key of the table; the nearest is {best.name}.",
            where="Key",
            value=" x ".join(f"{mm:g}" for _, mm in given) + " mm",
            way_out="Measure again across the whole key, or copy it.",
        )
    sheet = Sheet("Which Woodruff key")
    sheet.read("readings", ", ".join(f"{name} {both(mm)}" for name, mm in given))
    for off, key in near:
        sheet.table(key.name, f"{_sizes(key)}; off by up to {off:.3f} mm", key.source)
    return Worked(tuple(key for _, key in near), sheet.close())


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
        f"{_sizes(key)}; seats {key.shaft_depth_mm:.3f} and {key.hub_depth_mm:.3f} mm deep",
        key.source,
    )
    if key.unit == "in":
        sheet.equation("Y", f"(D - √(D² - W²)) / 2 = {chord:.4f} mm", AT_SIDE)
    sheet.equation(
        "across the shaft",
        f"{shaft_mm:.4f} - {chord:.4f} - {key.shaft_depth_mm:.4f} = {show_both(across, 'mm', 3)}",
    )
    sheet.equation(
        "across the bore",
        f"{shaft_mm:.4f} - {chord:.4f} + {key.hub_depth_mm:.4f} = {show_both(bore, 'mm', 3)}",
    )
    sheet.equation("length", f"2 √(h (d - h)) = {key.length_mm:.2f} mm", SEGMENT)
    if worn_width_mm is not None:
        names = ", ".join(one.name for one in wider)
        sheet.result(
            "worn seat",
            f"next wider on the same cutter: {names}"
            if names
            else "no wider key on the same cutter: a stepped key, or turn the seat",
        )
        sheet.note(
            "A stepped key is as wide below as the seat was cleaned up to, and as wide above as the hub."
        )
    return Worked(Seat(key, across, bore, wider), sheet.close())


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


def _size(key: Woodruff, name: str) -> float:
    return {"width": key.width_mm, "diameter": key.diameter_mm, "height": key.height_mm}[name]


def _sizes(key: Woodruff) -> str:
    return f"{key.width_mm:.3f} wide, of a {key.diameter_mm:.2f} mm circle, {key.height_mm:.2f} mm high"
