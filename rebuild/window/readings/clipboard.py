"""Cells as text a spreadsheet takes, and text from a spreadsheet as cells."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence


def to_text(rows: Sequence[Sequence[str]]) -> str:
    """Tab-separated lines; a cell with a tab, line break or leading quote is quoted, as spreadsheets do.

    >>> to_text([["HS-01", "24.98"], ["HS-02", ""]])
    'HS-01\\t24.98\\nHS-02\\t'
    """
    return "\n".join("\t".join(_quoted(cell) for cell in row) for row in rows)


def _quoted(cell: str) -> str:
    if cell.startswith('"') or any(mark in cell for mark in "\t\r\n"):
        return '"' + cell.replace('"', '""') + '"'
    return cell


def to_cells(text: str) -> list[list[str]]:
    """Cells of pasted text, row by row; inch marks inside a cell stay.

    >>> to_cells('24,98\\t24,99\\r\\n1 1/4"\\t\\r\\n')
    [['24,98', '24,99'], ['1 1/4"', '']]
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    found = list(csv.reader(io.StringIO(lines), dialect="excel-tab", strict=False))
    while found and not any(cell.strip() for cell in found[-1]):
        found.pop()
    return [[cell.strip() for cell in row] for row in found]
