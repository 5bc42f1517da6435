"""A message belongs to where it arose: it ends when something went well, its field is emptied, page or file left."""

from __future__ import annotations

from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from rebuild.errors import BadEntry
from rebuild.window.desk.desk import Say
from rebuild.window.shell.frame import Frame
from rebuild.work.editing.acts import edit
from tests.conftest import Shop

_WRONG = "“abc” is not a length."


def _go_wrong(qtbot: QtBot, frame: Frame) -> None:
    def act() -> None:
        raise BadEntry("is not a length.", value="abc")

    frame.desk.attempt(act)
    qtbot.wait(5)
    assert frame.messages.troubles == [_WRONG]


def test_a_trouble_ends_with_the_next_thing_that_goes_well(qtbot: QtBot, frame: Frame, shop: Shop) -> None:
    _go_wrong(qtbot, frame)
    edit(frame.desk.store, "part", [shop.cap], {"name": "cap"})
    assert frame.messages.troubles == []
    assert not frame.messages.trouble.isVisible()


def test_an_act_that_changes_nothing_ends_it_too(qtbot: QtBot, frame: Frame) -> None:
    _go_wrong(qtbot, frame)
    frame.desk.attempt(lambda: True)
    assert frame.messages.troubles == []


def test_another_trouble_and_another_window_do_not_end_it(qtbot: QtBot, frame: Frame, shop: Shop) -> None:
    _go_wrong(qtbot, frame)
    edit(shop.store, "part", [shop.cap], {"name": "cap"})
    frame.desk.store.poll()
    frame.desk.say("The file cannot be written.", Say.TROUBLE)
    assert frame.messages.troubles == [_WRONG, "The file cannot be written."]
    frame.desk.store.keep_entry("part", "abc", _WRONG)
    qtbot.wait(900)
    assert frame.messages.troubles == [_WRONG, "The file cannot be written."], (
        "looking elsewhere ends nothing"
    )


def test_what_went_wrong_in_this_very_moment_is_not_ended_by_what_goes_well_in_it(frame: Frame) -> None:
    frame.desk.say("One of two was refused.", Say.TROUBLE)
    frame.desk.attempt(lambda: True)
    assert frame.messages.troubles == ["One of two was refused."]


def test_a_message_does_not_follow_to_another_page(qtbot: QtBot, frame: Frame) -> None:
    frame.show_page("bench")
    frame.desk.say("Removed; undo brings it back.")
    _go_wrong(qtbot, frame)
    frame.show_page("bench")
    assert frame.messages.troubles == [_WRONG], "the page was not left"
    frame.show_page("plan")
    assert frame.messages.troubles == []
    assert frame.messages.sentence == ""


def test_a_message_does_not_follow_into_another_file(qtbot: QtBot, frame: Frame, shop: Shop) -> None:
    _go_wrong(qtbot, frame)
    assert frame.files.open(shop.path)
    assert frame.messages.troubles == []
    assert frame.messages.sentence.startswith("Opened filled.rebuild.")
    frame.desk.close()
    assert frame.messages.sentence == ""


def test_a_trouble_ends_when_the_field_it_arose_in_is_emptied(qtbot: QtBot, frame: Frame) -> None:
    field = QLineEdit("abc", frame)
    field.show()
    frame.activateWindow()
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    _go_wrong(qtbot, frame)
    field.setText("ab")
    assert frame.messages.troubles == [_WRONG], "it is still wrong"
    field.clear()
    assert frame.messages.troubles == []
