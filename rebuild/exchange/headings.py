"""Where the headings of a table stand: under title rows, beside empty columns."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from rebuild.work.lists.fields import COLUMNS
from rebuild.work.lists.heading_words import FEATURE_WORDS, PART_WORDS, READING_WORDS, plain

#: Title rows above the headings are looked through so far.
_DEEPEST = 60


@cache
def _known() -> frozenset[str]:
    kinds = (PART_WORDS, READING_WORDS, FEATURE_WORDS)
    words = [word for kind in kinds for words in kind.values() for word in words]
    heads = [
        head for columns in COLUMNS.values() for column in columns for head in (column.head, *column.also)
    ]
    return frozenset(plain(word) for word in (*words, *heads)) - {""}


def known_in(cells: Sequence[str]) -> int:
    """How many different cells of a row are headings somebody uses."""
    return len({plain(cell) for cell in cells} & _known())


def heading_row(rows: Sequence[tuple[str, ...]]) -> int:
    """The row of the headings: the first of those with most known words, else the first with anything in it.

    >>> heading_row([("Lathe parts", "", ""), ("", "", ""), ("Code", "Name", "Qty"), ("A-1", "nut", "2")])
    2
    """
    first = next((at for at, row in enumerate(rows) if any(cell.strip() for cell in row)), 0)
    best, most = first, known_in(rows[first]) if rows else 0
    for at, row in enumerate(rows[:_DEEPEST]):
        count = known_in(row)
        if count > max(most, 1):
            best, most = at, count
    return best
