"""What the window says, page by page: nothing raw, and no name read as markup.

Pitfall 17: a part named like a picture's tag made Qt load the file from labels and tips.
"""

from __future__ import annotations

import re
import sqlite3
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QTextEdit, QWidget

import rebuild.window
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.shell.frame import Frame
from tests.conftest import demo_copy
from tests.depth import DEPTH
from tests.window.conftest import close_all_windows
from tests.window.raw_words import raw
from tests.window.walk import every_page, every_subassembly, texts

TAG = '<img src="file:///tmp/nobody.png">'
#: Every text a user names a thing by, by table.
NAMES = {
    "machine": "name", "subassembly": "name", "part": "name", "feature": "name", "station": "name", "task": "title",
    "fit": "name", "question": "text", "place": "name", "instrument": "name", "waiting": "what", "oil_point": "feeds",
    "joint": "name", "log_entry": "did", "making_step": "what", "survey": "name", "stock_item": "name",
}  # fmt: skip
LEAST_TOLD = 60
#: What the program works out for an inch machine; a reading typed in mm is told as it was typed, then in inches.
MM_FIRST = re.compile(r"\d (?:mm|µm)(?: Ra)? \([\d.]+(?: to [\d.]+)? (?:in|µin)\)(?!, typed)")


def test_nothing_raw_is_shown(qapp: QApplication, demo_template: Path, tmp_path: Path) -> None:
    desk = Desk()
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.show()
    desk.open(demo_copy(demo_template, tmp_path / "demo"))
    found = set()
    read = 0
    for where in every_page(frame):
        for widget, text in texts(frame):
            read += bool(text)
            if where != "figures" and MM_FIRST.search(text):
                found.add(f"{where}, {widget}: mm before inches on an inch machine in {text[:80]!r}")
            found |= {f"{where}, {widget}: {one} in {text[:80]!r}" for one in raw(text)}
            if widget.endswith(", hint") and text[:1].isdigit():
                found.add(f"{where}, {widget}: {text!r} looks stored")
    for where in every_subassembly(frame):
        for widget, text in texts(frame):
            if MM_FIRST.search(text):
                found.add(f"{where}, {widget}: mm before inches on an inch machine in {text[:80]!r}")
            found |= {f"{where}, {widget}: {one} in {text[:80]!r}" for one in raw(text)}
    close_all_windows()
    desk.close()
    assert not found, "\n".join(sorted(found)[:20])
    assert read > 5_000


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("Bore to {bore}", "a place holder"),
        ("0.19295833333333334 mm", "a float's tail"),
        ("1 joints are still apart", "a plural of one"),
        ("1 open steps", "a plural of one"),
        ("44.43 mm mm", "a unit said twice"),
        ("<b>inbox</b>", "markup"),
    ],
)
def test_what_is_raw_is_found(text: str, what: str) -> None:
    assert [one.split(":")[0] for one in raw(text)] == [what]


@pytest.mark.parametrize(
    "text",
    ["Bore to 0.782", "1 joint, 0 steps", "11 joints", "2.1 mm", "1 1/4 flats", "run 1 is read", "1 cross"],
)
def test_plain_words_are_not_called_raw(text: str) -> None:
    assert raw(text) == []


def test_no_name_is_read_as_markup(qapp: QApplication, demo_template: Path, tmp_path: Path) -> None:
    project = demo_copy(demo_template, tmp_path / "demo")
    with sqlite3.connect(project) as file:
        for table, column in NAMES.items():
            file.execute(f"UPDATE {table} SET {column} = ? || {column}", (TAG,))
    file.close()
    desk = Desk()
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.show()
    desk.open(project)
    found = set()
    told = 0
    for where in (*_walk(frame),):
        marked, count = markup(frame)
        told += count
        found |= {f"{where}: {one}" for one in marked}
    close_all_windows()
    desk.close()
    assert not found, "\n".join(sorted(found)[:20])
    assert told > LEAST_TOLD


def _walk(frame: Frame):  # type: ignore[no-untyped-def]
    yield from every_page(frame)
    if DEPTH > 1:
        yield from every_subassembly(frame)


def markup(top: QWidget) -> tuple[list[str], int]:
    """Where a tag would be drawn as a picture, and how many places show it letter by letter."""
    found: list[str] = []
    shown = 0
    for label in top.findChildren(QLabel):
        letters = label.textFormat() is Qt.TextFormat.PlainText
        shown += letters and TAG in label.text()
        if not letters and "<img" in label.text():
            found.append(f"label {label.accessibleName() or label.text()[:60]}")
        if label.isVisible() and label.textFormat() is Qt.TextFormat.AutoText and label.text():
            found.append(f"a label that guesses: {label.text()[:60]!r}")
    for edit in top.findChildren(QTextEdit):
        if edit.isVisible() and "<img" in edit.toHtml():
            found.append(f"text {edit.accessibleName()}")
    for where, text in texts(top):
        shown += TAG in text
        if where.endswith(", tip") and "<img" in text:
            found.append(where)
    return found, shown


def test_a_tag_in_a_guessing_label_or_a_tip_is_found(qapp: QApplication) -> None:
    top = QWidget()
    guessing, plain = QLabel(TAG, top), PlainLabel(TAG, top)
    top.setToolTip(TAG)
    top.show()
    found, shown = markup(top)
    assert len(found) == 3, found
    assert shown >= 1
    assert plain.textFormat() is Qt.TextFormat.PlainText
    guessing.deleteLater()
    top.deleteLater()


def test_the_labels_of_the_window_are_made_in_one_place() -> None:
    window = Path(rebuild.window.__file__).parent
    own = [
        str(path.relative_to(window))
        for path in window.rglob("*.py")
        if re.search(r"\bQLabel\b", path.read_text("utf-8"))
    ]
    assert own == ["layout/plain.py"]
