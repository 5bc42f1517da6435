"""The sheets of a workbook as rows of text, whatever is wrong inside it: the sentence names the sheet and the row.

A workbook is a zip of XML from anywhere. Before anything is parsed its size unpacked is looked at, and a document
type declaration (where entity bombs live; no spreadsheet writes one) is refused.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING
from zipfile import ZipFile

from rebuild.errors import FileTrouble
from rebuild.exchange.damaged_words import DAMAGE, means, refuse_bomb, refuse_password

if TYPE_CHECKING:
    from openpyxl.worksheet._read_only import ReadOnlyWorksheet

Row = tuple[str, ...]
#: Unpacked [bytes]: half a million full rows take about this much.
MOST_BYTES = 1_000_000_000


def sheets_of(path: Path, most_rows: int, most_columns: int) -> Iterator[tuple[str, list[Row]]]:
    """Title and rows of each sheet; one row more than ``most_rows`` at most, so that the reader can say so.

    Raises:
        FileTrouble: no workbook, or damaged: the sheet and the last row that could be read are named.
    """
    from openpyxl import load_workbook

    with _said(path, "is no workbook", []):
        with ZipFile(path) as packed:
            refuse_password(packed, path)
            refuse_bomb(packed, path, MOST_BYTES)
        book = load_workbook(path, read_only=True, data_only=True)
    try:
        for sheet in book.worksheets:
            rows: list[Row] = []
            with _said(path, f"sheet “{sheet.title}” is damaged", rows):
                rows.extend(_not_too_wide(_rows(sheet, most_rows), sheet.title, path, most_columns))
            yield sheet.title, rows
    finally:
        book.close()


@contextmanager
def _said(path: Path, what: str, rows: list[Row]) -> Iterator[None]:
    try:
        yield
    except FileTrouble:
        raise
    except DAMAGE as trouble:
        after = f" after row {len(rows)}" if rows else ""
        raise FileTrouble(
            f"{what}{after} ({means(trouble)}).",
            where=path.name,
            way_out="Open it in a spreadsheet and save it as XLSX or CSV again; nothing was taken.",
        ) from trouble


def _rows(sheet: ReadOnlyWorksheet, most: int) -> Iterator[Row]:
    # Never trust the size a sheet claims for itself: it is worked out from the cells.
    sheet.reset_dimensions()
    for row in islice(sheet.iter_rows(values_only=True), most + 2):
        yield tuple(shown(cell) for cell in row)


def _not_too_wide(rows: Iterable[Row], title: str, path: Path, most: int) -> Iterator[Row]:
    for number, row in enumerate(rows, start=1):
        if any(row[most:]):
            raise FileTrouble(
                f"sheet “{title}”, row {number}, has more than {most} columns.",
                where=path.name,
                way_out="Delete the columns that hold nothing of the list, then save it again.",
            )
        yield row[:most]


def shown(cell: object) -> str:
    """A workbook's cell as text: whole numbers without a point, dates as ISO."""
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() and abs(cell) < 1e15 else repr(cell)
    if isinstance(cell, dt.datetime):
        return cell.isoformat(sep=" ", timespec="seconds")
    return str(cell)
