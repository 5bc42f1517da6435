"""What a gauge sent while a text was in the line is never lost: left by Escape it waits for a row.

Found in a trial by a stranger: Escape threw the gauge's value away.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.entry.answer import EntryAnswer
from rebuild.window.entry.field import EntryField
from rebuild.window.entry.questions import EntryQuestions


def asked(qtbot: QtBot, desk: Desk) -> tuple[EntryQuestions, EntryField, EntryAnswer, list[str], list[str]]:
    field, answer = EntryField(), EntryAnswer()
    qtbot.addWidget(field)
    qtbot.addWidget(answer)
    resumed: list[str] = []
    kept: list[str] = []
    questions = EntryQuestions(desk, field, answer, lambda: resumed.append(field.text()), kept.append)
    field.setText("599.8")
    questions.ask_gauge_or_typed("599.8", "59.971", "front journal")
    return questions, field, answer, resumed, kept


def test_left_unanswered_the_gauges_value_is_kept(qtbot: QtBot, desk: Desk) -> None:
    questions, field, _answer, resumed, kept = asked(qtbot, desk)
    questions.close()
    assert (field.text(), resumed, kept) == ("599.8", [], ["59.971"])


def test_chosen_it_is_stored_and_not_kept_as_well(qtbot: QtBot, desk: Desk) -> None:
    _questions, _field, answer, resumed, kept = asked(qtbot, desk)
    answer.ways[0].take()
    assert (resumed, kept) == (["59.971"], [])


def test_a_value_typed_on_by_hand_answers_nothing(qtbot: QtBot, desk: Desk) -> None:
    questions, field, answer, resumed, kept = asked(qtbot, desk)
    field.chosen.connect(answer.take)
    field.sent.connect(questions.sent_meanwhile)
    qtbot.keyClick(field, Qt.Key.Key_1)
    assert field._idle.remainingTime() > 200, "slower than a gauge, a hand may still be typing"
    qtbot.keyClicks(field, "2")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert (field.text(), resumed) == ("599.8", [])
    assert [way.words for way in answer.ways][-1] == "12 instead"
    questions.close()
    assert kept == ["59.971", "12"], "nothing typed is lost"
    questions.ask_gauge_or_typed("599.8", "59.971", "front journal")
    qtbot.keyClick(field, Qt.Key.Key_1)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert resumed == ["59.971"], "a digit alone answers, at once with Enter"
