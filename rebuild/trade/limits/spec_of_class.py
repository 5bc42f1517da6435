"""A spec that names a class of ISO 286; a bare size with one is asked about where the entry goes by inches."""

from __future__ import annotations

import re

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.limits.spec_parts import SpecEntry, made, size_of
from rebuild.trade.sizes.length_units import INCH_UNITS, UNIT_OF
from rebuild.trade.sizes.quantity import parse_length

_CLASS = re.compile(
    r"(?P<nominal>[\d.,/ -]*\d)\s*(?P<unit>mm|cm|in\.?|inch|\")?\s*(?P<cls>(?!in\d)[A-Za-z]{1,2}\d{1,2})"
)


def by_class(rest: str, unit: str, field: str, bare: bool) -> SpecEntry | None:
    """``25 H7``: nominal and limits by the standard; None where no class is named.

    >>> entry = by_class("25 H7", "mm", "Spec", True)
    >>> entry.low.text, entry.high.text, entry.origin
    ('25', '25.021', 'ISO 286-2:2010 H7')
    """
    match = _CLASS.fullmatch(rest)
    if not match:
        return None
    from rebuild.trade.limits import iso286

    if match["unit"]:
        unit = UNIT_OF[match["unit"].lower()]
    elif bare:
        refuse_bare_inches(match["nominal"].strip(), match["cls"], unit, field, rest)
    nominal = size_of(match["nominal"], unit, field, rest)
    limits = iso286.limits(nominal.mm, match["cls"]).value
    return SpecEntry(
        nominal, made(limits.low_mm, unit), made(limits.high_mm, unit), f"ISO 286-2:2010 {match['cls']}"
    )


def refuse_bare_inches(size: str, named: str, unit: str, field: str, typed: str) -> None:
    """Raise Ambiguous for a bare size with an ISO class where a bare number is inches: the class goes by millimetres.

    >>> refuse_bare_inches("25", "H7", "mm", "Spec", "25 H7")
    >>> refuse_bare_inches("25", "H7", "in", "Spec", "25 H7")
    Traceback (most recent call last):
    rebuild.errors.Ambiguous: ... Type 25 mm H7 (millimetres, as ISO 286 goes by) or 25 in H7 (inches).
    """
    if unit not in INCH_UNITS:
        return
    ways = {
        f"{size} {unit} {named}": words
        for unit, words in (("mm", "millimetres, as ISO 286 goes by"), ("in", "inches"))
    }
    held = [way for way, unit in zip(ways, ("mm", "in"), strict=True) if _is_held(size, unit, named)]
    raise Ambiguous(
        "has a class of ISO 286, which goes by millimetres, and this entry goes by inches.",
        where=field,
        value=typed,
        readings=tuple((ways[way], way) for way in held or ways),
    )


def _is_held(size: str, unit: str, named: str) -> bool:
    """Whether every class named is held for a size in this unit; a reading that would be refused is not offered."""
    from rebuild.trade.limits import iso286

    try:
        mm = parse_length(size, unit).mm
        return all(iso286.limits(mm, one.strip()).value for one in named.split("/"))
    except (BadEntry, OutOfRange):
        return False
