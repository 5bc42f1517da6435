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


def test_a_value_typed_past_the_question_is_its_answer(qtbot: QtBot, desk: Desk) -> None:
    """Met in use: the question could not be typed past; each value became one more way, and nothing was stored."""
    questions, field, answer, resumed, kept = asked(qtbot, desk)
    field.chosen.connect(questions.chosen)
    field.typed_on.connect(questions.typed_on)
    field.sent.connect(questions.sent_meanwhile)
    field.entered.connect(lambda _gauge: resumed.append(field.text()))
    qtbot.keyClick(field, Qt.Key.Key_1)
    assert field._idle.remainingTime() > 400, "slower than a gauge, a hand may still be typing"
    qtbot.keyClicks(field, "2")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert (field.text(), resumed, questions.open) == ("12", ["12"], False)
    assert kept == ["59.971", "599.8"], "nothing typed or sent is lost"
    questions.ask_gauge_or_typed("599.8", "59.971", "front journal")
    qtbot.keyClicks(field, "7")
    field._quiet()
    assert (field.text(), questions.open) == ("7", False), "no way has this number: a value begins with it"
    qtbot.keyClicks(field, ".5")
    assert field.text() == "7.5"
    questions.ask_gauge_or_typed("7.5", "59.971", "front journal")
    qtbot.keyClicks(field, "59.972")
    field._quiet()
    assert [way.words for way in answer.ways][-1] == "59.972 instead", "at a gauge's speed it is one more way"
    questions.close()
    questions.ask_gauge_or_typed("599.8", "59.971", "front journal")
    qtbot.keyClick(field, Qt.Key.Key_1)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert resumed[-1] == "59.971", "a digit alone answers, at once with Enter"
