"""A large undo says what it will do, shows how far it is, and stops whole."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from rebuild.window.desk import desk as desk_module, turns
from rebuild.window.desk.long_step import LongStep, rows_by_kind
from rebuild.window.shell.frame import Frame
from rebuild.work.editing import acts as edit
from tests.conftest import Shop
from tests.store.test_long_undo import fill


def asked(frame: Frame) -> LongStep:
    frame.do("undo")
    dialog = frame.findChild(LongStep)
    assert dialog is not None
    return dialog


@pytest.fixture
def removed(frame: Frame, shop: Shop, monkeypatch: pytest.MonkeyPatch) -> Frame:
    monkeypatch.setattr(desk_module, "LARGE_ROWS", 100)
    monkeypatch.setattr(turns, "TURN_MS", -1)
    fill(frame.desk.store, shop.spindle, 200)
    edit.remove(frame.desk.store, "machine", [shop.machine])
    return frame


def parts(frame: Frame) -> int:
    with frame.desk.store.read() as connection:
        return int(connection.exec_driver_sql("SELECT COUNT(*) FROM part").scalar_one())


def test_it_says_what_it_will_do_and_does_it(removed: Frame, qtbot: QtBot) -> None:
    dialog = asked(removed)
    assert "removal of machine Toolroom lathe" in dialog.said.text()
    assert "202 part" in dialog.said.text()
    assert parts(removed) == 0
    dialog.go.click()
    assert parts(removed) == 202
    assert removed.messages.sentence.startswith("Undone: removal of machine")


def test_left_as_it_is(removed: Frame) -> None:
    asked(removed).leave.click()
    assert parts(removed) == 0


def test_stopped_on_the_way_it_is_as_it_was(removed: Frame, monkeypatch: pytest.MonkeyPatch) -> None:
    dialog = asked(removed)
    monkeypatch.setattr(turns.QApplication, "processEvents", lambda _which: dialog.reject())
    dialog.go.click()
    assert parts(removed) == 0
    assert any("stopped; nothing was changed" in told for told in removed.messages.troubles)


def test_a_small_undo_asks_nothing(frame: Frame, shop: Shop) -> None:
    fill(frame.desk.store, shop.spindle, 50)
    frame.do("undo")
    assert frame.findChild(LongStep) is None
    assert parts(frame) == 2


def test_rows_by_kind() -> None:
    touched = {"reading": 20_000, "feature": 6_000, "part": 2_500, "making_step": 9, "a": 3, "b": 2, "c": 1}
    assert rows_by_kind(touched) == (
        "28,515 rows: 20,000 reading, 6,000 feature, 2,500 part, 9 making step, 3 a, 2 b, 1 of other kinds. "
        "It is done whole or not at all."
    )
