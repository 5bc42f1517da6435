"""A pitch or lead written as a mixed number: ``1-1/4``, ``3/8`` or ``1.75``, kept exact."""

from __future__ import annotations

from fractions import Fraction

from rebuild.errors import BadEntry


def mixed_number(text: str, refusal: BadEntry) -> Fraction:
    """The number as an exact fraction; raises ``refusal`` when the text is none.

    >>> mixed_number("1-1/4", BadEntry("is no number.")), mixed_number("1.75", BadEntry("is no number."))
    (Fraction(5, 4), Fraction(7, 4))
    """
    try:
        whole, _, part = text.replace("-", " ").partition(" ")
        return Fraction(whole) + (Fraction(part) if part else 0)
    except (ValueError, ZeroDivisionError):
        raise refusal from None
