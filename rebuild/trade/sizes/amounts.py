"""Durations, temperatures and torques as typed: ``30 min``, ``1.5 h``, ``68 F``, ``25 lb-ft``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.comma import settled
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.given import number_of
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.trade.sizes.unit_behind import split_unit

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
#: A mixed number or fraction before a unit, ``2-1/2 kgm``; and two numbers with a dash between, ``40-45 ft-lb``.
_MIXED_AMOUNT = re.compile(r"((?:[0-9]+[- ])?[0-9]+/[0-9]+)\s*([^0-9].*)")
_RANGE_AMOUNT = re.compile(r"([0-9.,]*[0-9])\s*(?:-|to|\.\.\.?)\s*([0-9.,]*[0-9])(?!/)\s*([^0-9/].*)")
WAYS_TORQUE = "Type it as 25 N·m, 20 lb-ft or 60 lb-in."
WAYS_TIME = "Type it as 30 min, 1:30, 1.5 h or 2 d."
#: Hours and minutes as a clock has them.
_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])(?:\s*h)?", re.IGNORECASE)
_BARE_NUMBER = re.compile(r"[0-9.,\s]+")
#: More hours in one session are more likely minutes (common practice, no source).
LONGEST_SESSION_H = 16.0
LONGEST_MINUTES = 52_600_000.0
ABSOLUTE_ZERO_C = -273.15
HOTTEST_C = 2_000.0


@dataclass(frozen=True, slots=True)
class Torque:
    """A torque: what was typed and its value [N·m]."""

    text: str
    newton_metres: float


def parse_minutes(text: str, field: str = "Duration", *, decimal_comma: bool | None = None) -> float:
    """A duration in minutes: ``30 min``, ``1.5 h``, ``1 h 30``, ``1:30``; a bare number is minutes.

    Raises:
        BadEntry: not a duration.
        Ambiguous: ``1,500 h``; a bare number with a part of a minute, which is more likely hours.

    >>> parse_minutes("1.5 h"), parse_minutes("1:30")
    (90.0, 90.0)
    """
    minutes = _minutes(text, field, decimal_comma)
    if _BARE_NUMBER.fullmatch(text.strip()) and minutes % 1:
        raise _bare_time(text, field, "has a part of a minute and no unit.", decimal_comma)
    return minutes


def parse_hours(text: str, field: str = "Hours", *, decimal_comma: bool | None = None) -> float:
    """The hours of one session, typed as any duration is; a bare number is hours, and one too long for a day is asked.

    Raises:
        BadEntry, Ambiguous: as ``parse_minutes``; and for a bare number above ``LONGEST_SESSION_H``.

    >>> parse_hours("1.5"), parse_hours("90 min"), parse_hours("1:30"), parse_hours("20 h")
    (1.5, 1.5, 1.5, 20.0)
    >>> parse_hours("90")
    Traceback (most recent call last):
    rebuild.errors.Ambiguous: Hours: “90” is long for one session. Type 90 min (minutes) or 90 h (hours).
    """
    minutes = _minutes(text, field, decimal_comma, "Type it as 1.5, 90 min or 1:30.")
    if not _BARE_NUMBER.fullmatch(text.strip()):
        return minutes / 60.0
    if minutes > LONGEST_SESSION_H:
        raise _bare_time(text, field, "is long for one session.", decimal_comma)
    return minutes


def show_hours(hours: float) -> str:
    """Hours as they would be typed again, nothing rounded.

    >>> show_hours(1.5), show_hours(20.0)
    ('1.5', '20 h')
    """
    return f"{hours:.15g}" + (" h" if hours > LONGEST_SESSION_H else "")


def _bare_time(text: str, field: str, what: str, decimal_comma: bool | None) -> Ambiguous:
    number = settled(text.strip(), decimal_comma)
    readings = (("minutes", f"{number} min"), ("hours", f"{number} h"))
    return Ambiguous(what, where=field, value=text.strip(), readings=readings)


def _minutes(text: str, field: str, decimal_comma: bool | None, ways: str = WAYS_TIME) -> float:
    """A duration in minutes; a number without a unit counts as it stands."""
    plain = plain_of(text, field, ways, longest=60, sort="a duration")
    clock = _CLOCK.fullmatch(plain)
    if clock:
        return 60.0 * read_whole(clock[1], field) + read_whole(clock[2], field)
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
    typed, unit = split_unit(text, field, ways)
    word = unit.replace("°", "").replace("deg", "").strip().lower()
    if word not in ("f", "fahrenheit", "c", "celsius", ""):
        raise BadEntry(
            f"has a unit “{unit}” that is not a temperature.", where=field, value=text.strip(), way_out=ways
        )
    number = float(
        exact(typed, field, unit, typed=text, decimal_comma=decimal_comma, fractions=False, ways=ways)
    )
    if word in ("f", "fahrenheit"):
        number, word = round((number - 32) / 1.8, 6), "c"
    if not ABSOLUTE_ZERO_C <= number <= HOTTEST_C:
        raise BadEntry(
            f"is no temperature of a shop, {ABSOLUTE_ZERO_C:g} to {HOTTEST_C:g} °C.",
            where=field,
            value=text.strip(),
            way_out=ways,
        )
    if not word and 45 <= number <= 110:
        readings = (("Celsius", f"{number:g} C"), ("Fahrenheit", f"{number:g} F"))
        raise Ambiguous("is hot for a shop in °C.", where=field, value=text.strip(), readings=readings)
    return number


def parse_torque(text: str, field: str = "Torque", *, decimal_comma: bool | None = None) -> Torque:
    """A torque with its unit; there is no unit to assume.

    Raises:
        BadEntry: not a torque, below nought, or without its unit.
        Ambiguous: ``1,500 lb-in``.

    >>> round(parse_torque("20 lb-ft").newton_metres, 3)
    27.116
    """
    ways = WAYS_TORQUE
    plain = plain_of(text, field, ways, sort="an amount")
    mixed = _MIXED_AMOUNT.fullmatch(plain)
    number, unit = (mixed[1], mixed[2]) if mixed else split_unit(plain, field, ways)
    between = _RANGE_AMOUNT.match(plain)
    if between and not mixed:
        raise Ambiguous(
            "is a range, and one torque is kept here.",
            where=field,
            value=text.strip(),
            readings=tuple(
                (words, f"{end} {between[3].strip()}")
                for words, end in (("the lower", between[1]), ("the upper", between[2]))
            ),
        )
    known = _TORQUE_UNITS.get(_torque_word(unit))
    if known is None:
        what = f"has a unit “{unit}” that is not a torque." if unit else "has no unit."
        raise BadEntry(what, where=field, value=text.strip(), way_out=ways)
    value = float(
        exact(
            number,
            field,
            unit,
            typed=text,
            decimal_comma=decimal_comma,
            fractions=bool(mixed),
            ways=ways,
        )
    )
    if value < 0:
        raise BadEntry("is below nought.", where=field, value=text.strip(), way_out=ways)
    return Torque(text.strip(), value * _NEWTON_METRES[known])


def parse_torque_band(
    text: str, field: str = "Torque to be", *, decimal_comma: bool | None = None
) -> tuple[Torque, Torque]:
    """A torque as manuals print it, one or from and to, the smaller first; one torque is both ends.

    Raises: as ``parse_torque``.

    >>> [torque.text for torque in parse_torque_band("40-45 ft-lb")]
    ['40 ft-lb', '45 ft-lb']
    >>> [torque.text for torque in parse_torque_band("25 N·m")]
    ['25 N·m', '25 N·m']
    """
    plain = plain_of(text, field, WAYS_TORQUE, sort="an amount")
    between = None if _MIXED_AMOUNT.fullmatch(plain) else _RANGE_AMOUNT.match(plain)
    if between is None:
        one = parse_torque(text, field, decimal_comma=decimal_comma)
        return one, one
    ends = [
        parse_torque(f"{end} {between[3].strip()}", field, decimal_comma=decimal_comma)
        for end in (between[1], between[2])
    ]
    low, high = sorted(ends, key=lambda torque: torque.newton_metres)
    return low, high


def _torque_word(unit: str) -> str:
    """A unit of torque as the table has it: small letters, one pound for many, a dot at the end dropped."""
    word = " ".join(unit.lower().replace("foot", "ft").replace("inch", "in").split()).rstrip(".")
    return re.sub(r"\b(?:lbs|pounds?)\b", "lb", word).replace("lbs", "lb").replace(". ", " ")
