"""A table read from CSV or a workbook: headings and rows of text, whatever program wrote it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.exchange.headings import heading_row
from rebuild.exchange.text_in import decoded, rows_of

BOOKS = (".xlsx", ".xlsm", ".ods", ".xls")
#: How a workbook of the old kind, and one that is locked, begins (compound file: MS-CFB 2.2).
_OLD = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
#: More rows than any shop has; a wrong file is caught before it fills the memory.
MOST = 500_000
#: A list of a shop has fewer columns; more come from a format that reaches to the end of a sheet.
MOST_COLUMNS = 2_000


@dataclass(frozen=True, slots=True)
class Table:
    """Headings and rows; ``first_row`` is the number the first row of data has in its file."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    first_row: int = 2


def read_tables(path: Path) -> tuple[Table, ...]:
    """The tables of a file: one of a CSV, one for each sheet of a workbook that holds anything.

    Raises:
        FileTrouble: unreadable, not a table, or empty.
    """
    if path.exists() and not path.is_file():
        raise FileTrouble("is no ordinary file.", where=path.name, way_out="Choose a CSV or a workbook.")
    try:
        _refuse_old(path)
        tables = _workbook(path) if path.suffix.lower() in BOOKS else (_csv(path),)
    except FileNotFoundError:
        raise FileTrouble("there is no such file.", where=path.name, way_out="Choose another.") from None
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be read ({trouble.strerror or trouble}).",
            where=path.name,
            way_out="See its permissions.",
        ) from trouble
    found = tuple(table for table in tables if table.heads and table.rows)
    if not found:
        raise FileTrouble(
            "holds no rows under a heading.", where=path.name, way_out="Put the headings into its first row."
        )
    return found


def table_of_text(text: str, name: str = "what was pasted") -> Table:
    """A table that was pasted. Raises FileTrouble: it holds nothing, or is none."""
    return _table(name, rows_of(text, Path(name)), Path(name))


def without_heads(table: Table) -> Table:
    """The same table with its first row among the others, for a list that has no headings."""
    heads = tuple(f"column {at}" for at in range(1, len(table.heads) + 1))
    return Table(table.name, heads, (table.heads, *table.rows), table.first_row - 1)


def _csv(path: Path) -> Table:
    return _table(path.stem, rows_of(decoded(path.read_bytes(), path.name), path), path)


def _refuse_old(path: Path) -> None:
    with path.open("rb") as file:
        start = file.read(8)
    if start == _OLD:
        raise FileTrouble(
            "is a workbook of the old kind (XLS, before 2007), or one locked with a password; neither is read.",
            where=path.name,
            way_out="Open it in a spreadsheet and save it as XLSX, ODS or CSV.",
        )


def _table(name: str, rows: list[tuple[str, ...]], path: Path, *, cells: bool = False) -> Table:
    """A table of rows; ``cells`` come from a sheet, where a column without a heading is one all the same."""
    start = heading_row(rows)
    if rows and _is_number_alone(rows[start]):  # a log without a heading begins with its first value
        rows = [*rows[:start], ("reading",), *rows[start:]]
    if len(rows) > MOST:
        raise FileTrouble(
            f"has {len(rows)} rows; {MOST} are taken at once.",
            where=path.name,
            way_out="Part it into several.",
        )
    heads = tuple(cell.strip() for cell in rows[start]) if rows else ()
    if cells:
        widest = max((_filled(row) for row in rows[start:]), default=0)
        heads = (*heads, *("",) * (widest - len(heads)))
    wide = len(heads)
    if wide > MOST_COLUMNS:
        raise FileTrouble(
            f"has more than {MOST_COLUMNS} columns.",
            where=path.name,
            way_out="Delete the columns that hold nothing of the list, then save it again.",
        )
    kept = tuple((*row, *("",) * (wide - len(row)))[: max(wide, len(row))] for row in rows[start + 1 :])
    over = next((at for at, row in enumerate(kept) if any(cell.strip() for cell in row[wide:])), None)
    if over is not None:
        raise FileTrouble(
            f"has more fields in row {start + over + 2} than headings.",
            where=path.name,
            way_out="Put text with commas into quotes, or give every column a heading.",
        )
    return Table(name, heads, tuple(row[:wide] for row in kept), start + 2)


def _is_number_alone(row: tuple[str, ...]) -> bool:
    filled = [cell.strip() for cell in row if cell.strip()]
    return len(filled) == 1 and re.fullmatch(r"[-+]?\d+[.,]\d+\s*(?:mm|in|\")?", filled[0]) is not None


def _filled(row: tuple[str, ...]) -> int:
    return max((at for at, cell in enumerate(row, start=1) if cell.strip()), default=0)


def _workbook(path: Path) -> tuple[Table, ...]:
    from rebuild.exchange import ods_in, workbook_in

    sheets_of = ods_in.sheets_of if ods_in.is_ods(path) else workbook_in.sheets_of
    return tuple(_table(title, rows, path, cells=True) for title, rows in sheets_of(path, MOST, MOST_COLUMNS))
