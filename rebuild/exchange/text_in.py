"""A table written as text: its coding, and what parts its fields, found out from the text itself."""

from __future__ import annotations

import csv
import re
from io import StringIO
from pathlib import Path

from rebuild.errors import FileTrouble
from rebuild.exchange.cells import typed_text
from rebuild.exchange.headings import known_in

Row = tuple[str, ...]
#: Codings of East Asia are tried only when the text is no UTF-8; the one in which a heading is known is meant.
_CODINGS = ("cp1252", "cp932", "gb18030", "cp1250", "cp1251")
#: A line of a table drawn with bars that only rules it off.
_RULE = re.compile(r"\|?\s*:?-{2,}:?\s*(?:\|\s*:?-{2,}:?\s*)*\|?")
_MARKS = ",;\t|"


def decoded(content: bytes, name: str) -> str:
    """The text of a file. Raises FileTrouble: no text."""
    for coding in ("utf-8-sig", "utf-16" if content[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8"):
        text = _in(content, coding)
        if text is not None:
            return text
    found = [text for coding in _CODINGS if (text := _in(content, coding)) is not None]
    if not found:
        raise FileTrouble("is not a text file.", where=name, way_out="Save it as CSV (UTF-8).")
    return max(found, key=lambda text: (_known(text), -found.index(text)))


def _in(content: bytes, coding: str) -> str | None:
    try:
        text = content.decode(coding)
    except UnicodeError:
        return None
    return None if "\x00" in text else text


def _known(text: str) -> int:
    """How many headings are known in the line that has most of them."""
    lines = text.splitlines()[:60]
    return max((known_in(re.split(r"[,;\t|]", line.replace('"', ""))) for line in lines), default=0)


def rows_of(text: str, path: Path) -> list[Row]:
    """The rows of a text. Raises FileTrouble: it is no table."""
    mark = parted_by(text)
    if mark == "|":
        return [_barred(line) for line in text.splitlines() if not _RULE.fullmatch(line.strip())]
    try:
        reader = csv.reader(StringIO(text, newline=""), delimiter=mark)
        return [tuple(typed_text(cell) for cell in row) for row in reader]
    except csv.Error as trouble:
        raise FileTrouble(
            "is no table: a cell in it does not end, or is longer than any list's.",
            where=path.name,
            way_out="Save it as CSV again.",
        ) from trouble


def parted_by(text: str) -> str:
    """The mark between fields: the one that parts the row with the most known headings, else the commonest.

    >>> parted_by("A list, of parts\\ncode;name;qty\\n1;nut;2")
    ';'
    """
    lines = [line for line in text.splitlines()[:60] if line.strip()]
    best = max(((known_in(line.replace('"', "").split(mark)), line.count(mark), mark)
                for line in lines for mark in _MARKS), default=(0, 0, ","))  # fmt: skip
    if best[0] > 1:
        return best[2]
    first = lines[0] if lines else ""
    return max(_MARKS, key=first.count) if any(mark in first for mark in _MARKS) else ","


def _barred(line: str) -> Row:
    return tuple(cell.strip() for cell in line.strip().strip("|").split("|"))
