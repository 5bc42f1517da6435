"""A number and the unit typed behind it, taken apart as typed; what they say is read elsewhere."""

from __future__ import annotations

import re

from rebuild.errors import BadEntry
from rebuild.trade.sizes.typed_text import WAYS, plain_of, short

#: A number at the start of a text, and the rest; ``ASCII`` so that a digit is 0 to 9.
_LEADING = re.compile(
    r"([-+]?[ ]?[0-9.,]*[0-9.,](?:e[-+]?[0-9]+(?![0-9.,a-z]))?)(.*)", re.IGNORECASE | re.DOTALL
)
#: Other ways to write a unit a field has.
_SAME_UNIT = {
    "mm²/s": ("cst", "mm2/s", "mm^2/s"), "kg": ("kgs",), "lb": ("lbs", "lb."), "°C": ("c", "deg c"), "°": ("deg",),
    "µm": ("um",), "rpm": ("r/min", "1/min"), "%": ("percent", "per cent"), "h": ("hours", "hrs", "hr"),
}  # fmt: skip


def without_unit(unit: str, plain: str) -> str:
    """A number without the unit typed behind it.

    >>> without_unit("kg", "12 kgs"), without_unit("°C", "20")
    ('12', '20')
    """
    for word in (unit, *_SAME_UNIT.get(unit, ())) if unit else ():
        if plain.lower().endswith(word.lower()):
            return plain[: -len(word)].rstrip()
    return plain


def split_unit(
    text: str, field: str = "Number", ways: str = WAYS, sort: str = "an amount"
) -> tuple[str, str]:
    """The number at the start of a text and the unit after it, both as typed.

    Raises:
        BadEntry: no number at the start.

    >>> split_unit("25 lb-ft"), split_unit("1,500 kg")
    (('25', 'lb-ft'), ('1,500', 'kg'))
    """
    plain = plain_of(text, field, ways, sort=sort)
    match = _LEADING.match(plain)
    if match is None:
        raise BadEntry(f"is not {sort}.", where=field, value=text.strip(), way_out=ways)
    return match[1], match[2].strip()


_VALUE = re.compile(
    r"(?P<number>[-+]?[0-9.,/ -]*[0-9.,](?:e[-+]?[0-9]+(?![0-9.,a-z]))?)(?P<unit>.*)",
    re.IGNORECASE | re.DOTALL,
)


def split_value(text: str, field: str = "Number", ways: str = WAYS) -> tuple[str, str]:
    """The number at the start of a text, which may be a fraction or mixed, and the unit after it.

    Raises:
        BadEntry: no number at the start.

    >>> split_value("1 1/4 in"), split_value("25")
    (('1 1/4', 'in'), ('25', ''))
    """
    match = _VALUE.fullmatch(plain_of(text, field, ways, sort="an amount"))
    if match is None:
        raise BadEntry("is not a number.", where=field, value=short(text.strip()), way_out=ways)
    return match["number"].strip(), match["unit"].strip()
