"""The sheets of an OpenDocument spreadsheet (ISO/IEC 26300) as rows of text."""

from __future__ import annotations

import zlib
from collections.abc import Iterator
from pathlib import Path
from xml.etree.ElementTree import Element, iterparse
from zipfile import BadZipFile, ZipFile

from rebuild.errors import FileTrouble
from rebuild.exchange.damaged_words import DAMAGE, means, refuse_bomb, refuse_password
from rebuild.trade.sizes.number import read_whole

Row = tuple[str, ...]
_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
#: Unpacked [bytes].
MOST_BYTES = 1_000_000_000
KIND = b"application/vnd.oasis.opendocument.spreadsheet"


def is_ods(path: Path) -> bool:
    """Whether a file is an OpenDocument spreadsheet, by what it says of itself."""
    try:
        with ZipFile(path) as packed:
            return packed.read("mimetype").strip() == KIND
    except (BadZipFile, KeyError, OSError, NotImplementedError, RuntimeError, zlib.error):
        return False


def sheets_of(path: Path, most_rows: int, most_columns: int) -> Iterator[tuple[str, list[Row]]]:
    """Title and rows of each sheet. Raises FileTrouble: damaged, locked with a password, or too large."""
    try:
        with ZipFile(path) as packed:
            refuse_password(packed, path)
            refuse_bomb(packed, path, MOST_BYTES)
            with packed.open("content.xml") as content:
                for _event, element in iterparse(content):
                    if element.tag == f"{_TABLE}table":
                        rows = list(_rows(element, most_rows, most_columns))
                        yield element.get(f"{_TABLE}name", "sheet"), rows
                        element.clear()
    except DAMAGE as trouble:
        raise FileTrouble(
            f"is no spreadsheet that can be read ({means(trouble)}).",
            where=path.name,
            way_out="Open it in a spreadsheet and save it again; nothing was taken.",
        ) from trouble


def _rows(table: Element, most_rows: int, most_columns: int) -> Iterator[Row]:
    """Rows as wide as what stands in them; repeated empty rows at the end are not drawn out."""
    waiting = taken = 0
    for row in table.iter(f"{_TABLE}table-row"):
        cells = tuple(_cells(row, most_columns))
        times = _count(row, "number-rows-repeated")
        if not any(cells):
            waiting += times
            continue
        for _ in range(min(waiting, most_rows)):
            yield ()
        waiting = 0
        for _ in range(times):
            taken += 1
            if taken > most_rows + 1:
                return
            yield cells


def _cells(row: Element, most: int) -> list[str]:
    found: list[str] = []
    waiting = 0
    for cell in row:
        if cell.tag not in (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell"):
            continue
        text, times = _shown(cell), _count(cell, "number-columns-repeated")
        if not text:
            waiting += times
            continue
        found += [""] * min(waiting, most + 1) + [text] * min(times, most + 1)
        waiting = 0
    return found[: most + 1]


def _count(element: Element, name: str) -> int:
    said = element.get(f"{_TABLE}{name}", "1")
    return max(1, read_whole(said, "Repeated")) if said.isascii() and said.isdigit() and len(said) < 9 else 1


def _shown(cell: Element) -> str:
    """What a cell shows; a number as it is stored, so that its digits are whole."""
    value = cell.get(f"{_OFFICE}value")
    if value is not None and cell.get(f"{_OFFICE}value-type") == "float":
        return value.removesuffix(".0")
    return "\n".join("".join(line.itertext()) for line in cell.iter(f"{_TEXT}p")).strip()
