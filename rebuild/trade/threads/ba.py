"""British Association threads, 47.5°, 0 to 16 BA (BS 93): close and normal bolts, nuts."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from functools import cache

from rebuild.errors import OutOfRange
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import whole_of, word_of
from rebuild.trade.threads.rounding import half_up
from rebuild.trade.threads.sizes import Band, Side, ThreadLimits, lead_angle_deg, one_of, result_lines

CLASSES = ("normal", "close")
RULE = Source("BS 93", "tolerances and allowances for BA threads", Status.PUBLISHED)


def limits(
    number: int, thread_class: str = "normal", *, side: Side | str = Side.EXTERNAL
) -> Worked[ThreadLimits]:
    """Limits of a BA thread.

    Args:
        number: 0 to 16.
        thread_class: bolts ``normal`` or ``close``; nuts have one class, whatever is given.
        side: ``external`` or ``internal``.

    Raises:
        OutOfRange: no such number.
        BadEntry: no such class.

    Source: BS 93:1951 and BS 93:2008, annex B.

    >>> limits(2, side="internal").value.pitch_diameter
    Band(low=4.215, high=4.342, unit='mm')
    """
    part, number = word_of("Side", side, Side), whole_of("BA number", number)
    row = _row(number)
    name = one_of(thread_class, CLASSES, RULE)
    d, p, E, K = (Decimal(row[key]) for key in ("major_mm", "pitch_mm", "effective_mm", "minor_mm"))
    sheet = Sheet(f"{number} BA, {name if part is Side.EXTERNAL else 'nut'}: limits of size")
    sheet.table(
        "basic sizes",
        f"major {d} mm, pitch {p} mm, effective {E} mm, minor {K} mm",
        table("ba_threads").source,
    )
    if part is Side.EXTERNAL:
        off, major, effective, minor = _bolt(sheet, number, name, p)
        bands = (
            _band(d - off - major, d - off),
            _band(E - off - effective, E - off),
            _band(K - off - minor, K - off),
        )
    else:
        off, effective, minor = Decimal(0), Decimal("0.12") * p + Decimal("0.03"), Decimal("0.375") * p
        sheet.equation("effective tolerance", f"0.12 p + 0.03 = {effective} mm", RULE)
        sheet.equation("minor tolerance", f"0.375 p = {minor} mm", RULE)
        bands = (Band(float(d), None, "mm"), _band(E, E + effective), _band(K, K + minor))
    found = ThreadLimits(
        designation=f"{number} BA",
        side=part,
        thread_class=name if part is Side.EXTERNAL else "nut",
        unit="mm",
        decimals=3,
        nominal=float(d),
        pitch=float(p),
        starts=1,
        major=bands[0],
        pitch_diameter=bands[1],
        minor=bands[2],
        basic_pitch_diameter=float(E),
        allowance=float(off),
        lead_angle_deg=lead_angle_deg(float(E), float(p)),
    )
    result_lines(sheet, found)
    return Worked(found, sheet.close())


def _bolt(sheet: Sheet, number: int, name: str, p: Decimal) -> tuple[Decimal, Decimal, Decimal, Decimal]:
    """Allowance and the tolerances of major, effective and minor diameter [mm]."""
    if name == "close":
        off, major = Decimal(0), Decimal("0.15") * p
        effective, minor = Decimal("0.08") * p + Decimal("0.02"), Decimal("0.16") * p + Decimal("0.04")
    else:
        small = number > 10
        off, major = Decimal(0) if small else Decimal("0.025"), Decimal("0.25" if small else "0.20") * p
        effective, minor = Decimal("0.10") * p + Decimal("0.025"), Decimal("0.20") * p + Decimal("0.05")
    sheet.equation("allowance", f"{off} mm", RULE)
    sheet.equation("tolerances", f"major {major} mm, effective {effective} mm, minor {minor} mm", RULE)
    return off, major, effective, minor


@cache
def _rows() -> dict[int, Mapping[str, str]]:
    return {int(row["number"]): row for row in table("ba_threads").rows}


def _row(number: int) -> Mapping[str, str]:
    if number not in _rows():
        raise OutOfRange(
            "is not a BA number carried here (0 to 16, BS 93).",
            where="BA number",
            value=str(number),
            way_out="Measure diameter and pitch and identify it.",
        )
    return _rows()[number]


def _band(low: Decimal, high: Decimal) -> Band:
    return Band(float(half_up(low, 3)), float(half_up(high, 3)), "mm")
