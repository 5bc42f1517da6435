"""Dates that are typed have one reader: nothing else turns text into a moment but what reads back our own."""

from __future__ import annotations

import ast
from pathlib import Path

TOP = Path(__file__).parent.parent / "rebuild"

#: Where text becomes a moment otherwise, and why.
_OWN = {
    "model/stored.py": "the column's own text",
    "work/places/rows.py": "a shadow row's own text",
    "work/book/rows_history.py": "the journal's own text",
    "work/records/field.py": "a shadow row shown again",
    "work/records/rows_history.py": "the journal's own text",
    "work/lists/whole.py": "our own export, held to the years of sense",
    "work/photos/rules_pictures.py": "what a camera writes (Exif), held to the years of sense",
    "work/checks/bad_cells.py": "the journal's own text",
    "work/lists/plain_rows.py": "our own export, from the column's own text",
    "sheets/book/chapters/history.py": "a month of the journal's own text",
    "store/unreadable.py": "asks whether the column's own text is one",
    "demo/built.py": "the demo's own stamps",
}
_READERS = ("fromisoformat", "strptime", "parsedate_to_datetime")


def test_typed_dates_have_one_reader() -> None:
    found = {
        path.relative_to(TOP).as_posix()
        for path in TOP.rglob("*.py")
        if any(reader in (text := path.read_text(encoding="utf-8")) for reader in _READERS)
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Attribute) and node.attr in _READERS
    }
    assert found == set(_OWN), "read these by trade/schedule/dates.py, or say why not"
