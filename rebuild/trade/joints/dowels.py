"""Dowels: ASME B18.8.2 hardened ground (standard and oversize), ISO 2338 and ISO 8734 parallel pins.

A standard inch dowel is 0.0002 in over its nominal, an oversize one 0.0010 in over: the oversize goes into
a hole that has lost its grip, without going up a whole size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.cautions import attach
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import said
from rebuild.trade.sizes.show import show_both

INCH_TOLERANCE_MM = 0.0001 * 25.4
STANDARD, OVERSIZE = "standard", "oversize"
SERIES = (STANDARD, OVERSIZE, "ISO 2338 m6", "ISO 2338 h8", "ISO 8734")
GRIP = Source("Dowel in a worn hole", "wants 0.0001 to 0.0010 in interference", Status.COMMON_PRACTICE)
GRIP_MM = (0.0001 * 25.4, 0.0010 * 25.4)
_NOMINAL_SLACK_MM = 0.01


@dataclass(frozen=True, slots=True)
class Dowel:
    """A dowel: pin limits and suggested hole limits [mm]; the hole is None where no size is published."""

    series: str
    nominal_mm: float
    low_mm: float
    high_mm: float
    hole_mm: tuple[float, float] | None
    lengths_mm: tuple[float, float] | None
    source: Source

    @property
    def name(self) -> str:
        """What to ask for."""
        if self.series in (STANDARD, OVERSIZE):
            return f"{self.nominal_mm / 25.4:.4f} in {self.series} dowel"
        return f"{self.nominal_mm:g} mm {self.series} pin"


@door()
def dowels(series: str = STANDARD) -> tuple[Dowel, ...]:
    """Every dowel of a series.

    Raises:
        BadEntry: no such series.

    >>> round(dowels()[0].nominal_mm / 25.4, 4)  # ASME B18.8.2 begins at 1/16 in
    0.0625
    """
    if series in (STANDARD, OVERSIZE):
        found = table("dowels_b18_8_2")
        return tuple(_inch(row, series, found.source) for row in found.rows)
    if series not in SERIES:
        raise BadEntry(
            "is not a series of dowels.",
            where="Dowel",
            value=series,
            way_out=f"Choose {', '.join(SERIES)}.",
        )
    found = table("dowels_iso")
    wanted = series.split(" m6")[0].split(" h8")[0]
    return tuple(_iso(row, series, found.row_source(row)) for row in found.rows if row["standard"] == wanted)


@door()
def dowel(nominal_mm: float, series: str = STANDARD) -> Worked[Dowel]:
    """One dowel by its nominal diameter, with its hole.

    Raises:
        OutOfRange: no such size; lists those there are.

    >>> round(dowel(6.35).value.high_mm / 25.4, 4)
    0.2503
    """
    known = dowels(series)
    found = min(known, key=lambda one: abs(one.nominal_mm - nominal_mm))
    if abs(found.nominal_mm - nominal_mm) > _NOMINAL_SLACK_MM:
        unit = "in" if series in (STANDARD, OVERSIZE) else "mm"
        scale = 25.4 if unit == "in" else 1.0
        sizes = ", ".join(f"{one.nominal_mm / scale:g}" for one in known)
        raise OutOfRange(
            f"is not a nominal size of the {series} series.",
            where="Dowel",
            value=show_both(nominal_mm, unit),
            way_out=f"Sizes: {sizes} {unit} ({known[0].source.cite()}).",
        )
    sheet = Sheet(found.name.capitalize())
    sheet.table(
        "pin", f"{show_both(found.low_mm, 'in', 4)} to {show_both(found.high_mm, 'in', 4)}", found.source
    )
    if found.hole_mm:
        low, high = found.hole_mm
        sheet.table("hole", f"{show_both(low, 'in', 4)} to {show_both(high, 'in', 4)}", found.source)
        sheet.equation(
            "fit in that hole",
            f"{(found.low_mm - high) * 1000:+.1f} to {(found.high_mm - low) * 1000:+.1f} µm (+ is interference)",
        )
    else:
        sheet.note("No hole is published for this size: ream to the nominal, 0 to 0.0005 in under.", GRIP)
    sheet.note("Press it into the part that keeps it; slip-fit the other. Never hammer a hardened dowel.")
    attach(sheet, "press", "hardened-hammer")
    return Worked(found, sheet.close())


@door()
def for_hole(hole_mm: float) -> Worked[tuple[Dowel, ...]]:
    """Dowels that would grip a hole as measured, least change first: the remedy for a worn dowel hole.

    Raises:
        OutOfRange: no dowel of the tables comes near the hole; says how far to ream.

    >>> for_hole(0.2504 * 25.4).value[0].series
    'oversize'
    """
    if hole_mm <= 0:
        raise BadEntry("is not a hole.", where="Hole", value=said(hole_mm))
    every = [one for series in SERIES if "h8" not in series for one in dowels(series)]
    gripping = [one for one in every if one.low_mm - hole_mm > -1e-9 and one.high_mm - hole_mm <= GRIP_MM[1]]
    gripping = [one for one in gripping if one.high_mm - hole_mm >= GRIP_MM[0]]
    sheet = Sheet("Dowel for a hole as it is")
    sheet.read("hole", show_both(hole_mm, "in"))
    if not gripping:
        nexts = sorted((one for one in every if one.low_mm > hole_mm), key=lambda one: one.low_mm)
        if not nexts:
            raise OutOfRange(
                f"is larger than the largest dowel ({every[0].source.cite()}).",
                where="Hole",
                value=show_both(hole_mm, "in"),
                way_out="Bush it or make a pin.",
            )
        found = nexts[0]
        sheet.note(
            f"Nothing grips as it is: the next is the {found.name}; ream to {show_both(found.low_mm, 'in')} "
            "less 0.0002 in.",
            GRIP,
        )
        return Worked((found,), sheet.close())
    gripping.sort(key=lambda one: one.high_mm)
    for one in gripping:
        sheet.table(
            one.name,
            f"interference {(one.low_mm - hole_mm) * 1000:.1f} to {(one.high_mm - hole_mm) * 1000:.1f} µm",
            one.source,
        )
    return Worked(tuple(gripping), sheet.close())


def _inch(row: Mapping[str, str], series: str, source: Source) -> Dowel:
    basic = float(row[f"{series}_in"]) * 25.4
    low, high = row["hole_min_in"], row["hole_max_in"]
    hole = (float(low) * 25.4, float(high) * 25.4) if low and series == STANDARD else None
    nominal = float(row["nominal_in"]) * 25.4
    return Dowel(series, nominal, basic - INCH_TOLERANCE_MM, basic + INCH_TOLERANCE_MM, hole, None, source)


def _iso(row: Mapping[str, str], series: str, source: Source) -> Dowel:
    d = float(row["d_mm"])
    low, high = ("h8_lower_um", "") if series.endswith("h8") else ("m6_lower_um", "m6_upper_um")
    return Dowel(
        series,
        d,
        d + float(row[low]) / 1000.0,
        d + (float(row[high]) / 1000.0 if high else 0.0),
        (d, d + float(row["H7_upper_um"]) / 1000.0),
        (float(row["length_min_mm"]), float(row["length_max_mm"])),
        source,
    )
