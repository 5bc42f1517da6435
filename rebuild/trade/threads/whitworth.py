"""Whitworth threads, 55° (BS 84): BSW, BSF and any pitch of that form, with the BS 84 classes.

T = 0.002 ∛D + 0.003 √L + 0.005 √p inches, L the length of engagement; bolts close, medium or free,
nuts medium or normal (close for special use).
"""

from __future__ import annotations

from decimal import Decimal

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import maybe_number_of, text_of, word_of
from rebuild.trade.threads.rounding import clean, dec, half_up
from rebuild.trade.threads.series import tpi_of
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

BOLTS = ("close", "medium", "free")
NUTS = ("close", "medium", "normal")
FORM = Source("BS 84:1956", "Whitworth form", Status.PUBLISHED)
RULE = Source("BS 84:1956", "bases of tolerances and allowances", Status.FROM_MEMORY)
_TWO_THIRDS = Decimal(2) / Decimal(3)
_SHARE = {"close": _TWO_THIRDS, "medium": Decimal(1), "free": Decimal("1.5"), "normal": Decimal("1.5")}
_DEPTH = Decimal("0.640327")
_QUARTER, _LARGEST_WITH_ALLOWANCE = Decimal("0.25"), Decimal("0.75")


def tpi_for(major_in: float, series: str = "BSW") -> float:
    """Threads per inch of a standard BSW or BSF size.

    Raises:
        BadEntry: no such series.
        OutOfRange: the series has no such size.

    >>> tpi_for(0.5, "BSW"), tpi_for(0.5, "BSF")
    (12.0, 16.0)
    """
    known, major_in = tpi_of(text_of("Series", series)), clean(major_in, "Diameter")
    if not known:
        raise BadEntry("is no inch series.", where="Series", value=series, way_out="Use BSW or BSF.")
    if round(major_in, 4) not in known:
        raise OutOfRange(
            f"is not a size of {series} ({min(known):g} to {max(known):g} in, BS 84).",
            where="Diameter",
            value=f"{major_in:g} in",
            way_out="Give the threads per inch too.",
        )
    return known[round(major_in, 4)]


def limits(
    major_in: float,
    tpi: float,
    thread_class: str = "medium",
    *,
    side: Side | str = Side.EXTERNAL,
    length_of_engagement_in: float | None = None,
) -> Worked[ThreadLimits]:
    """Limits of a Whitworth form thread.

    Args:
        major_in: nominal diameter D [in], 1/16 to 6.
        tpi: threads per inch, 2.5 to 60.
        thread_class: bolts close, medium, free; nuts close, medium, normal.
        side: ``external`` or ``internal``.
        length_of_engagement_in: L [in]; left out, the diameter.

    Raises:
        BadEntry: no such class, or no core left.
        OutOfRange: outside the standard's sizes.

    Source: BS 84:1956 (tolerance rules from memory).

    >>> limits(0.5, 12, side="internal").value.pitch_diameter.low
    0.4466
    """
    part, length = (
        word_of("Side", side, Side),
        maybe_number_of("Length of engagement", length_of_engagement_in),
    )
    major_in, tpi = clean(major_in, "Diameter"), clean(tpi, "Threads per inch")
    name = one_of(thread_class, BOLTS if part is Side.EXTERNAL else NUTS, RULE)
    in_range(major_in, 0.0625, 6.0, "Diameter", "in", RULE)
    in_range(tpi, 2.5, 60, "Threads per inch", "per in", RULE)
    cuttable(major_in, 1 / tpi, 1.3, "in")
    sheet = Sheet(f"{major_in:g}-{tpi:g} Whitworth, {name} class, {part.value}: limits of size")
    D, p = dec(major_in), 1 / dec(tpi)
    E, K = D - _DEPTH * p, D - 2 * _DEPTH * p
    sheet.read("nominal diameter D", f"{major_in:g} in")
    sheet.read("pitch p", f"1/{tpi:g} = {p:.5f} in")
    sheet.equation("basic effective diameter", f"D - 0.640327 p = {E:.4f} in", FORM)
    sheet.equation("basic minor diameter", f"D - 1.280654 p = {K:.4f} in", FORM)
    T = _unit_tolerance(sheet, D, p, length)
    if part is Side.EXTERNAL:
        major, effective, minor, off = _bolt(sheet, name, (D, E, K), p, T)
    else:
        major, effective, minor, off = _nut(sheet, name, (D, E, K), p, tpi, T)
    series = next((s for s in ("BSW", "BSF") if tpi_of(s).get(round(major_in, 4)) == tpi), "Whit. form")
    found = ThreadLimits(
        designation=f"{major_in:g}-{tpi:g} {series}, {name}",
        side=part,
        thread_class=name,
        unit="in",
        decimals=4,
        nominal=major_in,
        pitch=1 / tpi,
        starts=1,
        major=major,
        pitch_diameter=effective,
        minor=minor,
        basic_pitch_diameter=float(E),
        allowance=float(off),
        lead_angle_deg=lead_angle_deg(float(E), 1 / tpi),
    )
    result_lines(sheet, found)
    return Worked(found, sheet.close())


_Three = tuple[Decimal, Decimal, Decimal]
_Bands = tuple[Band, Band, Band, Decimal]


def _unit_tolerance(sheet: Sheet, D: Decimal, p: Decimal, length: float | None) -> Decimal:
    if length is not None and length <= 0:
        raise BadEntry("must be more than zero.", where="Length of engagement", value=f"{length:g} in")
    L = D if length is None else dec(length)
    T = _tolerance(D, L, p)
    sheet.equation("T", f"0.002 ∛D + 0.003 √L + 0.005 √p with L = {L:g} in: {T:.5f} in", RULE)
    return T


def _tolerance(D: Decimal, L: Decimal, p: Decimal) -> Decimal:
    third = Decimal(1) / Decimal(3)
    return Decimal("0.002") * D**third + Decimal("0.003") * L.sqrt() + Decimal("0.005") * p.sqrt()


def _bolt(sheet: Sheet, name: str, basic: _Three, p: Decimal, T: Decimal) -> _Bands:
    effective = _SHARE[name] * T
    crest = effective + Decimal("0.01") * p.sqrt()
    root = effective + Decimal("0.013" if name == "close" else "0.02") * p.sqrt()
    off = _allowance(sheet, name, basic[0], T)
    sheet.equation("effective tolerance", f"{_SHARE[name]:.4g} T = {effective:.5f} in", RULE)
    sheet.equation("major and minor tolerances", f"{crest:.5f} and {root:.5f} in", RULE)
    tops = [value - off for value in basic]
    return (
        _band(tops[0] - crest, tops[0]),
        _band(tops[1] - effective, tops[1]),
        _band(tops[2] - root, tops[2]),
        off,
    )


def _allowance(sheet: Sheet, name: str, D: Decimal, T: Decimal) -> Decimal:
    """0.3 T on medium and free bolts up to 3/4 in, never less than the 1/4 in size has."""
    if name == "close" or D > _LARGEST_WITH_ALLOWANCE:
        return Decimal(0)
    quarter = _tolerance(_QUARTER, _QUARTER, Decimal("0.05"))
    off = Decimal("0.3") * (T if D >= _QUARTER else quarter)
    sheet.equation("allowance", f"0.3 T = {off:.5f} in (bolts to 3/4 in; below 1/4 in that of 1/4-20)", RULE)
    return off


def _nut(sheet: Sheet, name: str, basic: _Three, p: Decimal, tpi: float, T: Decimal) -> _Bands:
    D, E, K = basic
    effective = _SHARE[name] * T
    extra = Decimal("0.004") if tpi >= 26 else Decimal("0.005" if tpi >= 22 else "0.007")
    minor = Decimal("0.2") * p + extra
    sheet.equation("effective tolerance", f"{_SHARE[name]:.4g} T = {effective:.5f} in", RULE)
    sheet.equation("minor tolerance", f"0.2 p + {extra} = {minor:.5f} in", RULE)
    return Band(float(half_up(D, 4)), None, "in"), _band(E, E + effective), _band(K, K + minor), Decimal(0)


def _band(low: Decimal, high: Decimal) -> Band:
    return Band(float(half_up(low, 4)), float(half_up(high, 4)), "in")
