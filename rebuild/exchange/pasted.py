"""A list from the clipboard: cells of a spreadsheet, a table as text, or just one thing a line."""

from __future__ import annotations

import re

from rebuild.exchange.headings import known_in
from rebuild.exchange.tables import Table, table_of_text, without_heads
from rebuild.exchange.text_in import parted_by

#: ``2x gib screw``, ``- wiper (4)``, ``nut x 3``: how many, and of what.
_LINE = re.compile(
    r"(?:[-*•]\s+)?(?:(?P<before>\d+)\s*[x×]\s+)?(?P<name>.+?)(?:\s+[x×]\s*(?P<after>\d+)|\s*\((?P<in>\d+)\s*[x×]?\))?"
)


def pasted_table(text: str) -> Table:
    """The table in a text; lines that are no table are parts by their names, with how many before or behind.

    Raises:
        FileTrouble: nothing stands in it.

    >>> pasted_table("2x gib screw\\nthrust washer, bronze\\n").rows
    (('2', 'gib screw'), ('', 'thrust washer, bronze'))
    """
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if "\t" not in text and not _has_headings(text):
        return Table("what was pasted", ("Quantity", "Name"), tuple(map(_line, lines)), 1)
    table = table_of_text(text)
    return table if known_in(table.heads) else without_heads(table)


def _has_headings(text: str) -> bool:
    mark = parted_by(text)
    return any(known_in(line.split(mark)) > 1 for line in text.splitlines()[:20])


def _line(line: str) -> tuple[str, str]:
    found = _LINE.fullmatch(line)
    if found is None:
        return "", line
    return found["before"] or found["after"] or found["in"] or "", found["name"].strip()
