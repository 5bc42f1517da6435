"""A deviation as typed at a position of a test: ``+0.012``, ``0.0004 in high``, ``0.02 mm/m``, ``-1.5 div``.

The sign is never guessed. Where a limit holds on one side only a bare number is asked about; where the reading
is a size only (a runout) a minus is refused. A slope becomes a deviation over the length the limit is given for.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.charts.corrections import lean_of, sag_of, split_bar, upright, with_unit
from rebuild.trade.geometry.bar_sag import BEAM, Sag
from rebuild.trade.geometry.steps import ARCSEC_UM_PER_M
from rebuild.trade.geometry.two_collar import Lean
from rebuild.trade.results.working import Sheet, Worked, Working
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.given import maybe_number_of
from rebuild.trade.sizes.quantity import FACTORS, parse_length
from rebuild.trade.sizes.show import DECIMALS, exact_text, show_length
from rebuild.trade.sizes.typed_text import plain_of
from rebuild.words.charts import LimitSign

#: One unit of slope in µm/m, by the ways it is written; ``div`` needs the value of a division.
SLOPES: dict[str, float] = {
    "mm/m": 1000.0, "mm/1000mm": 1000.0, "mm per m": 1000.0, "mm per 1000 mm": 1000.0,
    "µm/m": 1.0, "um/m": 1.0,
    "in/ft": 1e6 / 12, "in per ft": 1e6 / 12, "in/foot": 1e6 / 12, '"/ft': 1e6 / 12, "thou/ft": 1e3 / 12,
    "arcsec": ARCSEC_UM_PER_M, "arc sec": ARCSEC_UM_PER_M, "sec": ARCSEC_UM_PER_M,
}  # fmt: skip
_DIVISIONS = ("div", "divs", "division", "divisions")
_SLOPE_UNIT = "|".join(re.escape(unit) for unit in sorted((*SLOPES, *_DIVISIONS), key=len, reverse=True))
_SLOPE = re.compile(
    rf"(?P<number>[-+]?\s*[\d.,]+)\s*(?P<unit>{_SLOPE_UNIT})(?P<rest>(?:\s.*)?)", re.IGNORECASE
)
_LENGTH = re.compile(
    r"(?P<number>[-+]?\s*(?:\d[\d.,]*(?:[\s-]+\d+/\d+|/\d+)?|[.,]\d+))\s*"
    r"(?P<unit>mm|cm|µm|um|in\.?|inch(?:es)?|thous?|tenths?|µin|uin|\"|'')?(?:\s+(?P<rest>\D.*))?",
    re.IGNORECASE,
)
WAYS_SLOPE = "Type it as 0.02 mm/m, 0.0005 in/ft, 8 arcsec or 1.5 div."
WAYS_DEVIATION = "Type it as +0.012 or 0.5 thou."
WAYS_ALLOWED = "Type it as 0.02 mm per 300 mm."
#: The longest text with words behind its number.
LONGEST_WORDS = 200
_LITTLE_WORDS = frozenset(("the", "at", "a", "in", "of", "to", "and", "end", "from", "free"))


@dataclass(frozen=True, slots=True)
class SignWords:
    """What plus and minus mean at a position, and whether both may occur."""

    sign: LimitSign
    plus: str = ""
    minus: str = ""

    def says(self, value_mm: float) -> str:
        """The word for the side a deviation lies on; empty at zero or without words.

        >>> SignWords(LimitSign.PLUS_ONLY, "hollow", "proud").says(-0.01)
        'proud'
        """
        return self.plus if value_mm > 0 else self.minus if value_mm < 0 else ""


@dataclass(frozen=True, slots=True)
class Deviation:
    """A reading: the text as typed, its unit put in where it had none, and its value [mm].

    ``slope_um_per_m`` is set where a slope was typed.
    """

    typed: str
    mm: float
    slope_um_per_m: float | None = None
    #: How it was corrected for the bar, or worked out from two collars; None: as read.
    working: Working | None = None


def read_slope(
    text: str,
    where: str = "Reading",
    *,
    division_um_per_m: float | None = None,
    unit: str = "",
    decimal_comma: bool | None = None,
) -> float:
    """A slope as typed [µm/m]; a bare number is in ``unit`` (a key of ``SLOPES`` or ``div``) when that is given.

    Raises:
        BadEntry: not a slope, or divisions without the value of one.

    >>> round(read_slope("0.0005 in/ft"), 3), read_slope("-1.5 div", division_um_per_m=20)
    (41.667, -30.0)
    """
    plain = plain_of(text, where, WAYS_SLOPE, sort="a slope")
    if unit and re.fullmatch(r"[-+]?\s*[\d.,]+", plain):
        plain = f"{plain} {unit}"
    match = _SLOPE.fullmatch(plain)
    if match is None or match["rest"].strip():
        raise BadEntry(
            "is not a slope.",
            where=where,
            value=text.strip(),
            way_out=WAYS_SLOPE,
        )
    return _slope(match, text, where, division_um_per_m, decimal_comma)


def _slope(
    match: re.Match[str],
    text: str,
    where: str,
    division_um_per_m: float | None,
    decimal_comma: bool | None,
) -> float:
    ways = "Type it as 0.02 mm/m."
    number = float(
        exact(match["number"], where, match["unit"], typed=text, decimal_comma=decimal_comma, ways=ways)
    )
    unit = match["unit"].lower()
    if unit not in _DIVISIONS:
        return number * SLOPES[unit]
    division_um_per_m = maybe_number_of("Division of the level", division_um_per_m)
    if not division_um_per_m or division_um_per_m <= 0:
        raise BadEntry(
            "is in divisions, and the value of one is not known.",
            where=where,
            value=text.strip(),
            way_out="Give what one division of the level is worth, e.g. 0.02 mm/m, or type the slope.",
        )
    return number * division_um_per_m


def read_deviation(
    text: str,
    unit: str,
    words: SignWords,
    where: str,
    *,
    per_mm: float | None = None,
    division_um_per_m: float | None = None,
    decimal_comma: bool | None = None,
) -> Deviation:
    """A deviation as typed; a bare number is in ``unit``, a slope is taken over ``per_mm``.

    Behind it may stand the bar it was read on (its sag is taken out), in its place two collars: ``corrections``.

    Args:
        where: names the row in every message.
        per_mm: the length the limit is given over [mm]; needed for a slope.
        division_um_per_m: what one division of the level is worth [µm/m].

    Raises:
        BadEntry: not a deviation, a sign that cannot be, a word unknown here, a slope without a length.
        Ambiguous: no sign where the sign decides.

    >>> rising = SignWords(LimitSign.PLUS_ONLY, "rising", "falling")
    >>> read_deviation("0.012 falling", "mm", rising, "Test 6").mm
    -0.012
    >>> round(read_deviation("0.02 mm/m", "mm", SignWords(LimitSign.SIZE), "Test 1", per_mm=300).mm, 6)
    0.006
    """
    plain = plain_of(text, where, WAYS_DEVIATION, longest=LONGEST_WORDS, sort="a deviation")
    per_mm = maybe_number_of("Length read over", per_mm)
    lean = lean_of(plain, unit, per_mm, where, decimal_comma)
    if lean is not None:
        return _by_collars(lean, words, where, text, unit)
    plain, bar = split_bar(plain)
    if bar:
        sag, sign = (
            sag_of(bar, unit, where, decimal_comma),
            upright(words.plus, words.minus, where, text).sign,
        )
        read = read_deviation(
            plain,
            unit,
            words,
            where,
            per_mm=per_mm,
            division_um_per_m=division_um_per_m,
            decimal_comma=decimal_comma,
        )
        return _without_sag(read, bar, sag, sign, unit)
    slope = _SLOPE.fullmatch(plain)
    if slope is not None:
        if per_mm is None:
            raise BadEntry(
                "is a slope, and the length it was read over is not known.",
                where=where,
                value=text.strip(),
                way_out="Type the deviation as a length, or give the length read over.",
            )
        um_per_m = _slope(slope, text, where, division_um_per_m, decimal_comma)
        value, rest = um_per_m * per_mm * 1e-6, slope["rest"].strip()
        signed = slope["number"].lstrip()[:1] in "+-"
        turned = _with_sign(value, signed, rest, words, where, text, unit)
        return Deviation(text.strip(), turned, um_per_m if turned == value else -um_per_m)
    match = _LENGTH.fullmatch(plain)
    if match is None:
        parse_length(plain, unit, where, decimal_comma=decimal_comma)
        raise BadEntry("is not a deviation.", where=where, value=text.strip(), way_out=WAYS_DEVIATION)
    number, rest = match["number"].strip(), (match["rest"] or "").strip()
    named = match["unit"] or unit
    size = parse_length(f"{number} {named}", unit, where, decimal_comma=decimal_comma)
    value = _with_sign(size.mm, number[:1] in "+-", rest, words, where, text, unit)
    return Deviation(f"{number} {named} {rest}".strip(), value)


def _by_collars(lean: Worked[Lean], words: SignWords, where: str, typed: str, unit: str) -> Deviation:
    """The lean, with the sign this position gives to away from the tool."""
    value, said = round(lean.value.over_per_mm, 9), with_unit(typed, unit)
    if words.sign is LimitSign.SIZE or not words.plus:
        return Deviation(
            typed.strip(), abs(value) if words.sign is LimitSign.SIZE else value, None, lean.working
        )
    side = (
        _side("away from the tool" if value > 0 else "toward the tool", words, where, typed) if value else 1
    )
    return Deviation(said, side * abs(value), None, lean.working)


def _without_sag(read: Deviation, bar: str, sag: Worked[Sag], sign: int, unit: str) -> Deviation:
    """What was read with the bar's sag put back: from above it reads low by that."""
    corrected = round(read.mm + sign * sag.value.sag_mm, 9)
    sheet = Sheet("The bar's own sag")
    sheet.take(sag.working)
    sheet.equation(
        "corrected",
        f"{show_length(read.mm, unit, DECIMALS[unit] + 1, sign=True)} {'+' if sign > 0 else '-'} "
        f"{show_length(sag.value.sag_mm, unit, DECIMALS[unit] + 1)} = "
        f"{show_length(corrected, unit, DECIMALS[unit] + 1, sign=True)}",
        BEAM,
    )
    return Deviation(
        f"{read.typed}, bar {with_unit(bar, unit)}", corrected, read.slope_um_per_m, sheet.close()
    )


def _with_sign(
    value: float, signed: bool, rest: str, words: SignWords, where: str, typed: str, unit: str
) -> float:
    said = _side(rest, words, where, typed) if rest else 0
    if said and signed and value and (value > 0) != (said > 0):
        raise BadEntry(
            f"says {'plus' if value > 0 else 'minus'} and “{rest}” at once.",
            where=where,
            value=typed.strip(),
            way_out="Leave out the sign or the word.",
        )
    if said:
        value = said * abs(value)
    if words.sign is LimitSign.SIZE and value < 0:
        raise BadEntry(
            "has a minus, but this is a size, the whole swing of the indicator.",
            where=where,
            value=typed.strip(),
            way_out="Type the difference between its highest and lowest reading, without a sign.",
        )
    if words.sign is LimitSign.PLUS_ONLY and not signed and not said and value:
        number = exact_text(value, unit)
        raise Ambiguous(
            "has no sign, and this limit holds on one side only.",
            where=where,
            value=typed.strip(),
            readings=((words.plus or "plus", f"+{number}"), (words.minus or "minus", f"-{number}")),
        )
    return value


def _side(rest: str, words: SignWords, where: str, typed: str) -> int:
    """+1 or -1 for a word of the position's own."""
    plus, minus = _telling(words.plus) - _telling(words.minus), _telling(words.minus) - _telling(words.plus)
    given = _telling(rest)
    up, down = _hit(given, plus), _hit(given, minus)
    if up != down:
        return 1 if up else -1
    known = f"{words.plus} (+) or {words.minus} (-)" if words.plus else "a plain number"
    raise BadEntry(
        f"has words this position does not know: “{rest}”.",
        where=where,
        value=typed.strip(),
        way_out=f"Type {known}.",
    )


def _telling(text: str) -> frozenset[str]:
    found = frozenset(re.findall(r"[a-z]+", text.lower()))
    return found - _LITTLE_WORDS if found - _LITTLE_WORDS else found


def _hit(given: frozenset[str], known: frozenset[str]) -> bool:
    return any(len(word) >= 3 and name.startswith(word) for word in given for name in known)


def read_allowed(text: str, unit: str, where: str = "Limit") -> tuple[str, str]:
    """``0.02 mm per 300 mm`` taken apart into allowed and length, as typed; the length may be missing.

    Raises:
        BadEntry: nothing before ``per``.

    >>> read_allowed("0.0008 in / 12 in", "in")
    ('0.0008 in', '12 in')
    >>> read_allowed("0.02 mm/m", "mm")
    ('0.02 mm', '1 m')
    """
    plain = plain_of(text, where, WAYS_ALLOWED, longest=LONGEST_WORDS, sort="a limit").lstrip("≤<=± ")
    if re.search(r"/\s*(m|ft)$", plain):
        plain = re.sub(r"/\s*(m|ft)$", r" per 1 \1", plain)
    parts = re.split(r"\s+per\s+|\s+over\s+|\s+in\s+(?=\d)|\s+/\s+", plain, maxsplit=1)
    if not parts[0].strip():
        raise BadEntry("is empty before “per”.", where=where, value=text, way_out=WAYS_ALLOWED)
    if parts[0].rstrip()[-1:].isdigit() and len(parts) == 2 and re.search(r"[a-z]", parts[1]):
        own = re.sub(r"[\d.,/\s-]+", "", parts[1])
        if own in FACTORS and own not in ("m", "ft"):
            parts[0] = f"{parts[0]} {own}"
    return parts[0].strip(), parts[1].strip() if len(parts) == 2 else ""
