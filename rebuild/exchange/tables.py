"""A table read from CSV or a workbook: headings and rows of text, whatever program wrote it."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.exchange.cells import typed_text

BOOKS = (".xlsx", ".xlsm")
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


def _csv(path: Path) -> Table:
    text = _decoded(path.read_bytes(), path)
    first = next((line for line in text.splitlines() if line.strip()), "")
    parted = max(",;\t", key=first.count) if any(mark in first for mark in ",;\t") else ","
    try:
        rows = [
            tuple(typed_text(cell) for cell in row)
            for row in csv.reader(StringIO(text, newline=""), delimiter=parted)
        ]
    except csv.Error as trouble:
        raise FileTrouble(
            f"is no table ({trouble}).", where=path.name, way_out="Save it as CSV again."
        ) from trouble
    return _table(path.stem, rows, path)


def _decoded(content: bytes, path: Path) -> str:
    for coding in ("utf-8-sig", "utf-16" if content[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8", "cp1252"):
        try:
            text = content.decode(coding)
        except UnicodeError:
            continue
        if "\x00" not in text:
            return text
    raise FileTrouble("is not a text file.", where=path.name, way_out="Save it as CSV (UTF-8).")


def _table(name: str, rows: list[tuple[str, ...]], path: Path) -> Table:
    start = next((at for at, row in enumerate(rows) if any(cell.strip() for cell in row)), 0)
    if len(rows) > MOST:
        raise FileTrouble(
            f"has {len(rows)} rows; {MOST} are taken at once.",
            where=path.name,
            way_out="Part it into several.",
        )
    heads = tuple(cell.strip() for cell in rows[start]) if rows else ()
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


def _workbook(path: Path) -> tuple[Table, ...]:
    from rebuild.exchange.workbook_in import sheets_of

    return tuple(_table(title, rows, path) for title, rows in sheets_of(path, MOST, MOST_COLUMNS))
