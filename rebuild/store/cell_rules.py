"""What a cell must hold to be read, as a condition in SQL: the scan asks these of a file before a page does."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from sqlalchemy import Boolean, Double, Enum, Integer, String

from rebuild.model.asked import Asked
from rebuild.model.cells import Cell
from rebuild.model.stored import Moment
from rebuild.model.tables.every import every_table
from rebuild.store.photo_names import ENDINGS
from rebuild.words.lengths import LengthUnit

#: No number of a shop is larger; infinity is no number at all.
_LARGEST = "1.7976931348623157e308"


@dataclass(frozen=True, slots=True)
class CellRule:
    """One column: the condition in SQL that it is bad, what a bad one is then, and what may stand for a bad one.

    ``stands_in`` is safe to show in its place: nothing where nothing is allowed, else the word every new row
    begins with, which claims nothing done; ``None`` with ``must`` leaves the row out. ``parent`` is the table
    it refers to.
    """

    column: str
    bad: str
    what: str
    stands_in: str | int | float | None
    must: bool
    parent: str = ""
    is_text: bool = False


@dataclass(frozen=True, slots=True)
class TableRules:
    """The rules of one table, and the name of the column that numbers its rows."""

    table: str
    key: str
    cells: tuple[CellRule, ...]


@cache
def every_rule() -> tuple[TableRules, ...]:
    """The rules of every table this program knows, parents before what goes with them."""
    return tuple(_of_table(asked) for asked in every_table())


def _of_table(asked: type[Asked]) -> TableRules:
    key = next(cell.name for cell in asked.cells() if cell.is_key)
    found = tuple(_of_cell(asked.table_name, cell) for cell in asked.cells() if not cell.is_key)
    return TableRules(asked.table_name, key, found)


def _of_cell(table: str, cell: Cell[Any]) -> CellRule:
    kind = cell.made_type()
    special = _UNITS if cell.name == "unit" and cell.default == "mm" else _PHOTO_NAMES.get((table, cell.name))
    bad, what = special or _condition(f'"{cell.name}"', kind)
    if cell.nullable:
        bad = f'"{cell.name}" IS NOT NULL AND {bad}'
    parent = cell.refers[0] if cell.refers else ""
    # A number without a meaning of its own (a count, a price) must not be made up; a position may.
    stands_in = _stand_in(cell, kind)
    must = not cell.nullable and stands_in is None
    return CellRule(cell.name, f"({bad})", what, stands_in, must, parent, isinstance(kind, String))


def _stand_in(cell: Cell[Any], kind: object) -> str | int | float | None:
    if cell.nullable or cell.refers or cell.default is None:
        return None
    if isinstance(kind, Boolean):
        return int(bool(cell.default))
    if isinstance(kind, Enum):
        return str(getattr(cell.default, "value", cell.default))
    return cell.default if isinstance(cell.default, (str, int, float)) else None


def _condition(column: str, kind: object) -> tuple[str, str]:
    if isinstance(kind, Enum):
        words = ", ".join("'{}'".format(word.replace("'", "''")) for word in kind.enums)
        return f"{column} NOT IN ({words})", "none of the words for it"
    if isinstance(kind, Boolean):
        return f"{column} NOT IN (0, 1)", "neither yes nor no"
    if isinstance(kind, Integer):
        return f"typeof({column}) <> 'integer'", "no whole number"
    if isinstance(kind, Double):
        return (
            f"(typeof({column}) NOT IN ('real', 'integer') OR {column} > {_LARGEST} OR {column} < -{_LARGEST})",
            "no number",
        )
    if isinstance(kind, Moment):
        as_read = f"strftime('%Y-%m-%dT%H:%M:%S', {column}, '+0 days')"
        return f"(typeof({column}) <> 'text' OR {as_read} IS NOT {column} OR {column} < '0001')", "no time"
    return f"typeof({column}) <> 'text'", "no text"


#: What every size of the row is shown in; millimetres stand for a word that is none.
_UNITS = ("unit NOT IN ({})".format(", ".join(f"'{unit}'" for unit in LengthUnit)), "no unit of length")
_HEX = "[0-9a-f]" * 64
_KNOWN_ENDINGS = ", ".join(f"'{ending}'" for ending in ENDINGS)
#: The file of a photo, or of a manual's page, is found by these two, so they must not lead anywhere else.
_PHOTO_NAMES = {
    (table, column): rule
    for table in ("photo", "document_page")
    for column, rule in (
        ("sha256", (f"sha256 NOT GLOB '{_HEX}'", "not the 64 hexadecimal digits a photo is kept under")),
        ("ending", (f"ending NOT IN ({_KNOWN_ENDINGS})", "no ending photos are kept under")),
    )
}
