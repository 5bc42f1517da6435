"""A damaged file met in the window: a sound one is offered, made beside it, told of and opened."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QDialog
from pytestqt.qtbot import QtBot

from rebuild.window.desk.memory import Memory
from rebuild.window.desk.mending import Damaged, Mended
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.start import frame_for
from rebuild.work.checks.check import check
from rebuild.work.machines.rows_tree import machines
from tests.conftest import Shop


def _waited(qtbot: QtBot, frame: Frame, sort: type[QDialog]) -> QDialog:
    qtbot.waitUntil(lambda: any(one.isVisible() for one in frame.findChildren(sort)), timeout=10_000)
    return next(one for one in frame.findChildren(sort) if one.isVisible())


def test_a_damaged_file_is_mended_where_it_is_refused(qtbot: QtBot, shop: Shop, tmp_path: Path) -> None:
    shop.close()
    whole = shop.path.read_bytes()
    cut = tmp_path / "cut.rebuild"
    cut.write_bytes(whole[:-8192])
    frame = frame_for(cut, Memory(tmp_path / "window.ini"))
    qtbot.addWidget(frame)
    frame.show()
    assert "cut short" in frame.start.sentence
    asked = _waited(qtbot, frame, Damaged)
    assert isinstance(asked, Damaged)
    assert "cut short" in asked.said.text()
    asked.make.click()
    told = _waited(qtbot, frame, Mended)
    assert isinstance(told, Mended)
    assert told.said.text().startswith("cut repaired.rebuild holds ")
    assert told.told.toPlainText()
    told.open_it.click()
    assert frame.desk.store.path == tmp_path / "cut repaired.rebuild"
    with frame.desk.store.read() as connection:
        assert [row.name for row in machines(connection)] == ["Toolroom lathe"]
    assert cut.read_bytes() == whole[:-8192]
    assert not frame.files.open(cut), "refused again from the open window"
    _waited(qtbot, frame, Damaged).reject()
    poem = tmp_path / "poem.txt"
    poem.write_text("Not a project. " * 20)
    assert not frame.files.open(poem)
    assert not any(one.isVisible() for one in frame.findChildren(Damaged)), "nobody asks to mend a poem"
    frame.files.mend(frame.desk.store.path)
    assert not frame.desk.is_open, "what is open here is closed before it is read from outside"
    again = _waited(qtbot, frame, Mended)
    assert isinstance(again, Mended)
    again.reject()
    frame.close()
    assert check(tmp_path / "cut repaired.rebuild") == []
