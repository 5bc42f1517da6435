"""Bench log, questions and history: each shows the store and writes through the acts."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.log import history
from rebuild.window.log.bench_log import BenchLogPage
from rebuild.window.log.history import HistoryPage
from rebuild.window.log.questions import QuestionsPage
from rebuild.words.log import QuestionState
from rebuild.work.editing.acts import edit
from rebuild.work.log.rows import log, questions
from rebuild.work.readings.acts import Entry, record_reading, strike_reading
from rebuild.work.records import rows_history
from rebuild.work.records.field import show_day, show_moment
from tests.conftest import Shop
from tests.window.seen import shown


def test_bench_log_stores_a_session_typed_by_keyboard(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = BenchLogPage(desk)
    shown(qtbot, page)
    page.fields.show_texts({"did": "Wired the wicks", "hours": "1.5", "temperature_c": "4 C"})
    qtbot.keyClick(page, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    with desk.store.read() as connection:
        newest = log(connection, shop.machine)[0]
    assert (newest.did, newest.hours, newest.temperature_c) == ("Wired the wicks", 1.5, 4.0)


def test_bench_log_keeps_what_was_typed_when_a_field_is_wrong(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = BenchLogPage(desk)
    shown(qtbot, page)
    page.fields.show_texts({"did": "Wired the wicks", "hours": "an hour"})
    page.store()
    assert page.fields.typed()["hours"] == "an hour"
    assert "Hours: “an hour” is not an amount." in page.fields._troubles["hours"].text()
    with desk.store.read() as connection:
        assert len(log(connection, shop.machine)) == 1


def test_bench_log_does_not_leave_a_half_written_session(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = BenchLogPage(desk)
    shown(qtbot, page)
    page.fields.show_texts({"did": "half a"})
    page.sessions.setCurrentRow(0)
    assert page.fields.typed()["did"] == "half a"


def test_a_question_is_asked_and_answered(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = QuestionsPage(desk)
    shown(qtbot, page)
    qtbot.keyClicks(page._new, "Is the 5/8 hole for oil?")
    qtbot.keyClick(page._new, Qt.Key.Key_Return)
    page.list.setCurrentItem(page.list.topLevelItem(0))
    page._answer.setPlainText("Yes, it reaches the wick.")
    page._known.click()
    with desk.store.read() as connection:
        found = {row.text: row for row in questions(connection, shop.machine)}
    assert found["Is the 5/8 hole for oil?"].state is QuestionState.ANSWERED
    assert found["Is the 5/8 hole for oil?"].answer == "Yes, it reaches the wick."


def test_kept_entries_show_until_dealt_with(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    desk.store.keep_entry("HS-01 spindle, note", "typed here", "another window was first")
    page = QuestionsPage(desk)
    shown(qtbot, page)
    item = page.kept.topLevelItem(0)
    assert item is not None
    assert item.text(2) == "typed here"
    item.setSelected(True)
    page._settle.click()
    assert page.kept.topLevelItemCount() == 0


def test_history_names_acts_and_undo_marks_one(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    edit(desk.store, "part", [shop.spindle], {"condition": "scored"})
    page = HistoryPage(desk)
    shown(qtbot, page)
    assert page.table.plain.text(0)[1] == "edit of condition on HS-01 spindle"
    page._undo.click()
    assert page.table.plain.text(0)[1] == "undo edit of condition on HS-01 spindle"
    assert page.table.plain.text(1)[2] == "undone"
    assert page._redo.text() == "Redo edit of condition on HS-01 spindle"
    struck = [page.table.plain.index(row, 1).data(Qt.ItemDataRole.FontRole) for row in (0, 1)]
    assert struck[0] is None
    assert struck[1].strikeOut()


def test_the_search_of_the_history_looks_through_every_act(
    qtbot: QtBot, desk: Desk, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(history, "MOST", 3)
    oldest = rows_history.acts(desk.store, most=10_000)[-1]
    page = HistoryPage(desk)
    shown(qtbot, page)
    assert page.table.plain.rowCount() == 3
    assert oldest.act_id not in page.table.plain.ids
    assert page.more.text().startswith("The newest 3 of ")
    page._find.setText(oldest.label.upper())
    qtbot.waitUntil(lambda: oldest.act_id in page.table.plain.ids)
    page._find.setText("100%_!")
    qtbot.waitUntil(lambda: page.table.plain.rowCount() == 0)
    assert page.more.text() == "No act has these words."


def test_an_act_stored_under_an_older_word_is_told_by_todays(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    """The journal keeps what kind of act it was; its word is given when it is shown, and history stays as it is."""
    taken = record_reading(desk.store, "59.98", Entry(shop.journal, shop.near))
    strike_reading(desk.store, taken.reading_id, "on a burr")
    page = HistoryPage(desk)
    shown(qtbot, page)
    assert page.table.plain.text(0)[1] == "deleted reading 59.98: on a burr"
    assert page._undo.text() == "Undo deleted reading 59.98: on a burr"
    page._find.setText("deleted reading")
    page._list()
    assert page.table.plain.rowCount() == 1
    with desk.store.read() as connection:
        kind = connection.exec_driver_sql("SELECT kind FROM act ORDER BY id DESC").scalar()
    assert kind == "STRIKE_READING"


def test_a_day_said_in_the_bench_log_tells_the_exact_moment_on_hover(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    page = BenchLogPage(desk)
    shown(qtbot, page)
    with desk.store.read() as connection:
        newest = log(connection, shop.machine)[0]
    item = page.sessions.item(0)
    assert item is not None
    assert item.text().startswith(show_day(newest.at))
    assert show_moment(newest.at) in item.toolTip()
