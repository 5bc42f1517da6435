"""Read a spec as people write it: ``25 +0.021/0``, ``1.7495-1.7500``, ``<= 0.0004``, ``25 H7``, ``±0.01``.

A bare number is in the entry's unit; a unit written once at the end holds for every number in the entry. ISO 286 goes
by millimetres: a bare size with one of its classes is asked about where the entry goes by inches.
"""

from __future__ import annotations

import re

from rebuild.errors import Ambiguous
from rebuild.trade.limits.spec_forms import between, one_sided, plus_minus, with_deviations
from rebuild.trade.limits.spec_of_class import by_class
from rebuild.trade.limits.spec_parts import WAYS_TO_TYPE, SpecEntry, size_of
from rebuild.trade.limits.spec_unit import LONGEST, unit_off
from rebuild.trade.sizes.comma import refuse_doubtful
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.typed_text import plain_of

#: A second number under this share of the first may be a tolerance of it.
_MOST_OFF = 0.1


def parse_spec(
    text: str, unit: str = "mm", field: str = "Spec", *, decimal_comma: bool | None = None
) -> SpecEntry:
    """Read a spec; see the module's first line for the forms. ``decimal_comma`` as in ``parse_length``.

    Raises:
        BadEntry: not a spec, or the low limit lies above the high one.
        Ambiguous: two honest readings.
        OutOfRange: a tolerance class outside its table.

    >>> entry = parse_spec("1.7495-1.7500", "in")
    >>> entry.low.text, entry.high.text
    ('1.7495', '1.7500')
    """
    unit = text_of("Unit", unit)
    if not text_of(field, text).strip():
        return SpecEntry(None, None, None)
    plain = plain_of(text, field, WAYS_TO_TYPE, longest=LONGEST, sort="a spec")
    refuse_doubtful(plain, field, decimal_comma)
    plain = comma_settled(plain, decimal_comma)
    rest, used = unit_off(plain, unit)
    bare = rest == plain
    basic = unit if used in ("µm", "thou", "tenth", "µin") else used
    try:
        entry = (
            one_sided(rest, used, field)
            or plus_minus(rest, basic, used, field)
            or by_class(rest, used, field, bare)
            or with_deviations(rest, basic, used, field)
            or between(rest, used, field)
            or SpecEntry(size_of(rest, used, field, text), None, None)
        )
    except Ambiguous as asked:
        raise _asked_of_whole(asked, plain) from None
    if entry.low and entry.high and entry.low.mm > entry.high.mm:
        raise _swapped(entry.low, entry.high, "" if bare else used, field, text)
    return entry


def comma_settled(plain: str, decimal_comma: bool | None) -> str:
    """``plain`` with a doubtful comma settled the way the file reads it; other commas are no doubt.

    >>> comma_settled("1,250-1,300", True), comma_settled("1,250-1,300", False)
    ('1.250-1.300', '1250-1300')
    """
    if decimal_comma is None or "," not in plain:
        return plain
    if decimal_comma:
        return plain if "." in plain else plain.replace(",", ".")
    return re.sub(r"(?<![\d.,])([1-9]\d{0,2}),(\d{3})(?![\d,])", r"\1\2", plain)


def _asked_of_whole(asked: Ambiguous, plain: str) -> Ambiguous:
    """A question about one size of a spec, with readings that can be typed instead of the whole spec."""
    if asked.value == plain or asked.value not in plain:
        return asked
    readings = tuple((words, plain.replace(asked.value, retyped, 1)) for words, retyped in asked.readings)
    return Ambiguous(asked.what, where=asked.where, value=asked.value, readings=readings)


def _swapped(low: Size, high: Size, unit: str, field: str, typed: str) -> Ambiguous:
    """Limits typed the larger first: the order is offered, since which end was mistyped is not known.

    ``1.500 -0.010`` is more likely a size and what it may be less, written without its upper nought.
    """
    end = f" {unit}" if unit and low.text[-1].isdigit() else ""
    less = (("the size and what it may be less", f"{low.text} +0/-{high.text}{end}"),)
    small = 0.0 < high.mm < _MOST_OFF * low.mm
    return Ambiguous(
        f"has its low limit {low.text} above its high limit {high.text}.",
        where=field,
        value=typed.strip(),
        readings=(*(less if small else ()), ("the smaller one first", f"{high.text} to {low.text}{end}")),
    )
