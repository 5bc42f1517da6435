"""Values as the text of a cell, so that they read back exactly and no spreadsheet runs them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

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


#: What a text that must be marked begins with: looked at first, since nearly no cell does.
_MARKED = frozenset("'=+-@\t\r")
#: Columns that hold these, in the words of their heads, are written as they are.
_AS_THEY_ARE = ("number", "whole number", "date and time", "one of:")


def to_be_looked_at(holds: Iterable[str]) -> list[int]:
    """Which columns may hold a text to be marked or a yes or no, of what each holds in words.

    >>> to_be_looked_at(["whole number", "text", "yes or no", "one of: mm, in"])
    [1, 2]
    """
    return [at for at, words in enumerate(holds) if not words.startswith(_AS_THEY_ARE)]


def cell_texts(row: Sequence[Value], looked_at: Sequence[int]) -> list[Value]:
    """A row for a CSV writer, which makes of nothing and of numbers what ``cell_text`` does by itself.

    >>> cell_texts([0.1 + 0.2, True, None, "=1+1", "nut"], [1, 2, 3, 4])
    [0.30000000000000004, 'yes', None, "'=1+1", 'nut']
    """
    values = list(row)
    for at in looked_at:
        value = values[at]
        if not value:
            if value is False:
                values[at] = "no"
        elif value is True or (type(value) is str and value[0] in _MARKED):
            values[at] = cell_text(value)
    return values


def typed_text(cell: str) -> str:
    """The text a cell of a CSV stands for: the mark that it is text, put there by ``cell_text``, is taken off.

    >>> typed_text("'=1+1"), typed_text("'tis"), typed_text("-0.02")
    ('=1+1', "'tis", '-0.02')
    """
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell
