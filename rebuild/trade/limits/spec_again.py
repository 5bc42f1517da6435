"""Read a stored spec again: every way its text can have been read when it was typed.

A doubtful comma was settled by the file's setting of that time; a bare size with an ISO class on an inch feature was
once taken as inches unasked. Which way it went shows in the millimetres stored beside it.
"""

from __future__ import annotations

from collections.abc import Iterator

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.limits.spec_parts import SpecEntry


def specs_again(text: str, unit: str) -> Iterator[SpecEntry]:
    """Every reading of a stored spec, the plain one first.

    >>> [entry.nominal.mm for entry in specs_again("1 H7", "in")]
    [1.0, 25.4]
    """
    said: set[str] = set()
    for comma in (None, True, False):
        try:
            yield parse_spec(text, unit, decimal_comma=comma)
        except Ambiguous as asked:
            fresh = [retyped for _, retyped in asked.readings if retyped not in said]
            said.update(fresh)
            for retyped in fresh:
                yield from _one(retyped, unit)
        except (BadEntry, OutOfRange):
            continue


def settled_text(text: str, unit: str, stated: tuple[float | None, ...]) -> str:
    """The text, or the reading of it whose nominal, low and high are the stated millimetres where it has several.

    >>> settled_text("1 H7", "in", (25.4, 25.4, 25.421)), settled_text("25 H7", "mm", (None, None, None))
    ('1 in H7', '25 H7')
    """
    try:
        parse_spec(text, unit)
    except Ambiguous as asked:
        for _, retyped in asked.readings:
            if any(limits_mm(entry) == stated for entry in _one(retyped, unit)):
                return retyped
    except (BadEntry, OutOfRange):
        pass
    return text


def limits_mm(entry: SpecEntry) -> tuple[float | None, float | None, float | None]:
    """Nominal, low and high of a spec [mm].

    >>> limits_mm(parse_spec("max 0.01"))
    (None, None, 0.01)
    """
    nominal, low, high = (size.mm if size else None for size in (entry.nominal, entry.low, entry.high))
    return nominal, low, high


def _one(text: str, unit: str) -> Iterator[SpecEntry]:
    try:
        yield parse_spec(text, unit)
    except (BadEntry, OutOfRange):
        return
