"""General purpose Acme threads, 29° (ASME B1.5): classes 2G, 3G, 4G, any diameter and pitch.

The standard gives the limits by formula, so pairs outside its series (7/16-10, 1-8) follow the same rules.
As in the inch threads of ASME B1.1 the limit of maximum material is rounded to four places, the tolerance to six,
and the other limit worked from these, ties to the even digit.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from rebuild.errors import BadEntry
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import whole_of, word_of
from rebuild.trade.threads.rounding import clean, dec, half_even, half_up
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

CLASSES = ("2G", "3G", "4G")
RULE = Source("ASME B1.5-1997", "general purpose Acme, formulas for diameters", Status.PUBLISHED)
_TEN_TPI = Decimal("0.1")  # pitch [in] from which the clearance at the root doubles
_ALLOWANCE = {"2G": "0.008", "3G": "0.006", "4G": "0.004"}
_DIAMETER_PART = {"2G": "0.006", "3G": "0.0028", "4G": "0.002"}
_PITCH_PART = {"2G": "0.030", "3G": "0.014", "4G": "0.010"}


@dataclass(frozen=True, slots=True)
class Increments:
    """What an Acme class adds and takes away [in]."""

    pitch_allowance: Decimal
    pitch_tolerance: Decimal
    crest_tolerance: Decimal
    root_clearance: Decimal


def limits(
    major_in: float,
    tpi: float,
    thread_class: str = "2G",
    *,
    side: Side | str = Side.EXTERNAL,
    starts: int = 1,
) -> Worked[ThreadLimits]:
    """Limits of a general purpose Acme screw or nut.

    Args:
        major_in: nominal diameter D [in], 0.1 to 5.5.
        tpi: threads (not turns) per inch n, 1 to 20: pitch is 1/n whatever the starts.
        thread_class: 2G, 3G or 4G; the same class serves screw and nut.
        side: ``external`` (screw) or ``internal`` (nut).
        starts: number of starts; sets lead and lead angle. The standard's tolerances are for one start.

    Raises:
        BadEntry: no such class, or the pitch leaves no core.
        OutOfRange: outside the rule's range.

    Source: ASME B1.5-1997.

    >>> limits(1, 8, "2G", side="internal").value.minor
    Band(low=0.875, high=0.8813, unit='in')
    >>> limits(0.5, 10, "2G").value.minor.low
    0.3594
    """
    name, major_in, tpi = (
        one_of(thread_class, CLASSES, RULE),
        clean(major_in, "Diameter"),
        clean(tpi, "Threads per inch"),
    )
    starts, part = whole_of("Starts", starts), word_of("Side", side, Side)
    check_size(major_in, tpi, starts, 1.0)
    sheet = Sheet(f"{label(major_in, tpi, starts)} ACME-{name}, {part.value}: limits of size")
    read_size(sheet, major_in, tpi, starts)
    D, P = dec(major_in), 1 / dec(tpi)
    D2, D1 = D - P / 2, D - P
    sheet.equation("basic pitch diameter", f"D - P/2 = {D2:.4f} in", RULE)
    sheet.equation("basic minor diameter", f"D - P = {D1:.4f} in", RULE)
    inc = increments(sheet, D, P, name)
    external = part is Side.EXTERNAL
    major, pitch, minor = (_screw if external else _nut)(sheet, D, D2, D1, inc)
    found = ThreadLimits(
        designation=f"{label(major_in, tpi, starts)} ACME-{name}",
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
        allowance=float(inc.pitch_allowance) if external else 0.0,
        lead_angle_deg=lead_angle_deg(float(D2), starts / tpi),
    )
    result_lines(sheet, found)
    return Worked(found, sheet.close())


def _screw(sheet: Sheet, D: Decimal, D2: Decimal, D1: Decimal, inc: Increments) -> tuple[Band, Band, Band]:
    d2_max = half_even(half_even(D2, 4) - inc.pitch_allowance, 4)
    d2_min = half_even(d2_max - inc.pitch_tolerance, 4)
    d1_max = half_even(D1 - inc.root_clearance, 4)
    drop = half_even(Decimal("1.5") * inc.pitch_tolerance, 6)
    d1_min = half_even(d1_max - drop, 4)
    sheet.equation(
        "pitch", f"{D2:.4f} - {inc.pitch_allowance} = {d2_max};  less {inc.pitch_tolerance} in", RULE
    )
    sheet.equation("minor, max", f"D - P - {inc.root_clearance} = {d1_max} in", RULE)
    sheet.equation("minor, min", f"{d1_max} - 1.5 x {inc.pitch_tolerance} = {d1_min} in", RULE)
    return band(half_even(D - inc.crest_tolerance, 4), D), band(d2_min, d2_max), band(d1_min, d1_max)


def _nut(sheet: Sheet, D: Decimal, D2: Decimal, D1: Decimal, inc: Increments) -> tuple[Band, Band, Band]:
    top, high = D + inc.root_clearance, D1 + inc.crest_tolerance
    D2_min = half_even(D2, 4)
    D2_max = half_even(D2_min + inc.pitch_tolerance, 4)
    sheet.equation("pitch", f"{D2_min} + {inc.pitch_tolerance} = {D2_max} in", RULE)
    sheet.equation("minor", f"{D1:.5f} + {inc.crest_tolerance:.5f} = {high:.5f} in", RULE)
    sheet.equation("major", f"D + {inc.root_clearance} to D + {2 * inc.root_clearance} in", RULE)
    # The printed tables round this sum once and a tie upwards: 0.50625 stands there as 0.5063.
    return band(top, top + inc.root_clearance), band(D2_min, D2_max), band(half_even(D1, 4), half_up(high, 4))


def increments(sheet: Sheet, D: Decimal, P: Decimal, name: str) -> Increments:
    """Allowance, tolerances and clearances of a class, with the lines that show them.

    >>> increments(Sheet("1-5 ACME"), Decimal(1), Decimal("0.2"), "2G").root_clearance
    Decimal('0.020')
    """
    mean, how = allowance_diameter(D)
    allowance = half_up(Decimal(_ALLOWANCE[name]) * mean.sqrt(), 4)
    tolerance = half_even(Decimal(_DIAMETER_PART[name]) * D.sqrt() + Decimal(_PITCH_PART[name]) * P.sqrt(), 6)
    crest = max(Decimal("0.05") * P, Decimal("0.005"))
    fine = P < _TEN_TPI
    clearance = Decimal("0.010" if fine else "0.020")
    sheet.equation(
        "pitch diameter allowance", f"{_ALLOWANCE[name]} √{mean:.4f} = {allowance} in ({how})", RULE
    )
    sheet.equation(
        "pitch diameter tolerance",
        f"{_DIAMETER_PART[name]} √D + {_PITCH_PART[name]} √P = {tolerance} in",
        RULE,
    )
    sheet.equation("crest tolerance", f"0.05 P, at least 0.005 = {crest:.5f} in", RULE)
    sheet.equation("root clearance", f"{clearance} in ({'finer' if fine else 'not finer'} than 10 tpi)", RULE)
    return Increments(allowance, tolerance, crest, clearance)


def allowance_diameter(D: Decimal) -> tuple[Decimal, str]:
    """The diameter whose root sets the allowance: the mean of the standard's range, or D above the ranges.

    >>> allowance_diameter(Decimal("0.4375"))
    (Decimal('0.3750'), 'mean of the range over 0.3125 to 0.4375')
    """
    for row in table("acme_allowance_ranges").rows:
        low, high = Decimal(row["over_in"]), Decimal(row["to_in"])
        if low < D <= high:
            return (low + high) / 2, f"mean of the range over {low} to {high}"
    return D, "above the tabulated ranges: D itself"


def check_size(major_in: float, tpi: float, starts: int, depth: float) -> None:
    """Refuse sizes outside the Acme rules.

    >>> check_size(1, 5, 1, 1.0)
    """
    if starts < 1:
        raise BadEntry("must be one or more.", where="Starts", value=str(starts))
    in_range(major_in, 0.1, 5.5, "Diameter", "in", RULE)
    in_range(tpi, 1, 20, "Threads per inch", "per in", RULE)
    cuttable(major_in, 1 / tpi, depth + 0.05 * tpi, "in")


def read_size(sheet: Sheet, major_in: float, tpi: float, starts: int) -> None:
    """The inputs as lines; says when starts reach past the standard.

    >>> sheet = Sheet("1-5 ACME, 2 starts")
    >>> read_size(sheet, 1.0, 5.0, 2)
    >>> [step.text for step in sheet.close().steps][:3]
    ['1 in', '1/5 = 0.200000 in', '2: lead 0.400000 in']
    """
    sheet.read("nominal diameter D", f"{major_in:g} in")
    sheet.read("pitch P", f"1/{tpi:g} = {1 / tpi:.6f} in")
    if starts > 1:
        sheet.read("starts", f"{starts}: lead {starts / tpi:.6f} in")
        sheet.note("The standard states its tolerances for one start; they are used here unchanged.", RULE)


def label(major_in: float, tpi: float, starts: int) -> str:
    """``0.4375-10``, or with pitch and lead for several starts.

    >>> label(0.5, 10, 1), label(2.5, 3, 2)
    ('0.5-10', '2.5-0.3333P-0.6667L')
    """
    if starts == 1:
        return f"{major_in:g}-{tpi:g}"
    return f"{major_in:g}-{1 / tpi:.4f}P-{starts / tpi:.4f}L"


def band(low: Decimal, high: Decimal) -> Band:
    """Two limits in inches.

    >>> band(Decimal("0.875"), Decimal("0.8813"))
    Band(low=0.875, high=0.8813, unit='in')
    """
    return Band(float(low), float(high), "in")
