"""ISO trapezoidal threads, 30° (ISO 2901 to 2904): classes 7e, 8e, 8c, 9c and 7H, 8H, 9H.

Pitch diameter tolerances are those of ISO 965-1's formula for the diameter range and pitch, rounded to R40,
stepped along R40 by grade; crest clearance, deviations and crest tolerances stand in ``iso2903_trapezoidal``.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from math import sqrt

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import whole_of
from rebuild.trade.sizes.own_unit import said
from rebuild.trade.threads.iso965 import diameter_range
from rebuild.trade.threads.rounding import clean, dec, half_even, half_up, r40, r40_step
from rebuild.trade.threads.sizes import (
    Band,
    Side,
    ThreadLimits,
    cuttable,
    in_range,
    lead_angle_deg,
    one_of,
    result_lines,
)

CLASSES = ("7e", "8e", "8c", "9c", "7c", "9e", "7H", "8H", "9H")
PROFILE = Source("ISO 2901 and ISO 2904", "profile and basic dimensions", Status.PUBLISHED)
TOLERANCES = Source("ISO 2903", "tolerances", Status.PUBLISHED)
STARTS = Source("ISO 2903", "clause 10, factor for multiple starts", Status.FROM_MEMORY)
_STEPS = {("d", 7): 4, ("d", 8): 8, ("d", 9): 12, ("D", 7): 9, ("D", 8): 13, ("D", 9): 17}
_START_FACTOR = {1: "1", 2: "1.12", 3: "1.25", 4: "1.4"}


@dataclass(frozen=True, slots=True)
class Basic:
    """Basic dimensions [mm]: d2 = D2, d3 (screw root), D1 and D4 (nut), crest clearance, thread depth."""

    d: float
    P: float
    ac: float
    d2: float
    d3: float
    D1: float
    D4: float
    depth: float


def basic(d_mm: float, pitch_mm: float) -> Basic:
    """Basic dimensions of ISO 2904: d2 = d - P/2, d3 = d - P - 2ac, D1 = d - P, D4 = d + 2ac.

    Raises:
        OutOfRange: pitch not one of ISO 2901.
        BadEntry: the pitch leaves no core.

    >>> basic(42, 10)
    Basic(d=42.0, P=10.0, ac=0.5, d2=37.0, d3=31.0, D1=32.0, D4=43.0, depth=5.5)
    """
    d_mm, pitch_mm = clean(d_mm, "Diameter"), clean(pitch_mm, "Pitch")
    ac = float(_row(pitch_mm)["ac_mm"])
    in_range(d_mm, 5.6, 355, "Diameter", "mm", TOLERANCES)
    cuttable(d_mm, pitch_mm, 1 + 2 * ac / pitch_mm, "mm")
    d, P, a = dec(d_mm), dec(pitch_mm), dec(ac)
    return Basic(
        d_mm,
        pitch_mm,
        ac,
        float(d - P / 2),
        float(d - P - 2 * a),
        float(d - P),
        float(d + 2 * a),
        float(P / 2 + a),
    )


def limits(d_mm: float, pitch_mm: float, thread_class: str = "7e", starts: int = 1) -> Worked[ThreadLimits]:
    """Limits of an ISO trapezoidal thread.

    Args:
        d_mm: nominal diameter [mm], 5.6 to 355.
        pitch_mm: pitch P (not lead) [mm], one of ISO 2901.
        thread_class: 7e, 8e, 8c, 9c (screw) or 7H, 8H, 9H (nut), normal length of engagement.
        starts: number of starts; the pitch diameter tolerance grows with it.

    Raises:
        BadEntry: no such class or number of starts, or no core left.
        OutOfRange: outside the standard's sizes.

    Source: ISO 2901, 2903, 2904.

    >>> found = limits(12, 3, "7e").value
    >>> found.pitch_diameter.low, found.pitch_diameter.high, found.minor.low
    (10.191, 10.415, 8.135)
    """
    name, d_mm, pitch_mm = (
        one_of(thread_class, CLASSES, TOLERANCES),
        clean(d_mm, "Diameter"),
        clean(pitch_mm, "Pitch"),
    )
    starts = whole_of("Starts", starts)
    if starts < 1:
        raise BadEntry("must be one or more.", where="Starts", value=str(starts))
    size = basic(d_mm, pitch_mm)
    label = f"Tr {d_mm:g}x{pitch_mm * starts:g}" + (f"(P{pitch_mm:g})" if starts > 1 else "") + f"-{name}"
    sheet = Sheet(f"{label}: limits of size")
    sheet.read("nominal diameter", f"{d_mm:g} mm")
    sheet.read("pitch P", f"{pitch_mm:g} mm, {starts} start{'s' if starts > 1 else ''}")
    sheet.table("crest clearance", f"P {pitch_mm:g}: ac = {size.ac:g} mm", _source(pitch_mm))
    sheet.equation("basic pitch diameter", f"d - P/2 = {size.d2:g} mm", PROFILE)
    external = name[1].islower()
    T2 = _pitch_tolerance(sheet, size, int(name[0]), external, starts)
    build = _external if external else _internal
    major, pitch, minor, off = build(sheet, size, name, T2)
    found = ThreadLimits(
        designation=label,
        side=Side.EXTERNAL if external else Side.INTERNAL,
        thread_class=name,
        unit="mm",
        decimals=3,
        nominal=d_mm,
        pitch=pitch_mm,
        starts=starts,
        major=major,
        pitch_diameter=pitch,
        minor=minor,
        basic_pitch_diameter=size.d2,
        allowance=off,
        lead_angle_deg=lead_angle_deg(size.d2, pitch_mm * starts),
    )
    result_lines(sheet, found)
    return Worked(found, sheet.close())


def _pitch_tolerance(sheet: Sheet, size: Basic, grade: int, external: bool, starts: int) -> Decimal:
    low, high = diameter_range(size.d)
    mean = sqrt(low * high)
    six = r40(90 * size.P**0.4 * mean**0.1)
    value = dec(r40_step(six, _STEPS["d" if external else "D", grade]))
    symbol = "Td2" if external else "TD2"
    sheet.equation(
        f"tolerance {symbol}",
        f"Td2(6) = 90 P^0.4 d^0.1 with d = {mean:.2f}: R40 {six:g}; {symbol}({grade}) = {float(value):g} µm",
        TOLERANCES,
    )
    if starts > 1:
        factor = Decimal(_START_FACTOR.get(starts, "1.6"))
        value = half_even(value * factor, 0)
        sheet.equation(f"{starts} starts", f"times {factor} = {value} µm", STARTS)
    return value / 1000


def _external(sheet: Sheet, size: Basic, name: str, Td2: Decimal) -> tuple[Band, Band, Band, float]:
    row, source = _row(size.P), _source(size.P)
    es = dec(float(row[f"dev_{name[1]}"])) / 1000
    Td = dec(float(row["ext_major_4"])) / 1000
    d, d2, d3 = dec(size.d), dec(size.d2), dec(size.d3)
    sheet.table("deviation", f"P {size.P:g}: position {name[1]} = -{row[f'dev_{name[1]}']} µm", source)
    sheet.table("tolerance Td", f"P {size.P:g}: {row['ext_major_4']} µm (grade 4)", source)
    Td3 = half_even(Decimal("1.25") * Td2, 3) + es
    d2_max = d2 - es
    sheet.equation("pitch", f"{d2:g} - {es} = {d2_max};  less {Td2} = {d2_max - Td2} mm", TOLERANCES)
    sheet.equation("minor", f"Td3 = 1.25 Td2 + es = {Td3};  {d3:g} - {Td3} = {d3 - Td3} mm", TOLERANCES)
    return _band(d - Td, d), _band(d2_max - Td2, d2_max), _band(d3 - Td3, d3), float(es)


def _internal(sheet: Sheet, size: Basic, name: str, TD2: Decimal) -> tuple[Band, Band, Band, float]:
    TD1 = dec(float(_row(size.P)["int_minor_4"])) / 1000
    D2, D1 = dec(size.d2), dec(size.D1)
    sheet.table("tolerance TD1", f"P {size.P:g}: {_row(size.P)['int_minor_4']} µm (grade 4)", _source(size.P))
    sheet.equation("pitch", f"{D2:g} + {TD2} = {D2 + TD2} mm (position {name[1]})", TOLERANCES)
    sheet.equation("minor", f"{D1:g} + {TD1} = {D1 + TD1} mm", TOLERANCES)
    sheet.equation("major D4", f"d + 2 ac = {size.D4:g} mm at least", PROFILE)
    return _band(dec(size.D4), None), _band(D2, D2 + TD2), _band(D1, D1 + TD1), 0.0


def _band(low: Decimal, high: Decimal | None) -> Band:
    rounded = None if high is None else float(half_up(high, 3))
    return Band(float(half_up(low, 3)), rounded, "mm")


@cache
def _rows() -> dict[float, Mapping[str, str]]:
    return {float(row["pitch_mm"]): row for row in table("iso2903_trapezoidal").rows}


def _row(pitch_mm: float) -> Mapping[str, str]:
    row = _rows().get(pitch_mm)
    if row is None:
        raise OutOfRange(
            f"is not a pitch of {PROFILE.name} (1.5 to 44 mm).",
            where="Pitch",
            value=said(pitch_mm),
            way_out=f"Pitches: {', '.join(f'{pitch:g}' for pitch in _rows())} mm.",
        )
    return row


def _source(pitch_mm: float) -> Source:
    return table("iso2903_trapezoidal").row_source(_row(pitch_mm))
