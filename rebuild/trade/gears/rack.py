"""Rack and pinion: pitch, travel per turn, and identifying a rack from a measured run of teeth."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite, pi

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.chordal import rack_thickness_mm
from rebuild.trade.gears.pitches import Pitch, standard_pitches
from rebuild.trade.results.door import door
from rebuild.trade.results.likeness import Likeness, Misfit, check_tolerance, worst
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, num, said

RULE = Source("Involute geometry", "rack pitch π m", Status.COMPUTED)
MATCH = 0.006


@dataclass(frozen=True, slots=True)
class Rack:
    """A rack and its pinion: linear pitch, travel per pinion turn, tooth thickness [mm]."""

    pitch_mm: float
    travel_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class RackGuess:
    """A standard pitch a rack may have, and how far the measured run is off it over the run."""

    pitch: Pitch
    likeness: Likeness


@door()
def rack(pitch: Pitch, pinion_teeth: int) -> Worked[Rack]:
    """Travel and sizes of a rack driven by a pinion.

    Raises:
        OutOfRange: fewer than 5 pinion teeth.

    >>> from rebuild.trade.gears.pitches import read_pitch
    >>> round(rack(read_pitch("DP 14"), 14).value.travel_mm / 25.4, 4)
    3.1416
    """
    if pinion_teeth < 5:
        raise OutOfRange("is below 5 teeth.", where="Pinion", value=str(pinion_teeth))
    linear = pitch.circular_pitch_mm
    sheet = Sheet(f"Rack of {pitch.name}")
    sheet.equation("pitch", f"π × {num(pitch.module_mm):.5g} = {both(linear, 4)}", RULE)
    sheet.equation(
        "travel per turn", f"{pinion_teeth} × {num(linear):.5g} = {both(linear * pinion_teeth)}", RULE
    )
    sheet.equation("thickness", f"pitch / 2 = {both(linear / 2, 4)} at the pitch line", RULE)
    sheet.note("A saddle that has dropped or a rack that has moved changes the mesh: see way-drop.")
    return Worked(Rack(linear, linear * pinion_teeth, rack_thickness_mm(pitch.module_mm)), sheet.close())


@door()
def identify_rack(
    run_mm: float, pitches_in_run: int, limit: int = 4, tolerance_mm: float = 0.2
) -> Worked[tuple[RackGuess, ...]]:
    """Standard pitches near a run measured over several teeth, best first; ``tolerance_mm`` is what the run is good to.

    Raises:
        BadEntry: a run that is not positive.
        OutOfRange: nothing standard within 0.6 % of it.

    >>> identify_rack(285.0, 50).value[0].pitch.name
    'DP 14'
    """
    if not (isfinite(run_mm) and run_mm > 0 and pitches_in_run > 0):
        raise BadEntry(
            "is not a positive run of teeth.", where="Run", value=f"{said(run_mm)} over {pitches_in_run}"
        )
    check_tolerance(tolerance_mm)
    measured = run_mm / pitches_in_run
    guesses = [
        _rack_guess(pitch, run_mm - pitches_in_run * pitch.circular_pitch_mm, tolerance_mm)
        for pitch in standard_pitches()
        if abs(pitch.circular_pitch_mm / measured - 1) <= MATCH
    ]
    guesses.sort(key=lambda guess: worst(guess.likeness.misfits) * (1 + 0.15 * guess.pitch.commonness))
    if not guesses:
        raise OutOfRange(
            f"is {measured / pi:.4g} mm module, within {MATCH:.1%} of no standard pitch.",
            where="Rack",
            value=f"{said(measured, 4)} pitch",
            way_out="Measure over more teeth, from the same flank to the same flank.",
        )
    sheet = Sheet("Rack from a measured run")
    sheet.read("run", f"{both(run_mm)} over {pitches_in_run} pitches")
    sheet.equation(
        "pitch", f"{num(run_mm):.6g} / {pitches_in_run} = {both(measured, 4)}, module {measured / pi:.4f}"
    )
    for guess in guesses[:limit]:
        sheet.result(guess.pitch.name, guess.likeness.off(), guess.pitch.source)
    return Worked(tuple(guesses[:limit]), sheet.close())


def _rack_guess(pitch: Pitch, off_mm: float, tolerance_mm: float) -> RackGuess:
    misfit = Misfit("run", off_mm, tolerance_mm, tolerance_mm)
    return RackGuess(pitch, Likeness(pitch.name, f"pitch {both(pitch.circular_pitch_mm, 4)}", (misfit,)))
