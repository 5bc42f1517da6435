"""The part list and the measurements as a workbook, for those who go on in a spreadsheet."""

from __future__ import annotations

import re
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.reading import reading
from rebuild.work.lists.rows_everything import Listing, Value
from rebuild.work.lists.rows_lists import lists

#: Signs a workbook cannot hold.
_NOT_HELD = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
_WIDEST = 48


def export_workbook(store_path: Path, target: Path) -> int:
    """Write machines, part list, features, stations and readings, one sheet each; returns how many rows.

    Raises:
        FileTrouble: the project cannot be read, or the workbook not written.
    """
    from openpyxl import Workbook

    with reading(store_path) as connection:
        listed = lists(connection)
    book = Workbook(write_only=True)
    for listing in listed:
        _sheet(book, listing)
    try:
        book.save(target)
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be written ({trouble.strerror or trouble}).",
            where=target.name,
            way_out="Close it where it is open, or choose another folder.",
        ) from trouble
    return sum(len(listing.rows) for listing in listed)


def _sheet(book: object, listing: Listing) -> None:
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    assert isinstance(book, Workbook)
    sheet = book.create_sheet(listing.name)
    sheet.freeze_panes = "A2"
    for at, head in enumerate(listing.heads, start=1):
        shown = [len(str(row[at - 1] or "")) for row in listing.rows[:400]]
        sheet.column_dimensions[get_column_letter(at)].width = min(
            _WIDEST, max([len(head.words), *shown]) + 2
        )
    heads = [WriteOnlyCell(sheet, head.words) for head in listing.heads]
    for cell in heads:
        cell.font = Font(bold=True)
    sheet.append(heads)
    for row in listing.rows:
        sheet.append([_cell(sheet, value) for value in row])


def _cell(sheet: object, value: Value) -> object:
    """A number as a number, text as text: what begins with = is no formula."""
    from openpyxl.cell import WriteOnlyCell

    if isinstance(value, str):
        cell = WriteOnlyCell(sheet, _NOT_HELD.sub("\N{REPLACEMENT CHARACTER}", value))
        cell.data_type = "s"
        return cell
    return "yes" if value is True else "no" if value is False else value
