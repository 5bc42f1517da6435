"""Durations, temperatures and torques as typed: ``30 min``, ``1.5 h``, ``68 F``, ``25 lb-ft``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.given import number_of
from rebuild.trade.sizes.number import exact, plain_of, split_unit

_MINUTES = {
    "min": 1.0, "mins": 1.0, "minute": 1.0, "minutes": 1.0, "m": 1.0,
    "h": 60.0, "hr": 60.0, "hrs": 60.0, "hour": 60.0, "hours": 60.0,
    "d": 1440.0, "day": 1440.0, "days": 1440.0,
    "w": 10080.0, "week": 10080.0, "weeks": 10080.0,
}  # fmt: skip
_TORQUE_UNITS = {
    "nm": "N*m", "n m": "N*m", "n·m": "N*m", "n*m": "N*m", "n.m": "N*m",
    "lb-ft": "ft*lbf", "lbft": "ft*lbf", "lb ft": "ft*lbf", "ft-lb": "ft*lbf", "ft lb": "ft*lbf", "ft·lb": "ft*lbf",
    "ftlb": "ft*lbf", "lbf-ft": "ft*lbf", "lbf·ft": "ft*lbf", "ft-lbf": "ft*lbf",
    "lb-in": "inch*lbf", "in-lb": "inch*lbf", "in lb": "inch*lbf", "lb in": "inch*lbf", "inlb": "inch*lbf",
    "kgm": "m*kgf", "kg-m": "m*kgf", "kgf·m": "m*kgf", "kgf-m": "m*kgf",
}  # fmt: skip

#: A pound of mass [kg] (the 1959 agreement) and the standard weight of a kilogram [N], both exact.
LB_KG, KGF_N = 0.45359237, 9.80665
#: A pound of force [N].
LBF_N = LB_KG * KGF_N
#: One of each unit of torque in N·m, exact by 1 in = 25.4 mm. The one place in the program where they stand; numbers
#: and not pint, because joints are listed when a file is opened; a test holds them against pint.
LBF_FT_NM, LBF_IN_NM, KGF_M_NM = LBF_N * 0.3048, LBF_N * 0.0254, KGF_N
_NEWTON_METRES = {"N*m": 1.0, "ft*lbf": LBF_FT_NM, "inch*lbf": LBF_IN_NM, "m*kgf": KGF_M_NM}
_ONE = re.compile(r"\s*([0-9.,]+)\s*([^\W\d_]*)")
LONGEST_MINUTES = 52_600_000.0
ABSOLUTE_ZERO_C = -273.15
HOTTEST_C = 2_000.0


@dataclass(frozen=True, slots=True)
class Torque:
    """A torque: what was typed and its value [N·m]."""

    text: str
    newton_metres: float


def _split(text: str, field: str, ways: str, decimal_comma: bool | None) -> tuple[float, str]:
    number, unit = split_unit(text, field, ways)
    value = exact(number, field, unit, typed=text, decimal_comma=decimal_comma, fractions=False, ways=ways)
    return float(value), unit


def parse_minutes(text: str, field: str = "Duration", *, decimal_comma: bool | None = None) -> float:
    """A duration in minutes; a bare number is minutes.

    Raises:
        BadEntry: not a duration.
        Ambiguous: ``1,500 h``.

    >>> parse_minutes("1.5 h")
    90.0
    """
    ways = "Type it as 30 min, 1.5 h or 2 d."
    plain = plain_of(text, field, ways, longest=60, sort="a duration")
    total, at, before = 0.0, 0, ""
    while at < len(plain):
        part = _ONE.match(plain, at)
        if part is None or (not part[2] and not _bare_may_stand(plain, at, part.end(), before)):
            what = "is not a duration." if at or part is not None else "is not an amount."
            raise BadEntry(what, where=field, value=text.strip(), way_out=ways)
        at, before = part.end(), part[2].lower()
        if before and before not in _MINUTES:
            raise BadEntry(
                f"has a unit “{part[2]}” that is not a time.", where=field, value=text.strip(), way_out=ways
            )
        number = exact(
            part[1], field, part[2], typed=text, decimal_comma=decimal_comma, fractions=False, ways=ways
        )
        total += float(number) * _MINUTES.get(before, 1.0)
    if total > LONGEST_MINUTES:
        raise BadEntry("is longer than a century.", where=field, value=text.strip(), way_out=ways)
    return total


def _bare_may_stand(plain: str, start: int, end: int, before: str) -> bool:
    """A number without a unit is minutes when it stands alone, or last after hours (``1 h 30``)."""
    return end == len(plain) and (start == 0 or _MINUTES.get(before) == 60.0)


def show_minutes(minutes: float) -> str:
    """A duration for people.

    >>> show_minutes(90), show_minutes(30), show_minutes(2880)
    ('1.5 h', '30 min', '2 d')
    """
    minutes = number_of("Duration", minutes)
    for name, size in (("d", 1440.0), ("h", 60.0)):
        if minutes >= size:
            return f"{minutes / size:.1f}".removesuffix(".0") + f" {name}"
    return f"{minutes:.0f} min"


def exact_minutes(minutes: float) -> str:
    """A duration as it would be typed again, nothing rounded.

    >>> exact_minutes(95), exact_minutes(90), exact_minutes(2880), exact_minutes(0.5)
    ('95 min', '1.5 h', '2 d', '0.5 min')
    """
    minutes = number_of("Duration", minutes)
    for name, size in (("d", 1440.0), ("h", 60.0)):
        if minutes and minutes % (size / 2) == 0 and minutes >= size:
            return f"{minutes / size:g} {name}"
    return f"{Decimal(repr(float(minutes))):f} min".replace(".0 ", " ")


def parse_celsius(text: str, field: str = "Temperature", *, decimal_comma: bool | None = None) -> float:
    """A temperature level in °C; a bare number is °C, ``68 F`` is Fahrenheit.

    Raises:
        BadEntry: not a temperature.
        Ambiguous: a bare number from 45 to 110, which a shop thermometer would show in °F; ``1,500``.

    >>> parse_celsius("68 F")
    20.0
    """
    ways = "Type it as 18 C or 65 F."
    number, unit = _split(text, field, ways, decimal_comma)
    word = unit.replace("°", "").replace("deg", "").strip().lower()
    if word in ("f", "fahrenheit"):
        number, word = round((number - 32) / 1.8, 6), "c"
    if not ABSOLUTE_ZERO_C <= number <= HOTTEST_C:
        raise BadEntry(
            f"is no temperature of a shop, {ABSOLUTE_ZERO_C:g} to {HOTTEST_C:g} °C.",
            where=field,
            value=text.strip(),
            way_out=ways,
        )
    if word in ("c", "celsius", ""):
        if not word and 45 <= number <= 110:
            readings = (("Celsius", f"{number:g} C"), ("Fahrenheit", f"{number:g} F"))
            raise Ambiguous("is hot for a shop in °C.", where=field, value=text.strip(), readings=readings)
        return number
    raise BadEntry(
        f"has a unit “{unit}” that is not a temperature.", where=field, value=text.strip(), way_out=ways
    )


def parse_torque(text: str, field: str = "Torque", *, decimal_comma: bool | None = None) -> Torque:
    """A torque with its unit; there is no unit to assume.

    Raises:
        BadEntry: not a torque, below nought, or without its unit.
        Ambiguous: ``1,500 lb-in``.

    >>> round(parse_torque("20 lb-ft").newton_metres, 3)
    27.116
    """
    ways = "Type it as 25 N·m, 20 lb-ft or 60 lb-in."
    number, unit = _split(text, field, ways, decimal_comma)
    known = _TORQUE_UNITS.get(unit.lower())
    if known is None:
        what = f"has a unit “{unit}” that is not a torque." if unit else "has no unit."
        raise BadEntry(what, where=field, value=text.strip(), way_out=ways)
    if number < 0:
        raise BadEntry("is below nought.", where=field, value=text.strip(), way_out=ways)
    return Torque(text.strip(), number * _NEWTON_METRES[known])
