"""The part list and the measurements as a workbook, for those who go on in a spreadsheet."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from itertools import chain, islice
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.store.beside import Tell, stopped, unheard
from rebuild.store.reading import reading
from rebuild.store.unreadable import BadCell
from rebuild.work.lists.plain_rows import Value
from rebuild.work.lists.rows_everything import Listing
from rebuild.work.lists.rows_lists import lists

#: Signs a workbook cannot hold.
_NOT_HELD = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
_WIDEST = 48
#: Rows a column's width is taken from, and written between two looks whether to stop.
_LOOKED_AT = 400


def export_workbook(
    store_path: Path,
    target: Path,
    tell: Tell = unheard,
    found: Callable[[Sequence[BadCell]], object] = lambda _cells: None,
) -> int:
    """Write machines, part list, features, stations and readings, one sheet each; returns how many rows.

    ``tell`` hears what is being written; False stops it, and nothing is kept. ``found`` hears which cells cannot be
    read.

    Raises:
        FileTrouble: the project cannot be read, the workbook not written, or it was stopped.
    """
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    with reading(store_path, found) as connection:
        rows = sum(_sheet(book, listing, tell, target) for listing in lists(connection))
    try:
        book.save(target)
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be written ({trouble.strerror or trouble}).",
            where=target.name,
            way_out="Close it where it is open, or choose another folder.",
        ) from trouble
    return rows


def _sheet(book: object, listing: Listing, tell: Tell, target: Path) -> int:
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    assert isinstance(book, Workbook)
    sheet = book.create_sheet(listing.name)
    sheet.freeze_panes = "A2"
    rows = iter(listing.rows)
    first = list(islice(rows, _LOOKED_AT))
    for at, head in enumerate(listing.heads, start=1):
        shown = [len(str(row[at - 1] or "")) for row in first]
        sheet.column_dimensions[get_column_letter(at)].width = min(
            _WIDEST, max([len(head.words), *shown]) + 2
        )
    heads = [WriteOnlyCell(sheet, head.words) for head in listing.heads]
    for cell in heads:
        cell.font = Font(bold=True)
    sheet.append(heads)
    count = 0
    for count, row in enumerate(chain(first, rows), start=1):
        if count % _LOOKED_AT == 1 and not tell(0.0, listing.word):
            raise stopped(target)
        sheet.append([_cell(sheet, value) for value in row])
    return count


def _cell(sheet: object, value: Value) -> object:
    """A number as a number, text as text: what begins with = is no formula."""
    from openpyxl.cell import WriteOnlyCell

    if isinstance(value, str):
        cell = WriteOnlyCell(sheet, _NOT_HELD.sub("\N{REPLACEMENT CHARACTER}", value))
        cell.data_type = "s"
        return cell
    return "yes" if value is True else "no" if value is False else value
