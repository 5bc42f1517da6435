"""Dialogs that wait for work go when it ends, and a question about the last copy is answered by its buttons alone.

Found in a trial by a stranger: the box of a backup stayed for ever, since closing asked ``reject`` first.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from rebuild.errors import FileElsewhere
from rebuild.window.desk.backup import back_up
from rebuild.window.desk.copying import Copying
from rebuild.window.desk.lost_file import LostFile
from rebuild.window.shell.frame import Frame
from rebuild.work.records.rows_kept import kept_entries
from tests.conftest import Shop


def test_the_box_of_a_backup_goes_when_it_is_made(qtbot: QtBot, frame: Frame, shop: Shop) -> None:
    dialog = back_up(frame.desk, frame)
    gone: list[bool] = []
    dialog.finished.connect(lambda _code: gone.append(True))
    qtbot.waitUntil(lambda: bool(gone), timeout=20_000)
    assert "Backed up and verified" in frame.messages.sentence


def test_a_refusal_closes_the_box_too(qtbot: QtBot) -> None:
    from rebuild.errors import FileTrouble

    def work(_tell: object) -> object:
        raise FileTrouble("the disk is full.", where="x", way_out="Free some space.")

    said: list[str] = []
    over = QWidget()
    qtbot.addWidget(over)
    dialog = Copying("Backing up", work, lambda _value: None, said.append, over)
    ended: list[int] = []
    dialog.finished.connect(ended.append)
    dialog.open()
    qtbot.waitUntil(lambda: bool(ended), timeout=5_000)
    assert "the disk is full" in said[0]


def lost(qtbot: QtBot, went: Path | None) -> tuple[LostFile, list[str], list[bool], QWidget]:
    trouble = FileElsewhere(
        "the file was deleted while it was open.",
        where="x",
        way_out="Save it.",
        went_to=str(went) if went else "",
    )
    over = QWidget()
    qtbot.addWidget(over)
    over.show()
    dialog = LostFile(trouble, over)
    typed: list[str] = []
    closed: list[bool] = []
    dialog.typed.connect(typed.append)
    dialog.let_go.connect(lambda: closed.append(True))
    dialog.open()
    return dialog, typed, closed, over


def test_a_gauge_answers_no_question_and_its_value_is_kept(qtbot: QtBot, tmp_path: Path) -> None:
    dialog, typed, _closed, _over = lost(qtbot, tmp_path / "moved.rebuild")
    asked: list[object] = []
    dialog.go_on.connect(asked.append)
    qtbot.keyClicks(dialog, "20.015")
    qtbot.keyClick(dialog, Qt.Key.Key_Return)
    assert (typed, asked, dialog.isVisible()) == (["20.015"], [], True)
    dialog.go.click()
    assert len(asked) == 1
    dialog.accept()


def test_the_last_copy_is_thrown_away_at_the_second_press_only(qtbot: QtBot) -> None:
    dialog, _typed, closed, _over = lost(qtbot, None)
    dialog.close_file.click()
    assert closed == []
    assert "last copy" in dialog.said.text()
    dialog.close_file.click()
    assert closed == [True]
    dialog.accept()


def test_what_was_sent_meanwhile_is_among_the_held_entries(frame: Frame) -> None:
    frame.files.lost(FileElsewhere("the file was deleted.", where="x", way_out="Save it."))
    dialog = frame.files._lost
    assert dialog is not None
    dialog.typed.emit("20.022")
    with frame.desk.store.read() as connection:
        assert [one.typed for one in kept_entries(connection)] == ["20.022"]
    dialog.accept()
