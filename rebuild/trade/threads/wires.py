"""Pitch diameter by three wires, both ways, for any thread form.

Simple rule: M = E + w (1 + cosec a) - (P/2) cot a, with a half the included angle. It leaves the lead angle
out; on Acme, trapezoidal and multiple-start screws the wire then rides higher than the rule says, so the exact
helicoid (``helicoid``) is used there, and wherever the difference passes 0.00015 in.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, degrees, sin, tan

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import number_of, whole_of, word_of
from rebuild.trade.sizes.own_unit import both, own_unit, said
from rebuild.trade.threads import helicoid
from rebuild.trade.threads.form import Form, form
from rebuild.trade.threads.series import System

SIMPLE = Source("ASME B1.2 and ASME B1.5", "three-wire method, lead angle left out", Status.PUBLISHED)
EXACT = Source("involute helicoid", "three-wire method with the lead angle", Status.COMPUTED)
NEGLIGIBLE_MM = 0.00015 * 25.4


@dataclass(frozen=True, slots=True)
class WireSizes:
    """Wires for one thread [mm]: best (touches at the pitch line), smallest and largest usable.

    ``plain_best_mm`` is the best wire by the plain rule; ``lead_angle_in_best`` says whether ``best_mm`` takes
    the lead angle in.
    """

    best_mm: float
    smallest_mm: float
    largest_mm: float
    lead_angle_deg: float
    plain_best_mm: float
    lead_angle_in_best: bool


@dataclass(frozen=True, slots=True)
class WireReading:
    """A pitch diameter with its measurement over wires [mm].

    ``lead_correction_mm`` is how much higher the wires stand than the simple rule says; ``corrected`` tells
    whether it is in the figures.
    """

    pitch_diameter_mm: float
    over_wires_mm: float
    wire_mm: float
    lead_angle_deg: float
    lead_correction_mm: float
    corrected: bool


def wire_sizes(
    system: System, pitch_mm: float, pitch_diameter_mm: float | None = None, starts: int = 1
) -> Worked[WireSizes]:
    """Best, smallest and largest wire for a thread.

    Args:
        system: the thread system (gives the form).
        pitch_mm: pitch, not lead [mm].
        pitch_diameter_mm: with it the best wire takes the lead angle in where the exact rule is used.
        starts: number of starts.

    Raises:
        BadEntry: a size not above zero, or a thread measured otherwise (taper pipe).

    >>> round(wire_sizes(System.UNIFIED, 25.4 / 20).value.best_mm / 25.4, 5)
    0.02887
    """
    shape = _shape(system)
    _positive(pitch_mm, "Pitch")
    sheet = Sheet("Wires for a thread")
    sheet.read("pitch P", both(pitch_mm, 4))
    best = shape.best_wire * pitch_mm
    sheet.equation("best wire", f"P / (2 cos {shape.included_deg / 2:g}°) = {both(best, 4)}", SIMPLE)
    plain, angle = best, 0.0
    if pitch_diameter_mm is not None:
        screw = _screw(shape, pitch_diameter_mm, pitch_mm, starts)
        angle = degrees(screw.lead_angle)
        if always_exact(shape, starts):
            best = helicoid.best_wire(screw, best)
            sheet.equation("best wire with the lead angle", f"at {angle:.2f}° = {both(best, 4)}", EXACT)
    small, large = shape.smallest_wire * pitch_mm, shape.largest_wire * pitch_mm
    sheet.equation(
        "smallest, flush with the crest", f"{shape.smallest_wire:.5f} P = {both(small, 4)}", SIMPLE
    )
    sheet.equation(
        "largest, at the end of the flank", f"{shape.largest_wire:.5f} P = {both(large, 4)}", SIMPLE
    )
    led = pitch_diameter_mm is not None and always_exact(shape, starts)
    if not led:
        sheet.note("The best wire is by the plain rule: the lead angle is left out.", SIMPLE)
    return Worked(WireSizes(best, small, large, angle, plain, led), sheet.close())


def over_wires(
    system: System,
    pitch_diameter_mm: float,
    pitch_mm: float,
    wire_mm: float,
    starts: int = 1,
    lead_corrected: bool | None = None,
) -> Worked[WireReading]:
    """What to read over three wires when the pitch diameter is right.

    Args:
        system: the thread system (gives the form).
        pitch_diameter_mm: pitch diameter E [mm].
        pitch_mm: pitch, not lead [mm].
        wire_mm: wire diameter w [mm].
        starts: number of starts.
        lead_corrected: True or False to force; None takes the lead angle in where it matters.

    Raises:
        BadEntry: a size not above zero, or a thread measured otherwise (taper pipe).
        OutOfRange: the wire sinks below the crest or rides on its corner.

    >>> found = over_wires(System.ACME, 0.45 * 25.4, 2.54, 0.05164 * 25.4).value
    >>> round(found.over_wires_mm / 25.4, 4)
    0.515
    """
    shape = _shape(system)
    _usable(shape, pitch_mm, wire_mm)
    _positive(pitch_diameter_mm, "Pitch diameter")
    sheet = Sheet("Measurement over three wires")
    sheet.read("pitch diameter E", _exact(pitch_diameter_mm))
    _read(sheet, shape, pitch_mm, wire_mm, starts)
    reading = _forward(shape, pitch_diameter_mm, pitch_mm, wire_mm, starts, lead_corrected)
    _simple_line(sheet, shape, reading, pitch_mm)
    _lead_line(sheet, reading)
    sheet.result("over wires M", _exact(reading.over_wires_mm))
    return Worked(reading, sheet.close())


def pitch_diameter(
    system: System,
    over_wires_mm: float,
    pitch_mm: float,
    wire_mm: float,
    starts: int = 1,
    lead_corrected: bool | None = None,
) -> Worked[WireReading]:
    """The pitch diameter from a reading over three wires; arguments and errors as ``over_wires``.

    Raises:
        BadEntry: also when the reading is too small for the wire.

    >>> M = over_wires(System.ACME, 22.86, 5.08, 2.62).value.over_wires_mm
    >>> round(pitch_diameter(System.ACME, M, 5.08, 2.62).value.pitch_diameter_mm, 9)
    22.86
    """
    shape = _shape(system)
    _usable(shape, pitch_mm, wire_mm)
    plain = number_of("Over wires", over_wires_mm) - _simple_rise(shape, pitch_mm, wire_mm)
    if plain <= pitch_mm:
        raise BadEntry(
            "is too small for this wire and pitch: the screw would have no core.",
            where="Over wires",
            value=f"{over_wires_mm:.4f} mm",
            way_out="Check wire, pitch and unit.",
        )
    sheet = Sheet("Pitch diameter from three wires")
    sheet.read("over wires M", _exact(over_wires_mm))
    _read(sheet, shape, pitch_mm, wire_mm, starts)
    E = plain
    reading = _forward(shape, E, pitch_mm, wire_mm, starts, lead_corrected)
    for _ in range(50):
        miss = reading.over_wires_mm - over_wires_mm
        if abs(miss) < 1e-11:
            break
        E -= miss
        reading = _forward(shape, E, pitch_mm, wire_mm, starts, reading.corrected)
    _simple_line(sheet, shape, reading, pitch_mm)
    _lead_line(sheet, reading)
    sheet.result("pitch diameter E", _exact(E))
    return Worked(reading, sheet.close())


def _forward(
    shape: Form, E: float, P: float, w: float, starts: int, lead_corrected: bool | None
) -> WireReading:
    _positive(E, "Pitch diameter")
    screw = _screw(shape, E, P, starts)
    plain = E + _simple_rise(shape, P, w)
    exact = helicoid.over_wires(screw, w)
    corrected = (
        (always_exact(shape, starts) or exact - plain > NEGLIGIBLE_MM)
        if lead_corrected is None
        else lead_corrected
    )
    return WireReading(
        E, exact if corrected else plain, w, degrees(screw.lead_angle), exact - plain, corrected
    )


def _simple_rise(shape: Form, P: float, w: float) -> float:
    a = shape.half_rad
    return w * (1 + 1 / sin(a)) - P / 2 / tan(a)


def always_exact(shape: Form, starts: int) -> bool:
    """Whether the lead angle is always taken in: a flat flank, or several starts.

    >>> always_exact(form(System.ACME), 1), always_exact(form(System.UNIFIED), 1)
    (True, False)
    """
    return starts > 1 or cos(shape.half_rad) > 0.95


def _screw(shape: Form, E: float, P: float, starts: int) -> helicoid.Helicoid:
    _positive(E, "Pitch diameter")
    if whole_of("Starts", starts) < 1:
        raise BadEntry("must be one or more.", where="Starts", value=str(starts))
    return helicoid.helicoid(E, P, starts, shape.half_rad)


def _shape(system: System) -> Form:
    system = word_of("Thread system", system, System)
    if system is System.PIPE_TAPER:
        raise BadEntry(
            "is tapered: three wires across it do not give a pitch diameter.",
            where="Thread",
            value=system.value,
            way_out="Gauge it with a ring at the gauge plane.",
        )
    return form(system)


def _exact(mm: float) -> str:
    """A size in both systems, to the last place that wires are good for."""
    texts = (f"{mm:.4f} mm", f"{mm / 25.4:.5f} in")
    first, other = texts[::-1] if own_unit() == "in" else texts
    return f"{first} ({other})"


def _positive(value: float, where: str) -> None:
    if number_of(where, value) <= 0:
        raise BadEntry("must be more than zero.", where=where, value=f"{value:g} mm")


def _usable(shape: Form, P: float, w: float) -> None:
    _positive(P, "Pitch")
    number_of("Wire", w)
    low, high = shape.smallest_wire * P, shape.largest_wire * P
    if not low - 1e-9 <= w <= high + 1e-9:
        raise OutOfRange(
            f"does not suit this pitch: below {_exact(low)} it sinks under the crests, "
            f"above {_exact(high)} it rides on their corners ({shape.source.name}).",
            where="Wire",
            value=said(w),
            way_out=f"Best wire: {_exact(shape.best_wire * P)}.",
        )


def _read(sheet: Sheet, shape: Form, P: float, w: float, starts: int) -> None:
    sheet.read("form", f"{shape.system.value}, {shape.included_deg:g}° included", shape.source)
    sheet.read("pitch P", f"{both(P, 4)}, {starts} start{'s' if starts > 1 else ''}")
    sheet.read("wire w", _exact(w))


def _simple_line(sheet: Sheet, shape: Form, reading: WireReading, P: float) -> None:
    rise = _simple_rise(shape, P, reading.wire_mm)
    sheet.equation(
        "simple rule M - E",
        f"w (1 + cosec {shape.included_deg / 2:g}°) - (P/2) cot {shape.included_deg / 2:g}° = {both(rise, 4)}",
        SIMPLE,
    )


def _lead_line(sheet: Sheet, reading: WireReading) -> None:
    text = f"{reading.lead_angle_deg:.2f}° lifts the wires by {both(reading.lead_correction_mm, 4)}"
    if reading.corrected:
        sheet.equation("lead angle", f"{text}; included", EXACT)
    else:
        sheet.note(f"The lead angle of {text}; left out, as is usual.", SIMPLE)
