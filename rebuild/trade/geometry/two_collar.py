"""Two-collar test: does the spindle lie along the carriage's travel, seen from above?

A bar held in the chuck alone, tail free, is turned at one setting of the tool on two collars L apart. The carriage goes
straight; where the spindle leans away from it the tool cuts shallower there, so the collar is larger by twice the lean.
The collar at the free end larger: the spindle's line runs away from the tool to the rear; smaller: towards the tool.
Only the lean seen from above shows so. One up or down shows to second order alone, d₂ ≈ d₁ + 2 v²/d: it is looked for
with a test bar and an indicator on top.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import num, own_unit, said
from rebuild.trade.sizes.show import show_both

GEOMETRY = Source("Geometry", "two collars of one setting, tail free", Status.COMPUTED)
#: Nearer than this, a lean is lost in the finish of the collars (common practice, no source) [mm].
NEAREST_MM = 50.0


@dataclass(frozen=True, slots=True)
class Lean:
    """How the spindle leans: over the collars and over ``per_mm`` [mm], positive away from the tool at the free end;
    how far the headstock is moved at a screw (``at_screw_mm``, None: its distance not given), towards the operator
    when positive; and whether it is within what is allowed (None: nothing allowed was given)."""

    over_collars_mm: float
    over_per_mm: float
    at_screw_mm: float | None
    within: bool | None


@door()
def two_collars(
    chuck_end_mm: float,
    free_end_mm: float,
    between_mm: float,
    per_mm: float = 300.0,
    pivot_to_screw_mm: float | None = None,
    allowed_mm: float | None = None,
) -> Worked[Lean]:
    """How the spindle leans, from the two diameters.

    Args:
        chuck_end_mm, free_end_mm: diameters of the two collars.
        between_mm: middle of one collar to middle of the other.
        per_mm: length the lean is given over.
        pivot_to_screw_mm: along the bed, from what the headstock turns about to the screw that moves it.
        allowed_mm: over ``per_mm``.

    Raises:
        BadEntry: sizes that cannot be.
        OutOfRange: collars too near to show a lean, or diameters of different bars.

    >>> lean = two_collars(40.000, 40.012, 150.0, pivot_to_screw_mm=400.0).value
    >>> round(lean.over_collars_mm, 4), round(lean.over_per_mm, 4), round(lean.at_screw_mm, 4)
    (0.006, 0.012, 0.016)
    """
    _check(chuck_end_mm, free_end_mm, between_mm, per_mm)
    lean = (free_end_mm - chuck_end_mm) / 2
    per = lean / between_mm * per_mm
    screw = None if pivot_to_screw_mm is None else lean / between_mm * pivot_to_screw_mm
    within = None if allowed_mm is None else abs(per) <= allowed_mm + 1e-12
    sheet = Sheet("Two collars: the spindle against the carriage, seen from above")
    sheet.read(
        "collars", f"chuck end {show_both(chuck_end_mm, 'mm', 4)}, free end {show_both(free_end_mm, 'mm', 4)}"
    )
    sheet.equation(
        "lean",
        f"({num(free_end_mm):.6g} - {num(chuck_end_mm):.6g}) / 2 = "
        f"{num(lean):+.4f} {own_unit()} over {said(between_mm)}",
        GEOMETRY,
    )
    sheet.equation(
        f"over {said(per_mm)}",
        f"{num(lean):+.4f} × {num(per_mm):.4g} / {num(between_mm):.5g} = {num(per):+.4f} {own_unit()}",
        GEOMETRY,
    )
    if screw is not None and pivot_to_screw_mm is not None:
        sheet.equation(
            "at the screw",
            f"{num(lean):+.4f} × {num(pivot_to_screw_mm):.5g} / {num(between_mm):.5g} = {num(screw):+.4f} {own_unit()}",
            GEOMETRY,
        )
    where = (
        "away from the tool, to the rear" if lean > 0 else "towards the tool" if lean < 0 else "not at all"
    )
    sheet.note(
        "Take light cuts of one setting with a sharp tool, both collars in one pass, and measure cold: spring of the "
        "overhung bar makes the free end larger, as a lean to the rear does. Take the twist out of the bed first."
    )
    if within is not None:
        sheet.read(
            "allowed", f"{allowed_mm:.4g} mm over {per_mm:.4g} mm: {'within' if within else 'not within'}"
        )
    sheet.result("the free end leans", f"{where}: {show_both(abs(per), 'mm', 4)} over {per_mm:.4g} mm")
    return Worked(Lean(lean, per, screw, within), sheet.close())


def _check(chuck: float, free: float, between: float, per: float) -> None:
    named = (
        ("Collar at the chuck", chuck),
        ("Collar at the free end", free),
        ("Between", between),
        ("Over", per),
    )
    for where, size in named:
        if not (isfinite(size) and size > 0):
            raise BadEntry("is not above zero.", where=where, value=f"{size:g} mm", way_out="Measure it.")
    if between < NEAREST_MM:
        raise OutOfRange(
            f"is nearer than {NEAREST_MM:g} mm: a lean is lost in the finish.",
            where="Between",
            value=f"{between:g} mm",
            way_out="Turn the collars 100 to 200 mm apart.",
        )
    if abs(free - chuck) > min(free, chuck) / 20:
        raise OutOfRange(
            f"is more than a twentieth off the other, {chuck:g} mm: not one setting of the tool.",
            where="Collar at the free end",
            value=f"{free:g} mm",
            way_out="Turn both collars in one pass.",
        )
