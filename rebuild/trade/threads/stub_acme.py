"""Stub Acme threads, 29° and 0.3 P high (ASME B1.8), class 2G; 3G and 4G borrow the Acme tolerances."""

from __future__ import annotations

from decimal import Decimal

from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import whole_of, word_of
from rebuild.trade.threads.acme import CLASSES, band, check_size, increments, label, read_size
from rebuild.trade.threads.rounding import clean, dec, half_even, half_up
from rebuild.trade.threads.sizes import Side, ThreadLimits, lead_angle_deg, one_of, result_lines

RULE = Source("ASME B1.8-1988", "stub Acme, formulas for diameters", Status.FROM_MEMORY)
_HEIGHT = Decimal("0.3")


def limits(
    major_in: float,
    tpi: float,
    thread_class: str = "2G",
    *,
    side: Side | str = Side.EXTERNAL,
    starts: int = 1,
) -> Worked[ThreadLimits]:
    """Limits of a stub Acme screw or nut; arguments and errors as ``acme.limits``.

    Differences from general purpose Acme: height 0.3 P; the screw's minor diameter tolerance and the nut's
    major diameter tolerance are each the pitch diameter tolerance itself.

    Source: ASME B1.8-1988 (rules from memory; heights and clearances seen in print).

    >>> limits(0.25, 16, side="internal").value.minor
    Band(low=0.2125, high=0.2175, unit='in')
    """
    name, major_in, tpi = (
        one_of(thread_class, CLASSES, RULE),
        clean(major_in, "Diameter"),
        clean(tpi, "Threads per inch"),
    )
    starts, part = whole_of("Starts", starts), word_of("Side", side, Side)
    check_size(major_in, tpi, starts, 0.6)
    sheet = Sheet(f"{label(major_in, tpi, starts)} STUB ACME-{name}, {part.value}: limits of size")
    read_size(sheet, major_in, tpi, starts)
    D, P = dec(major_in), 1 / dec(tpi)
    D2, D1 = D - _HEIGHT * P, D - 2 * _HEIGHT * P
    sheet.equation("basic pitch diameter", f"D - 0.3 P = {D2:.4f} in", RULE)
    sheet.equation("basic minor diameter", f"D - 0.6 P = {D1:.4f} in", RULE)
    inc = increments(sheet, D, P, name)
    tolerance = inc.pitch_tolerance
    if part is Side.EXTERNAL:
        d2 = half_even(half_even(D2, 4) - inc.pitch_allowance, 4)
        d1 = half_even(D1 - inc.root_clearance, 4)
        major = band(half_even(D - inc.crest_tolerance, 4), D)
        pitch = band(half_even(d2 - tolerance, 4), d2)
        minor = band(half_even(d1 - tolerance, 4), d1)
    else:
        top, low = D + inc.root_clearance, half_even(D2, 4)
        major = band(top, half_even(top + tolerance, 4))
        pitch = band(low, half_even(low + tolerance, 4))
        minor = band(half_even(D1, 4), half_up(D1 + inc.crest_tolerance, 4))
    found = ThreadLimits(
        designation=f"{label(major_in, tpi, starts)} STUB ACME-{name}",
        side=part,
        thread_class=name,
        unit="in",
        decimals=4,
        nominal=major_in,
        pitch=1 / tpi,
        starts=starts,
        major=major,
        pitch_diameter=pitch,
        minor=minor,
        basic_pitch_diameter=float(D2),
        allowance=float(inc.pitch_allowance) if part is Side.EXTERNAL else 0.0,
        lead_angle_deg=lead_angle_deg(float(D2), starts / tpi),
    )
    result_lines(sheet, found)
    return Worked(found, sheet.close())
