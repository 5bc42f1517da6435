"""A pasted column may bring its heading along: it is told from a reading, so that no value shifts by a row."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.quantity import parse_length


def without_heading(column: Sequence[str]) -> tuple[str, list[str]]:
    """The heading of a column and what stands under it; an empty heading where there is none.

    A heading is a first cell that has no number in it, over a cell that has one. A mistyped number is no heading.

    >>> without_heading(["as found", "0.01", "0.02"])
    ('as found', ['0.01', '0.02'])
    >>> without_heading(["5o.98", "59.98"])
    ('', ['5o.98', '59.98'])
    """
    cells = list(column)
    if len(cells) > 1 and is_heading(cells[0]) and _reads(cells[1]):
        return cells[0].strip(), cells[1:]
    return "", cells


def headed(block: Sequence[Sequence[str]]) -> bool:
    """Whether the first line of a block names its columns: nothing in it reads as a size, and what is under it does.

    >>> headed([["near", "far"], ["59.98", "59.97"]]), headed([["59.98"], ["59.97"]])
    (True, False)
    """
    if len(block) < 2:
        return False
    first = [text for text in block[0] if text.strip()]
    under = [text for text in block[1] if text.strip()]
    return bool(first) and all(map(is_heading, first)) and any(map(_reads, under))


def is_heading(text: str) -> bool:
    """A word, not a value: it begins with a letter, and reads as no size.

    >>> is_heading("As found (mm)"), is_heading("Station 1"), is_heading("59.98"), is_heading("")
    (True, True, False, False)
    """
    plain = text.strip()
    return plain[:1].isalpha() and not _reads(plain)


def _reads(text: str) -> bool:
    try:
        parse_length(text.strip(), "mm")
    except Ambiguous:
        return True
    except BadEntry:
        return any(mark.isdigit() for mark in text) and not text.strip()[:1].isalpha()
    return True
