"""Every dialog on an inch machine: nothing in mm first, no unit preset to mm, nothing raw; and no message either."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QFileDialog, QWidget

from rebuild.window.commands.menu_lines import ACTIONS
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.frame import Frame
from tests.conftest import demo_copy
from tests.depth import DEPTH
from tests.window.conftest import close_all_windows
from tests.window.lists.test_words_shown import MM_FIRST
from tests.window.raw_words import raw
from tests.window.walk import settle, texts

#: The cautions are of the world; the examples' equations keep their mm and have a test of their own.
OF_NO_MACHINE = {"cautions", "limits", "examples"}
#: Dear ones, opened where the whole is looked through (``REBUILD_DEPTH``): a third of the processor time.
DEAR = {"make_sheet", "act_finder", "examples", "print_bags", "all_keys"} if DEPTH == 1 else set()
#: A hint that a bare size is taken in mm.
BARE_MM = re.compile(r"\b(?:in mm unless|a bare number is in mm|bare numbers in mm)\b")


def _on_a_row(frame: Frame) -> None:
    """Stand on a part of the inch machine that has features, on a row of one, at its subassembly."""
    frame.show_page("bench")
    with frame.desk.store.read() as connection:
        part, group, feature, station = connection.exec_driver_sql(
            "SELECT p.id, p.subassembly_id, f.id, COALESCE(s.id, 0) FROM part p JOIN feature f ON f.part_id = p.id "
            "LEFT JOIN station s ON s.feature_id = f.id WHERE p.machine_id = ? AND f.spec_text != '' "
            "AND EXISTS (SELECT 1 FROM reading r WHERE r.feature_id = f.id) ORDER BY p.id LIMIT 1",
            (frame.desk.machine_id,),
        ).one()
    frame.desk.choose(subassembly_id=group, part_ids=(part,), key=(feature, station))
    settle(60)


def test_no_dialog_of_an_inch_machine_says_mm_first(
    qapp: QApplication, demo_template: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def chooser(_parent: QWidget, *_more: object) -> tuple[str, str]:
        return "", ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", chooser)
    desk = Desk()
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.show()
    desk.open(demo_copy(demo_template, tmp_path / "demo"))
    with desk.store.read() as connection:
        (inch,) = connection.exec_driver_sql("SELECT id FROM machine WHERE unit = 'in' LIMIT 1").one()
    desk.choose_machine(inch)
    _on_a_row(frame)
    qapp.clipboard().setText("name\tquantity\ngib\t1\n")  # what was copied before is no text of ours
    opened, found = set(), set()
    for key in sorted({row.key for row in ACTIONS if row.act} - {"back_up", "remove_machine"} - DEAR):
        frame.do(key)
        for dialog in [one for one in frame.findChildren(QDialog) if one.isVisible()]:
            opened.add(key)
            for widget, text in texts(dialog):
                if key != "examples":  # the standards' factors have eight decimals
                    found |= {f"{key}, {widget}: {one} in {text[:90]!r}" for one in raw(text)}
                if key not in OF_NO_MACHINE and (MM_FIRST.search(text) or BARE_MM.search(text)):
                    found.add(f"{key}, {widget}: mm first in {text[:90]!r}")
            for combo in dialog.findChildren(QComboBox):
                texts_of = [combo.itemText(at) for at in range(combo.count())]
                if combo.isVisible() and {"mm", "in"} <= set(texts_of) and combo.currentText() == "mm":
                    found.add(f"{key}, {combo.accessibleName()}: preset to mm")
            dialog.close()
            dialog.deleteLater()
        qapp.sendPostedEvents(None, 52)  # QEvent.DeferredDelete
        _on_a_row(frame)
    for words in said:
        found |= {f"message: {one} in {words[:90]!r}" for one in raw(words)}
        if MM_FIRST.search(words):
            found.add(f"message: mm first in {words[:90]!r}")
    close_all_windows()
    desk.close()
    assert not found, "\n".join(sorted(found))
    assert len(opened) > 30 - len(DEAR), sorted(opened)
