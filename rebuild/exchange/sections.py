"""Rows of a part list that are no parts: headings of a section, sums; and cells that are sizes."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.exchange.tables import Table
from rebuild.trade.sizes.quantity import parse_length
from rebuild.work.lists.heading_words import TOTALS, plain

#: With more lonely rows than this share they are parts with nothing but a name.
_MOST_LONELY = 0.4
#: With fewer columns a row with one cell is a part that says no more.
_FEWEST_COLUMNS = 3
#: A list shorter than this shows no pattern of merged cells.
_FEWEST = 5


@dataclass(frozen=True, slots=True)
class Sections:
    """``heads`` are the rows that head others, ``of`` the section of each row under one."""

    heads: frozenset[int]
    of: Mapping[int, str]


NO_SECTIONS = Sections(frozenset(), {})


def sections_of(table: Table, columns: Mapping[int, str]) -> Sections:
    """The sections of a part list: rows with one filled cell, or a column of them filled only where one begins."""
    names = set(columns.values())
    if "name" not in names or "group_code" in names:
        return NO_SECTIONS
    group = next((at for at, name in columns.items() if name == "group_name"), None)
    if group is not None:
        return _filled_down(table, group)
    if "quantity" not in names or len(table.heads) < _FEWEST_COLUMNS:
        return NO_SECTIONS
    lonely = {at for at, row in enumerate(table.rows) if sum(bool(cell.strip()) for cell in row) == 1}
    filled = sum(any(cell.strip() for cell in row) for row in table.rows)
    if not lonely or len(lonely) > _MOST_LONELY * filled:
        return NO_SECTIONS
    of: dict[int, str] = {}
    now = ""
    for at, row in enumerate(table.rows):
        if at in lonely:
            now = next(cell.strip() for cell in row if cell.strip()).rstrip(":").strip()
        elif now:
            of[at] = now
    return Sections(frozenset(lonely), of)


def _filled_down(table: Table, group: int) -> Sections:
    """A merged cell is filled only in its first row."""
    cells = [row[group].strip() for row in table.rows]
    if len(cells) < _FEWEST or not cells[0] or 2 * sum(map(bool, cells)) > len(cells):
        return NO_SECTIONS
    of: dict[int, str] = {}
    now = ""
    for at, cell in enumerate(cells):
        now = cell or now
        of[at] = now
    return Sections(frozenset(), of)


def is_total(row: tuple[str, ...]) -> bool:
    """Whether a row only sums up.

    >>> is_total(("Total", "", "785")), is_total(("total station bracket", "1"))
    (True, False)
    """
    filled = [cell for cell in row if cell.strip()]
    return bool(filled) and any(plain(cell) in TOTALS for cell in filled[:2])


#: What tells which part a row is.
_NAMING = frozenset({"name", "code", "maker_number", "figure_item", "note", "material"})


def names_nothing(typed: Mapping[str, str]) -> bool:
    """Whether a row of a part list names no part: what stands under its numbers is a sum or a sheet's rule."""
    return not any(text.strip() for name, text in typed.items() if name in _NAMING)


def is_size(cell: str) -> bool:
    """Whether a cell is a length or a bare number.

    >>> is_size("24.98 mm"), is_size("M8x25"), is_size("6204")
    (True, False, True)
    """
    if not re.match(r"[-+±]?[\d.,]", cell):
        return False
    try:
        parse_length(cell, "mm", decimal_comma=True)
    except BadEntry:
        return False
    return True
