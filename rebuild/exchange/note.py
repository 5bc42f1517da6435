"""The note in an exported folder: what each file holds and how to read it, for a reader without this program."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild import __version__
from rebuild.store import schema
from rebuild.work.lists.rows_everything import Listing

_HEAD = """Everything of one Rebuild project, as plain files.

Written by Rebuild {version}, schema {schema}.

How to read the CSV files
  UTF-8, fields parted by commas, text with commas or line ends in double quotes, first row the headings.
  Text that begins with = + - or @ has a ' before it, so that no spreadsheet takes it for a formula; an import
  takes it off again. Numbers are left alone.
  Numbers have a decimal point and every digit they were stored with.
  A length has three columns: the text as it was typed, its unit, and the value in millimetres
  (1 in = 25.4 mm exactly). The text is what was read; the millimetres are worked out from it.
  Several repeats of one reading stand in one text, parted by semicolons; the value is their mean.
  Dates are year-month-day hour:minute:second, wall clock. Yes and no are written as words.
  "No." numbers a row; a column "... no." refers to the No. of another list.

everything.json holds every record once more under its column names, numbers as numbers.

Lists that can be imported again (rebuild import FILE FOLDER, or File, Import):
"""


#: A list and how many rows of it were written.
Written = tuple[Listing, int]


def note(listed: Sequence[Written], records: Sequence[Written]) -> str:
    """The whole note."""
    lines = [_HEAD.format(version=__version__, schema=schema.HEAD)]
    for listing, rows in listed:
        lines += _one(listing, rows, f"{listing.name}.csv")
    lines.append("Every record, one file a kind, in the folder records:\n")
    for listing, rows in records:
        lines += _one(listing, rows, f"records/{listing.name}.csv")
    return "\n".join(lines)


def _one(listing: Listing, rows: int, path: str) -> list[str]:
    count = f"{rows} row{'s' if rows != 1 else ''}"
    wide = max(len(head.words) for head in listing.heads)
    heads = [f"    {head.words:<{wide}}  {head.holds}" for head in listing.heads]
    return [f"  {path} ({listing.word}, {count})", *heads, ""]
