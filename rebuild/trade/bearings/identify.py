"""Rolling bearings: which one is this, from bore, outside and width as a caliper gives them.

Readings may be worn, fretted or taken with a caliper; candidates are ranked by how many tolerances they
are off. A tapered bearing may be measured overall or by its cone or cup alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite, sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.bearings.table import FAMILIES, Bearing, bearing, bearings, bore_of_code, say_envelope
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.own_unit import both, num, own_unit, said

__all__ = [
    "FAMILIES",
    "Bearing",
    "BearingGuess",
    "bearing",
    "bearings",
    "bore_of_code",
    "identify_bearing",
]

_FITS, _NEAR = 2.5, 12.0  # in tolerances: still the bearing; still worth showing


@dataclass(frozen=True, slots=True)
class BearingGuess:
    """A bearing the readings may be: each reading less the standard size [mm], and the misfit."""

    bearing: Bearing
    offs_mm: tuple[tuple[str, float], ...]
    misfit: float
    fits: bool


@door()
def identify_bearing(
    bore_mm: float | None,
    outside_mm: float | None,
    width_mm: float | None,
    *,
    family: str = "",
    tolerance_mm: float = 0.1,
    limit: int = 6,
) -> Worked[tuple[BearingGuess, ...]]:
    """The bearings that readings may be, best first; at least two of the three sizes.

    Args:
        bore_mm: bore as read (worn and fretted bores read large).
        outside_mm: outside diameter as read.
        width_mm: width as read; overall T of a tapered or thrust bearing, or its cone or cup width.
        family: one of ``FAMILIES`` to look in it alone.
        tolerance_mm: how far a caliper and some wear may put a reading off.
        limit: how many to give.

    Raises:
        BadEntry: fewer than two sizes, sizes that cannot be, or an unknown family.
        OutOfRange: nothing held comes near.

    >>> identify_bearing(17.02, 39.97, 11.98).value[0].bearing.designation
    '6203'
    """
    readings = {"bore": bore_mm, "outside": outside_mm, "width": width_mm}
    _check(readings, family)
    check_tolerance(tolerance_mm)
    guesses = [_guess(item, readings, tolerance_mm) for item in bearings() if family in ("", item.family)]
    near = sorted((guess for guess in guesses if guess.misfit <= _NEAR), key=_rank)
    if not near:
        raise OutOfRange(
            "come near no bearing held (metric 3 to 150 mm bore, inch 1/8 to 2-1/4 in).",
            where="Bearing",
            value=_said(readings),
            way_out="Look for the stamped number; it may be a special, or inch against metric.",
        )
    chosen = tuple(near[:limit])
    return Worked(chosen, _working(readings, chosen, tolerance_mm).close())


@door()
def check_tolerance(tolerance_mm: float) -> None:
    """Refuse a reading tolerance that says nothing.

    Raises:
        OutOfRange: not from 0.001 to 2 mm.

    >>> check_tolerance(0.1)
    >>> check_tolerance(5.0)
    Traceback (most recent call last):
    rebuild.errors.OutOfRange: Readings good to: “5 mm” lies outside 0.001 to 2 mm.
    """
    if not 0.001 <= tolerance_mm <= 2.0:
        raise OutOfRange("lies outside 0.001 to 2 mm.", where="Readings good to", value=said(tolerance_mm))


def _check(readings: Mapping[str, float | None], family: str) -> None:
    given = [value for value in readings.values() if value is not None]
    if len(given) < 2:
        raise BadEntry(
            "needs at least two of bore, outside and width.", where="Bearing", value=_said(readings)
        )
    if any(not (isfinite(value) and value > 0) for value in given):
        raise BadEntry("is not a positive size.", where="Bearing", value=_said(readings))
    bore, outside = readings["bore"], readings["outside"]
    if bore is not None and outside is not None and bore >= outside:
        raise BadEntry("has a bore not smaller than its outside.", where="Bearing", value=_said(readings))
    if family and family not in FAMILIES:
        raise BadEntry(
            "is not a family.", where="Family", value=family, way_out=f"Families: {', '.join(FAMILIES)}."
        )


def _guess(item: Bearing, readings: Mapping[str, float | None], tol: float) -> BearingGuess:
    sizes = {"bore": item.bore_mm, "outside": item.outside_mm, "width": item.width_mm}
    offs = [(name, read - sizes[name]) for name, read in readings.items() if read is not None]
    offs = [_nearest_width(item, readings["width"]) if name == "width" else (name, off) for name, off in offs]
    scaled = [off / (tol if name != "width" else 1.5 * tol) for name, off in offs]
    misfit = sqrt(sum(value**2 for value in scaled) / len(scaled))
    return BearingGuess(item, tuple(offs), misfit, max(map(abs, scaled)) <= _FITS)


def _nearest_width(item: Bearing, read: float | None) -> tuple[str, float]:
    """A tapered bearing's overall, cone or cup width, whichever was measured."""
    if read is None:
        return "width", 0.0
    named = [("width", item.width_mm), ("cone width", item.cone_mm), ("cup width", item.cup_mm)]
    offs = [(name, read - size) for name, size in named if size is not None]
    best = min(offs, key=lambda pair: abs(pair[1]))
    return best if abs(best[1]) + 0.3 < abs(offs[0][1]) else offs[0]


def _rank(guess: BearingGuess) -> float:
    """Misfit, a little against parts of a width, and the plain kind first where envelopes are one."""
    partial = 0.4 if any(name in ("cone width", "cup width") for name, _ in guess.offs_mm) else 0.0
    return guess.misfit + partial + 0.02 * FAMILIES.index(guess.bearing.family)


def _said(readings: Mapping[str, float | None]) -> str:
    return (
        ", ".join(f"{name} {both(value)}" for name, value in readings.items() if value is not None)
        or "nothing"
    )


def _working(readings: Mapping[str, float | None], guesses: tuple[BearingGuess, ...], tol: float) -> Sheet:
    sheet = Sheet("Which bearing has these sizes")
    for name, value in readings.items():
        if value is not None:
            sheet.read(name, both(value))
    sheet.read("tolerance", f"{both(tol)} for caliper and wear, half as much again for widths")
    for guess in guesses:
        offs = ", ".join(f"{name} {num(off):+.3f}" for name, off in guess.offs_mm)
        fits = "" if guess.fits else "; does not fit within the tolerance"
        sheet.table(
            guess.bearing.designation,
            f"{guess.bearing.family}, {guess.bearing.size_text()}; off {offs} {own_unit()}{fits}",
            guess.bearing.source,
        )
    say_envelope(guesses[0].bearing, sheet)
    if not guesses[0].fits:
        sheet.note("None fits within the tolerance: measure again, or it is not a standard bearing.")
    return sheet
