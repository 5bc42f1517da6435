"""One entry as typed: its signs made plain, looked at for nothing and for too much, quoted shortly in a message."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.length_units import TYPOGRAPHY

LONGEST_TEXT = 80
WAYS = "Type a number, for example 1.5."


def tidy(text: str) -> str:
    """The text with typographic signs replaced by plain ones and spaces folded.

    >>> tidy(" 1–1/4\u00a0″ ")
    '1-1/4 "'
    """
    return " ".join(text.translate(TYPOGRAPHY).split())


def short(text: str) -> str:
    """A text as a message quotes it: its beginning where it is long.

    >>> short("24.98"), short("9" * 99)
    ('24.98', '99999999999999999999…')
    """
    return text if len(text) <= LONGEST_TEXT else text[:20] + "…"


def plain_of(
    text: str, field: str = "Number", ways: str = WAYS, *, longest: int = LONGEST_TEXT, sort: str = "a number"
) -> str:
    """The tidied text of one entry, looked at for nothing and for too much before any pattern is tried on it.

    Raises:
        BadEntry: no text, empty, or longer than ``longest``.

    >>> plain_of(" 12 ")
    '12'
    """
    plain = text_of(field, text, ways)
    if len(plain) <= 10 * longest:
        plain = tidy(plain)
    if not plain:
        raise BadEntry("is empty.", where=field, way_out=ways)
    if len(plain) > longest:
        raise BadEntry(f"is too long for {sort}.", where=field, value=plain[:20] + "…", way_out=ways)
    return plain
