"""Straight-sided splines from what a caliper reads: ISO 14, and the inch proportions of SAE J499.

A sound shaft reads under its name: ISO 14 turns the outside to a11 and the width to d10 at the loosest, so a reading is
held against that and what it is good to. The inch report gives the hole; its shafts are made to suit.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import asin, degrees, pi, sin

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.iso286 import limits
from rebuild.trade.results.door import door
from rebuild.trade.results.likeness import Likeness, Misfit, check_tolerance, worst
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.own_unit import both, own_unit
from rebuild.trade.sizes.show import show_length

SIDES = Source("Geometry of a spline", "half angle asin(B / d)", Status.COMPUTED)
ISO, INCH = "ISO 14", "SAE J499"
#: Nominal sizes of inch splines are taken in these steps [in] (common practice, no source).
STEP_IN = 0.125
#: A shaft for an inch hole reads under it by up to this on the outside, and on the width [in] (from memory).
INCH_UNDER = (0.010, 0.004)
#: Further off than this many allowances a spline is not worth showing.
NEAR = 4.0
INVOLUTE = (
    "An involute spline has curved, often short sides at a slant, mostly ten teeth or more, and its root is wider than "
    "its tip: it is told by its teeth and pitch (a gear's), and is not held."
)


@dataclass(frozen=True, slots=True)
class Spline:
    """A straight-sided spline [mm]."""

    standard: str
    series: str
    splines: int
    minor_mm: float
    outside_mm: float
    width_mm: float
    source: Source

    @property
    def name(self) -> str:
        """``6 x 23 x 26``; an inch one ``6 splines 1.25 in, B``."""
        if self.standard == INCH:
            return f"{self.splines} splines {show_length(self.outside_mm, 'in', 3)}, {self.series}"
        return f"{self.splines} x {self.minor_mm:g} x {self.outside_mm:g}"

    @property
    def height_mm(self) -> float:
        """Height of a spline, a half of outside less minor."""
        return (self.outside_mm - self.minor_mm) / 2

    @property
    def gap_mm(self) -> float:
        """Chord between neighbouring splines along the minor circle."""
        half = asin(self.width_mm / self.minor_mm)
        open_angle = pi / self.splines - half
        return self.minor_mm * sin(open_angle)


@dataclass(frozen=True, slots=True)
class SplineGuess:
    """A spline the readings may be, and how it fits them."""

    spline: Spline
    likeness: Likeness


@door()
def identify_spline(
    splines: int, outside_mm: float, width_mm: float, minor_mm: float | None = None, tolerance_mm: float = 0.1
) -> Worked[tuple[SplineGuess, ...]]:
    """The splines that a count, an outside and a width may be, best first; those that do not agree say so.

    Args:
        splines: how many.
        outside_mm: over them.
        width_mm: of one.
        minor_mm: between them, if it was read; it alone tells the inch series apart.
        tolerance_mm: how far the reading and wear may be off.

    Raises:
        BadEntry: a count or size not above zero.
        OutOfRange: none of that count near; or a tolerance that says nothing.

    >>> identify_spline(6, 25.8, 5.9).value[0].spline.name
    '6 x 23 x 26'
    """
    given = [mm for mm in (outside_mm, width_mm, minor_mm) if mm is not None]
    if splines < 1 or not all(mm > 0 for mm in given):
        shown = ", ".join((str(splines), *(both(mm) for mm in given)))
        raise BadEntry("are not readings above zero.", where="Splines", value=shown)
    check_tolerance(tolerance_mm)
    held = (*_iso(), *_inch_near(splines, outside_mm))
    every = sorted(
        (
            _guess(one, (outside_mm, width_mm, minor_mm), tolerance_mm)
            for one in held
            if one.splines == splines
        ),
        key=lambda one: (worst(one.likeness.misfits), one.spline.standard, one.spline.name),
    )
    close = tuple(one for one in every if worst(one.likeness.misfits) <= NEAR)[:4]
    if not close:
        counts = sorted(
            {one.splines for one in _iso()} | {round(float(row["splines"])) for row in _sae_rows()}
        )
        raise OutOfRange(
            f"splines of {both(outside_mm)} outside and {both(width_mm)} wide are not in {ISO}, nor near the inch "
            f"proportions of {INCH}.",
            where="Splines",
            value=str(splines),
            way_out=f"Held: {', '.join(map(str, counts))} splines; older feed shafts have makers' own: copy the shaft.",
        )
    return Worked(close, _working(splines, (outside_mm, width_mm, minor_mm), close))


@cache
def _iso() -> tuple[Spline, ...]:
    found = table("splines_iso14")
    return tuple(
        Spline(
            ISO,
            row["series"],
            round(float(row["splines"])),
            float(row["minor_mm"]),
            float(row["outside_mm"]),
            float(row["width_mm"]),
            Source(found.source.name, "", found.row_source(row).status),
        )
        for row in found.rows
    )


def _sae_rows() -> tuple[dict[str, str], ...]:
    return tuple(dict(row) for row in table("splines_sae_j499").rows)


def _inch_near(splines: int, outside_mm: float) -> tuple[Spline, ...]:
    """The inch splines of this count whose large diameter is the next eighth of an inch."""
    nominal = round(outside_mm / 25.4 / STEP_IN) * STEP_IN
    if nominal < 0.5 or nominal > 6.0:
        return ()
    found = table("splines_sae_j499")
    return tuple(
        Spline(
            INCH,
            row["series"],
            splines,
            float(row["minor_part"]) * nominal * 25.4,
            nominal * 25.4,
            float(row["width_part"]) * nominal * 25.4,
            Source(found.source.name, "", found.row_source(row).status),
        )
        for row in found.rows
        if round(float(row["splines"])) == splines
    )


def _guess(spline: Spline, read: tuple[float, float, float | None], tolerance_mm: float) -> SplineGuess:
    outside, width, minor = read
    if spline.standard == ISO:
        low_outside = spline.outside_mm - limits(spline.outside_mm, "a11").value.low_mm
        low_width = spline.width_mm - limits(spline.width_mm, "d10").value.low_mm
    else:
        low_outside, low_width = (inches * 25.4 for inches in INCH_UNDER)
    misfits = [
        Misfit("outside", outside - spline.outside_mm, low_outside + tolerance_mm, tolerance_mm),
        Misfit("width", width - spline.width_mm, low_width + tolerance_mm, tolerance_mm),
    ]
    if minor is not None:
        misfits.append(Misfit("minor", minor - spline.minor_mm, 2 * tolerance_mm, 2 * tolerance_mm))
    return SplineGuess(
        spline, Likeness(spline.name, sizes_in_words(spline), tuple(misfits), spline.source.cite())
    )


def sizes_in_words(spline: Spline) -> str:
    """Minor, outside and width, in the unit of the one who asks.

    >>> sizes_in_words(_iso()[0])
    'splines 6.000 mm wide, 23.000 mm to 26.000 mm'
    """
    unit = own_unit()
    width, minor, outside = (
        show_length(mm, unit) for mm in (spline.width_mm, spline.minor_mm, spline.outside_mm)
    )
    return f"splines {width} wide, {minor} to {outside}"


def _working(
    splines: int, read: tuple[float, float, float | None], close: tuple[SplineGuess, ...]
) -> Working:
    sheet = Sheet("Which straight-sided spline")
    names = ("outside", "wide", "minor")
    sizes = (f"{both(mm)} {name}" for mm, name in zip(read, names, strict=True) if mm is not None)
    sheet.read("readings", f"{splines} splines, {', '.join(sizes)}")
    for guess in close:
        one = guess.spline
        sheet.table(
            one.name, f"{one.series} series, {guess.likeness.sizes}; {guess.likeness.off()}", one.source
        )
    best = close[0].spline
    sheet.equation("height", f"({best.outside_mm:.5g} - {best.minor_mm:.5g}) / 2 = {best.height_mm:.3f} mm")
    sheet.equation(
        "half angle of a spline",
        f"asin({best.width_mm:.5g} / {best.minor_mm:.5g}) = {degrees(asin(best.width_mm / best.minor_mm)):.3f}°",
        SIDES,
    )
    sheet.note("ISO 14 centres on the minor diameter: that is the one to fit.", _iso()[0].source)
    sheet.note(
        "Inch splines go by the hole, in proportions of the large diameter: A for a permanent fit, B to slide without "
        "load, C under load. Their shafts are made to suit the hole: measure it.",
        next(
            (one.spline.source for one in close if one.spline.standard == INCH),
            table("splines_sae_j499").source,
        ),
    )
    sheet.note(INVOLUTE)
    return sheet.close()
