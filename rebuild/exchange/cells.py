"""Values as the text of a cell, so that they read back exactly and no spreadsheet runs them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from rebuild.work.lists.plain_rows import Value

#: What a spreadsheet would take for a formula; quotes before it are counted, so that reading back is exact.
_FORMULA = re.compile(r"'*[=+\-@\t\r]")
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?")


def cell_text(value: Value) -> str:
    """A value as text: every digit of a number, yes or no, nothing for nothing; a formula is marked as text.

    >>> cell_text(0.1 + 0.2), cell_text(True), cell_text(None), cell_text("=1+1"), cell_text("-0.02")
    ('0.30000000000000004', 'yes', '', "'=1+1", '-0.02')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return f"'{value}" if _FORMULA.match(value) and not _NUMBER.fullmatch(value) else value
    return repr(value)


#: What no text begins with that must be marked: looked at first, since nearly every cell is one of these.
_MARKED = frozenset("'=+-@\t\r")


def cell_texts(row: Sequence[Value]) -> list[Value]:
    """A row for a CSV writer, which makes of nothing and of numbers what ``cell_text`` does by itself.

    >>> cell_texts([0.1 + 0.2, True, None, "=1+1", "nut"])
    [0.30000000000000004, 'yes', None, "'=1+1", 'nut']
    """
    return [
        cell_text(value)
        if value is True or value is False or (type(value) is str and value[:1] in _MARKED)
        else value
        for value in row
    ]


def typed_text(cell: str) -> str:
    """The text a cell of a CSV stands for: the mark that it is text, put there by ``cell_text``, is taken off.

    >>> typed_text("'=1+1"), typed_text("'tis"), typed_text("-0.02")
    ('=1+1', "'tis", '-0.02')
    """
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell
