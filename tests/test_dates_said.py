"""Days are shown as people say them (2 Mar 2026); digits stand where they are typed, told exactly, or kept for good."""

from __future__ import annotations

import ast
from pathlib import Path

from tests.sources import nodes_of, tree_of

TOP = Path(__file__).resolve().parent.parent / "rebuild"

#: Where the window, the acts and the paper write a day in digits, and why.
_DIGITS = {
    "window/exchange/export_dialog.py": "a folder's name, in order of time",
    "window/plan/dates.py": "the exact moment, on hover",
    "window/plan/calendar_view.py": "the exact moment, on hover",
    "window/plan/finish_picture.py": "told to a screen reader and on hover",
    "window/entry/recent.py": "the exact moment, on hover",
    "window/photos/camera_clock.py": "a moment to be edited as it is typed",
    "window/photos/thumbs.py": "the exact moment, on hover",
    "sheets/book/chapters/colophon.py": "which state of the file made the book, to the second",
    "work/records/field.py": "a moment as it is typed; the exact one of what is said",
    "work/records/rows_kept.py": "when what could not be stored was typed",
    "work/waiting/rules.py": "a date told back as it is typed",
    "work/photos/rules_pictures.py": "a sentence about the second a camera wrote",
}


def _in_digits(path: Path) -> bool:
    return any(
        isinstance(node, ast.Constant) and isinstance(node.value, str) and "%Y-%m-%d" in node.value
        for node in nodes_of(tree_of(path))
    )


def test_the_window_and_the_acts_say_days_as_people_do() -> None:
    found = {
        path.relative_to(TOP).as_posix()
        for floor in ("window", "work", "sheets")
        for path in (TOP / floor).rglob("*.py")
        if _in_digits(path)
    }
    assert found == set(_DIGITS), "say these by show_day or window/lists/said.py, or say why not"
