"""Unified inch threads (ASME B1.1): limits of all diameters for classes 1A, 2A, 3A, 1B, 2B, 3B.

Formulas and the number of decimals kept at each step follow ASME B1.1-2003 (clause 8) and ASME B1.30:
pitch to eight places, constants times pitch and tolerances to six, limits to four; the minor diameter of
1B and 2B nuts to three from No. 6 (0.138 in) up. Exact ties go to the even digit. Three standard sizes are
printed one digit off their own formulas; the printed value is used and said (``unified_printed.csv``).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import maybe_number_of
from rebuild.trade.threads.rounding import clean, dec, half_even
from rebuild.trade.threads.series import coarse_like, unified_series
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

CLASSES = ("1A", "2A", "3A", "1B", "2B", "3B")
RULE = Source("ASME B1.1-2003", "clause 8, rounding by ASME B1.30", Status.PUBLISHED)
_TOLERANCE = {"1A": "1.5", "2A": "1", "3A": "0.75", "1B": "1.95", "2B": "1.3", "3B": "0.975"}
_THIRD = Decimal(1) / Decimal(3)
_NO_SIX, _QUARTER = Decimal("0.138"), Decimal("0.25")  # sizes where rules change [in]
_ADDENDUM = Decimal("0.64951905")  # twice 3/8 of the sharp height
_DOUBLE_HEIGHT = Decimal("1.08253175")  # UN thread, flat root
_DOUBLE_HEIGHT_UNR = Decimal("1.19078493")  # UNR thread, rounded root


@dataclass(frozen=True, slots=True)
class _Basis:
    """The rounded quantities every limit is built from [in]."""

    D: Decimal
    P: Decimal
    tpi: float
    LE: Decimal
    Td2: Decimal

    @property
    def P23(self) -> Decimal:
        return self.P ** (2 * _THIRD)


def limits(
    major_in: float, tpi: float, thread_class: str = "2A", length_of_engagement_in: float | None = None
) -> Worked[ThreadLimits]:
    """Limits of a Unified thread of any diameter and pitch.

    Args:
        major_in: basic major diameter D [in], 0.06 to 6.
        tpi: threads per inch n, 2 to 120.
        thread_class: 1A, 2A, 3A (screw) or 1B, 2B, 3B (nut).
        length_of_engagement_in: LE [in]; left out, the standard's: D for UNC, UNF, 4-UN, 6-UN and 8-UN,
            nine pitches for every other series and special pitch.

    Raises:
        BadEntry: no such class, or the pitch leaves no core.
        OutOfRange: diameter, pitch or length of engagement outside the standard.

    Source: ASME B1.1-2003, ASME B1.30.

    >>> found = limits(0.5, 13, "2A").value
    >>> found.major, found.pitch_diameter.low
    (Band(low=0.4876, high=0.4985, unit='in'), 0.4435)
    """
    name, major_in, tpi = (
        one_of(thread_class, CLASSES, RULE),
        clean(major_in, "Diameter"),
        clean(tpi, "Threads per inch"),
    )
    in_range(major_in, 0.06, 6.0, "Major diameter", "in", RULE)
    in_range(tpi, 2, 120, "Threads per inch", "per in", RULE)
    length = maybe_number_of("Length of engagement", length_of_engagement_in)
    cuttable(major_in, 1 / tpi, 1.3, "in")
    sheet = Sheet(f"{major_in:g}-{tpi:g} {unified_series(major_in, tpi)}-{name}: limits of size")
    basis = _basis(sheet, major_in, tpi, length)
    build = _external if name.endswith("A") else _internal
    found = build(sheet, basis, name)
    result_lines(sheet, found)
    return Worked(found, sheet.close())


def _basis(sheet: Sheet, major_in: float, tpi: float, length: float | None) -> _Basis:
    D, P = half_even(dec(major_in), 4), half_even(1 / dec(tpi), 8)
    sheet.read("basic major diameter D", f"{D} in")
    sheet.read("pitch P", f"1/{tpi:g} = {P:.6f} in")
    LE = _engagement(sheet, D, P, tpi, length)
    diameter_part = Decimal("0.0015") * D**_THIRD
    length_part = Decimal("0.0015") * LE.sqrt()
    pitch_part = Decimal("0.015") * P ** (2 * _THIRD)
    Td2 = half_even(diameter_part + length_part + pitch_part, 6)
    sheet.equation(
        "pitch diameter tolerance, class 2A",
        f"0.0015 ∛D + 0.0015 √LE + 0.015 ∛P² = {diameter_part:.6f} + {length_part:.6f} + {pitch_part:.6f}"
        f" = {Td2} in",
        RULE,
    )
    return _Basis(D, P, tpi, LE, Td2)


def _engagement(sheet: Sheet, D: Decimal, P: Decimal, tpi: float, length: float | None) -> Decimal:
    if length is not None:
        if length <= 0:
            raise BadEntry("must be more than zero.", where="Length of engagement", value=f"{length:g} in")
        if dec(length) > 30 * P and dec(length) > Decimal("1.5") * D:
            raise OutOfRange(
                f"is longer than 30 pitches ({30 * P:.3f} in) and 1.5 diameters, where the tables of "
                f"{RULE.name} end.",
                where="Length of engagement",
                value=f"{length:g} in",
                way_out="Leave it empty for the standard length.",
            )
        sheet.read("length of engagement LE", f"{length:g} in")
        return dec(length)
    if coarse_like(float(D), tpi):
        sheet.read("length of engagement LE", f"D = {D} in (holds to 1.5 D)", RULE)
        return D
    sheet.read("length of engagement LE", f"9 P = {9 * P:.6f} in (holds from 5 P to 15 P)", RULE)
    return 9 * P


def _external(sheet: Sheet, b: _Basis, name: str) -> ThreadLimits:
    es = Decimal(0) if name == "3A" else _allowance(sheet, b)
    Td = half_even(Decimal("0.09" if name == "1A" else "0.06") * b.P23, 6)
    Td2 = half_even(Decimal(_TOLERANCE[name]) * b.Td2, 6)
    d_max = half_even(b.D - es, 4)
    d_min = half_even(d_max - Td, 4)
    d2_max = half_even(d_max - half_even(_ADDENDUM * b.P, 6), 4)
    d2_min = half_even(d2_max - Td2, 4)
    un_max = half_even(d_max - half_even(_DOUBLE_HEIGHT * b.P, 6), 4)
    unr_max = half_even(d_max - half_even(_DOUBLE_HEIGHT_UNR * b.P, 6), 4)
    minor_min = half_even(d2_min - half_even(_ADDENDUM * b.P, 6), 4)
    sheet.equation("major, max and min", f"D - {es} = {d_max};  less {Td} = {d_min} in", RULE)
    sheet.equation("pitch, max", f"{d_max} - 0.64951905 P = {d2_max} in", RULE)
    sheet.equation("pitch, min", f"{d2_max} - {_TOLERANCE[name]} x {b.Td2} = {d2_min} in", RULE)
    sheet.equation(
        "minor, max",
        f"{d_max} - 1.08253175 P = {un_max} (UN, flat root);  "
        f"{d_max} - 1.19078493 P = {unr_max} in (UNR, rounded root)",
        RULE,
    )
    return _found(b, name, (d_min, d_max), (d2_min, d2_max), (minor_min, un_max), es, unr_max)


def _allowance(sheet: Sheet, b: _Basis) -> Decimal:
    es = half_even(Decimal("0.300") * b.Td2, 4)
    sheet.equation("allowance es", f"0.300 x {b.Td2} = {es} in", RULE)
    return _as_printed(sheet, b, "allowance", es)


def _internal(sheet: Sheet, b: _Basis, name: str) -> ThreadLimits:
    TD2 = half_even(Decimal(_TOLERANCE[name]) * b.Td2, 6)
    D2_min = half_even(b.D - half_even(_ADDENDUM * b.P, 6), 4)
    D2_max = half_even(D2_min + TD2, 4)
    six = half_even(b.D - half_even(_DOUBLE_HEIGHT * b.P, 6), 6)
    TD1 = half_even(_minor_tolerance(b, name), 4)
    places = 4 if b.D < _NO_SIX else 3
    D1_min = half_even(six, places)
    D1_max = half_even(six + TD1, 4 if name == "3B" else places)
    D_max = half_even(D2_max + half_even(Decimal("0.79385662") * b.P, 6), 4)
    sheet.equation("pitch, min", f"{b.D} - 0.64951905 P = {D2_min} in", RULE)
    sheet.equation("pitch, max", f"{D2_min} + {_TOLERANCE[name]} x {b.Td2} = {D2_max} in", RULE)
    sheet.equation("minor, min", f"{b.D} - 1.08253175 P = {six}, rounded {D1_min} in", RULE)
    sheet.equation("minor, max", f"{six} + {TD1} = {D1_max} in", RULE)
    D1_min = _as_printed(sheet, b, "minor_min", D1_min)
    D1_max = D1_max if name == "3B" else _as_printed(sheet, b, "minor_max_2b", D1_max)
    sheet.note(f"The major diameter has no upper limit; a sharp root cannot pass {D_max} in.", RULE)
    return _found(b, name, (b.D, None), (D2_min, D2_max), (D1_min, D1_max), Decimal(0), None)


def _minor_tolerance(b: _Basis, name: str) -> Decimal:
    """Tolerance of the nut's minor diameter; fine and small threads have their own rules (8.3.2)."""
    general = Decimal("0.05") * b.P23 + Decimal("0.03") * b.P / b.D - Decimal("0.002")
    ceiling = Decimal("0.394") * b.P
    if name == "3B":
        floor = Decimal("0.23") * b.P - Decimal("1.5") * b.P**2 if b.tpi >= 13 else Decimal("0.120") * b.P
        return min(max(general, floor), ceiling)
    linear = Decimal("0.25") * b.P - Decimal("0.40") * b.P**2 if b.tpi >= 4 else Decimal("0.15") * b.P
    return linear if b.D >= _QUARTER else min(max(general, linear), ceiling)


def _as_printed(sheet: Sheet, b: _Basis, item: str, computed: Decimal) -> Decimal:
    """The value the standard's own table prints where it departs from its formula."""
    found = table("unified_printed")
    for row in found.rows:
        if (
            row["item"] == item
            and float(row["tpi"]) == b.tpi
            and dec(float(row["major_in"])) == b.D
            and coarse_like(float(b.D), b.tpi)
        ):
            printed = Decimal(row["printed_in"])
            text = f"{printed} in; the formula gives {computed}. The printed value is used."
            sheet.table(item.removesuffix("_2b").replace("_", ", "), text, found.row_source(row))
            return printed
    return computed


def _found(
    b: _Basis,
    name: str,
    major: tuple[Decimal, Decimal | None],
    pitch: tuple[Decimal, Decimal],
    minor: tuple[Decimal, Decimal],
    allowance: Decimal,
    unr: Decimal | None,
) -> ThreadLimits:
    basic = float(b.D - _ADDENDUM * b.P)
    pitch_in = 1 / b.tpi
    return ThreadLimits(
        designation=f"{float(b.D):g}-{b.tpi:g} {unified_series(float(b.D), b.tpi)}-{name}",
        side=Side.EXTERNAL if name.endswith("A") else Side.INTERNAL,
        thread_class=name,
        unit="in",
        decimals=4,
        nominal=float(b.D),
        pitch=pitch_in,
        starts=1,
        major=Band(float(major[0]), None if major[1] is None else float(major[1]), "in"),
        pitch_diameter=Band(float(pitch[0]), float(pitch[1]), "in"),
        minor=Band(float(minor[0]), float(minor[1]), "in"),
        basic_pitch_diameter=basic,
        allowance=float(allowance),
        lead_angle_deg=lead_angle_deg(basic, pitch_in),
        rounded_root_minor_max=None if unr is None else float(unr),
    )
