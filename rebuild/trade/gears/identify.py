"""Which gear is this: module or diametral pitch, pressure angle and profile shift, from readings.

The outside diameter gives the pitch, nearly. Spans over k and k+1 teeth differ by the base pitch
π m cos α, whatever the wear and the backlash, and so give the pressure angle. Worn or thinned teeth
read small, never large; a blank is often turned a little under. Candidates without profile shift are
preferred; a shift is offered where no plain gear fits.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, pi, radians, sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.gears.pins import over_pins_mm, shift_from_pins
from rebuild.trade.gears.pitches import Pitch, standard_pitches
from rebuild.trade.gears.span import shift_from_span, span_mm
from rebuild.trade.gears.spur import SpurGear
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import number_of
from rebuild.trade.sizes.own_unit import both, num, own_unit, said

RULE = Source("Involute geometry", "sizes of each standard gear against the readings", Status.COMPUTED)
RANKING = Source("Ranking", "our weights: misfit by tolerance, how common, shift or not", Status.JUDGEMENT)

ANGLES = ((20.0, 1), (14.5, 1), (15.0, 3), (25.0, 3), (17.5, 3), (22.5, 3))
FULL, STUB = 1.0, 0.8
OUTSIDE = "outside"
_THIN_SHIFT = -0.06  # down to here a thin tooth is taken as backlash or wear, not as profile shift
_PLAIN_FIT = 2.5  # a plain gear whose worst reading is this many tolerances off still fits


@dataclass(frozen=True, slots=True)
class GearReadings:
    """What was measured on an external spur gear [mm].

    ``spans`` are (teeth spanned, reading); ``pins`` are (pin diameter, reading over two pins).
    """

    teeth: int
    outside_mm: float | None = None
    spans: tuple[tuple[int, float], ...] = ()
    pins: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Off:
    """One reading against a candidate: what it should be, and how far off it is [mm, tolerances]."""

    label: str
    read_mm: float
    should_mm: float
    in_tolerances: float

    @property
    def off_mm(self) -> float:
        """Reading less expected."""
        return self.read_mm - self.should_mm


@dataclass(frozen=True, slots=True)
class GearGuess:
    """A gear the readings may be; ``misfit`` is in tolerances (below about 1 is a good fit)."""

    pitch: Pitch
    pressure_angle_deg: float
    addendum: float
    shift: float
    misfit: float
    fits: bool
    offs: tuple[Off, ...]

    @property
    def agrees(self) -> bool:
        """Whether the readings may be of it; the outside alone is forgiven by nothing, and proves no profile shift."""
        if any(off.label != OUTSIDE for off in self.offs):
            return self.fits
        return not self.shift and all(abs(off.in_tolerances) <= 1.0 for off in self.offs)

    @property
    def name(self) -> str:
        """As the trade says it."""
        stub = ", stub teeth" if self.addendum < FULL else ""
        shift = f", profile shift {self.shift:+.3f}" if self.shift else ""
        return f"{self.pitch.name}, {self.pressure_angle_deg:g}°{stub}{shift}"

    def gear(self, teeth: int) -> SpurGear:
        """The gear."""
        return SpurGear(teeth, self.pitch.module_mm, self.pressure_angle_deg, self.shift, self.addendum)


@door()
def identify_gear(
    readings: GearReadings, *, tolerance_mm: float = 0.05, limit: int = 6
) -> Worked[tuple[GearGuess, ...]]:
    """The gears the readings may be, best first.

    Args:
        readings: teeth and at least one of outside diameter, spans, sizes over pins.
        tolerance_mm: how far a reading may be off on a sound gear (0.05 for a caliper).
        limit: how many to give.

    Raises:
        BadEntry: nothing measured, or a reading that is not a size.
        OutOfRange: no standard pitch comes near.

    >>> found = identify_gear(GearReadings(32, outside_mm=59.50)).value
    >>> found[0].pitch.name
    'module 1.75'
    """
    _check(readings)
    if not 0.001 <= tolerance_mm <= 2.0:
        raise OutOfRange("lies outside 0.001 to 2 mm.", where="Readings good to", value=said(tolerance_mm))
    plain = list(_plain(readings, tolerance_mm))
    guesses = [guess for guess in plain if guess.fits]
    if not any(_usual(guess) for guess in guesses):
        guesses = [*(guesses or plain), *_shifted(readings, tolerance_mm)]
    guesses = [guess for guess in guesses if guess.misfit < 12.0]
    guesses.sort(key=_rank)
    if not guesses:
        raise OutOfRange(
            "come near no standard module or diametral pitch.",
            where="Gear",
            value=_said(readings),
            way_out="Count the teeth again; a helical gear must be measured in its normal section.",
        )
    return Worked(tuple(guesses[:limit]), _working(readings, guesses[:limit], tolerance_mm).close())


def _usual(guess: GearGuess) -> bool:
    """A gear one would expect: not a seldom pitch, not a seldom pressure angle."""
    return guess.pitch.commonness <= 2 and dict(ANGLES)[guess.pressure_angle_deg] == 1


def _check(readings: GearReadings) -> None:
    values = [size for pair in (*readings.spans, *readings.pins) for size in pair]
    values += [readings.outside_mm] if readings.outside_mm is not None else []
    if not values:
        raise BadEntry(
            "needs an outside diameter, a span or a size over pins.",
            where="Gear",
            value=f"{readings.teeth} teeth",
        )
    if any(number_of("Size read on the gear", value) <= 0 for value in values):
        raise BadEntry("is not a positive size.", where="Gear", value=_said(readings))
    SpurGear(readings.teeth, 1.0, 20.0)


def _gears(readings: GearReadings) -> Iterator[tuple[Pitch, float, float]]:
    """Standard pitches near the readings, each with pressure angle and addendum."""
    for pitch in standard_pitches():
        for angle, seldom in ANGLES:
            if seldom > 1 and not readings.spans:
                continue  # neither the outside nor pins near the pitch line tell seldom angles apart
            for addendum in (FULL, STUB):
                if _near(readings, pitch.module_mm, angle, addendum):
                    yield pitch, angle, addendum


def _near(readings: GearReadings, module: float, angle: float, addendum: float) -> bool:
    """A quick look that leaves room for a profile shift of about ±0.8."""
    z = readings.teeth
    if readings.outside_mm is not None:
        bare = module * (z + 2 * addendum)
        if abs(readings.outside_mm - bare) > 1.6 * module:
            return False
    base_pitch = pi * module * cos(radians(angle))
    spans = sorted(readings.spans)
    for (k1, w1), (k2, w2) in pairwise(spans):
        if k2 > k1 and abs((w2 - w1) / (k2 - k1) / base_pitch - 1) > 0.05:
            return False
    return True


def _plain(readings: GearReadings, tol: float) -> Iterator[GearGuess]:
    for pitch, angle, addendum in _gears(readings):
        guess = _guess(readings, pitch, angle, addendum, 0.0, tol)
        if guess is not None:
            yield guess


def _shifted(readings: GearReadings, tol: float) -> Iterator[GearGuess]:
    for pitch, angle, addendum in _gears(readings):
        if addendum != FULL or pitch.commonness > 2:
            continue
        for shift in _shifts(readings, SpurGear(readings.teeth, pitch.module_mm, angle)):
            guess = _guess(readings, pitch, angle, addendum, shift, tol)
            if guess is not None:
                yield guess


def _shifts(readings: GearReadings, gear: SpurGear) -> tuple[float, ...]:
    """The shift the tooth thickness shows, or the outside diameter where nothing else was measured."""
    shown: list[float] = []
    try:
        shown += [shift_from_span(gear, k, W) for k, W in readings.spans]
        shown += [shift_from_pins(gear, w, M) for w, M in readings.pins]
    except OutOfRange:
        return ()
    if not shown and readings.outside_mm is not None:
        shown = [(readings.outside_mm - gear.outside_mm) / (2 * gear.module_mm)]
    mean = sum(shown) / len(shown)
    return (mean,) if 0.03 <= abs(mean) <= 1.0 else ()


def _guess(
    readings: GearReadings, pitch: Pitch, angle: float, addendum: float, shift: float, tol: float
) -> GearGuess | None:
    gear = SpurGear(readings.teeth, pitch.module_mm, angle, shift, addendum)
    try:
        offs = tuple(_offs(readings, gear, tol))
    except OutOfRange:
        return None
    misfit = sqrt(sum(off.in_tolerances**2 for off in offs) / len(offs))
    fits = max(abs(off.in_tolerances) for off in offs) <= _PLAIN_FIT
    return GearGuess(pitch, angle, addendum, shift, misfit, fits, offs)


def _offs(readings: GearReadings, gear: SpurGear, tol: float) -> Iterator[Off]:
    """Each reading against the gear; small readings are forgiven more than large ones."""
    thin = abs(_THIN_SHIFT) * gear.module_mm * 2 * 0.34 + 2 * tol
    if readings.outside_mm is not None:
        yield _off(
            OUTSIDE, readings.outside_mm, gear.outside_mm, max(2 * tol, 0.004 * gear.outside_mm), 1.2 * tol
        )
    spans = sorted(readings.spans)
    for k, W in spans:
        yield _off(f"span over {k}", W, span_mm(gear, k), thin, tol)
    for (k1, w1), (k2, w2) in pairwise(spans):
        if k2 > k1:
            yield _off("base pitch", (w2 - w1) / (k2 - k1), gear.base_pitch_mm, tol * 0.6, tol * 0.6)
    for w, M in readings.pins:
        yield _off(f"over {w:.4g} mm pins", M, over_pins_mm(gear, w), 2.5 * thin, 1.5 * tol)


def _off(label: str, read: float, should: float, under: float, over: float) -> Off:
    off = read - should
    return Off(label, read, should, off / (under if off < 0 else over))


def _rank(guess: GearGuess) -> float:
    """Misfit, with small weights for the seldom and the shifted; ties go to the usual pairings."""
    seldom = 0.35 * (guess.pitch.commonness - 1) + 0.4 * (dict(ANGLES)[guess.pressure_angle_deg] - 1)
    stub = 0.6 if guess.addendum < FULL else 0.0
    shifted = 0.5 + min(abs(guess.shift), 1.0) if guess.shift else 0.0
    unusual = 0.05 if (guess.pitch.kind == "dp") != (guess.pressure_angle_deg == 14.5) else 0.0
    return guess.misfit + seldom + stub + shifted + unusual


def _said(readings: GearReadings) -> str:
    parts = [f"{readings.teeth} teeth"]
    if readings.outside_mm is not None:
        parts.append(f"outside {readings.outside_mm:g} mm")
    parts += [f"{W:g} mm over {k} teeth" for k, W in readings.spans]
    parts += [f"{M:g} mm over {w:g} mm pins" for w, M in readings.pins]
    return ", ".join(parts)


def _working(readings: GearReadings, guesses: Sequence[GearGuess], tol: float) -> Sheet:
    sheet = Sheet(f"Which gear has {readings.teeth} teeth and these sizes")
    sheet.read("measured", _said(readings))
    sheet.read("tolerance", f"{both(tol)} on a sound gear; thin teeth and small blanks are forgiven")
    if readings.outside_mm is not None:
        z = readings.teeth
        module = readings.outside_mm / (z + 2)
        sheet.equation(
            "from the outside",
            f"{num(readings.outside_mm):.6g} / ({z} + 2) = module {module:.4f}, DP {25.4 / module:.3f}",
        )
    if not any(guess.fits and not guess.shift for guess in guesses):
        sheet.note(
            "No standard gear without profile shift fits; shifted ones are offered, or a reading is off."
        )
    for guess in guesses:
        text = "; ".join(
            f"{off.label} should be {num(off.should_mm):.3f}, is {num(off.off_mm):+.3f} {own_unit()} off"
            for off in guess.offs
        )
        sheet.result(guess.name, f"{text} (misfit {guess.misfit:.2f})", guess.pitch.source or RULE)
    if len(readings.spans) < 2 and not readings.pins:
        sheet.note("The outside diameter alone does not tell the pressure angle: span k and k + 1 teeth.")
    sheet.note("Order: misfit first, then how common the gear is.", RANKING)
    return sheet
