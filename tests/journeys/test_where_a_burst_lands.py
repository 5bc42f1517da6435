"""Where a gauge's value lands, by surface and state: whole, in one place, and never where nobody looks.

Each value is counted through the whole file and every field that can be seen: it must be found once and nowhere in
pieces. Source: none, ours; what gauges send as keyboards is common practice.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from tests.conftest import Shop
from tests.journeys.hands import Hands
from tests.journeys.test_landing import in_tree, typed, waiting

SENT = ("59.98", "-0.02", "0.6369 over 0.0645 wires", "1 1/4", "25,4 mm")
ENDS = ("\r", "\n", "\t", "\r\n")
#: Pages without a row in hand. With the keyboard in a field of theirs the eye is there, and what comes is the field's.
PAGES = ("where", "teardown", "decide", "making", "survey", "chart", "run-in")


def stored(user: Hands) -> list[str]:
    with user.frame.desk.store.read() as connection:
        return [row[0] for row in connection.exec_driver_sql("SELECT typed FROM reading ORDER BY id")]


def written() -> list[str]:
    """The text of every field that can be seen."""
    fields = [one for one in QApplication.allWidgets() if one.isVisible()]
    return [
        text
        for one in fields
        if (
            text := one.text()
            if isinstance(one, QLineEdit)
            else one.toPlainText()
            if isinstance(one, QPlainTextEdit)
            else ""
        )
    ]


def send(user: Hands, sent: str, end: str) -> str:
    """Send a value; where it is found now, once and whole."""
    before = {"read": stored(user), "kept": waiting(user), "written": written()}
    user.gauge(sent + end)
    after = {"read": stored(user), "kept": waiting(user), "written": written()}
    found = [where for where in after if after[where].count(sent) > before[where].count(sent)]
    pieces = [
        text for text in after["written"] if text != sent and text in sent and text not in before["written"]
    ]
    told = (user.frame.page_shown, sent, end, found, pieces, str(QApplication.focusWidget()), user.said)
    assert (len(found), pieces) == (1, []), told
    assert len(after["read"]) + len(after["kept"]) - len(before["read"]) - len(before["kept"]) <= 1
    return found[0]


def let_go(user: Hands) -> None:
    """Leave what is asked or half typed in the line."""
    user.line.focus_entry()
    for _ in range(3):
        user.press(Qt.Key.Key_Escape)
    assert user.line.field.text() == ""


def no_row(user: Hands, shop: Shop) -> None:
    user.frame.show_page("bench")
    user.frame.desk.choose(subassembly_id=shop.headstock, part_ids=(), key=None)


def row(user: Hands, shop: Shop) -> None:
    no_row(user, shop)
    in_tree(user, "spindle")


def test_a_value_is_whole_in_one_place_from_every_surface(hands: Hands, shop: Shop) -> None:
    user = hands
    bench: dict[str, Callable[[], QWidget]] = {
        "tree": lambda: user.bench.tree.view,
        "grid": lambda: user.grid.view,
        "steps": lambda: user.steps.view,
        "how many readings": lambda: user.line.controls.repeats,
        "line": lambda: user.line.field,
    }
    for name, widget in bench.items():
        for sent, end in zip(SENT[::2], ENDS[:3], strict=True):
            row(user, shop)
            if widget().isEnabled():
                widget().setFocus()
            told = user.lands_on
            assert send(user, sent, end) in ("read", "written"), (name, told)
            if user.line.field.text():
                let_go(user)
    no_row(user, shop)
    for sent, end in zip(SENT, (*ENDS, "\r"), strict=True):
        user.bench.tree.view.setFocus()
        assert send(user, sent, end) == "kept"
    row(user, shop)
    user.press(Qt.Key.Key_F3)
    assert send(user, "40.01", "\r") == "written", "the find line looks for it"
    user.grid.view.setFocus()
    for at, key in enumerate(PAGES):
        user.frame.show_page(key)
        field, sent, end = QApplication.focusWidget(), SENT[at % len(SENT)], ENDS[at % len(ENDS)]
        assert send(user, sent, end) == ("written" if isinstance(field, QLineEdit) else "kept"), (
            key,
            sent,
            end,
        )
        if isinstance(field, QLineEdit):
            field.clear()


def test_past_a_dialog_a_value_waits_and_in_a_field_of_it_it_is_written(hands: Hands, shop: Shop) -> None:
    user = hands
    row(user, shop)
    asked = QDialog(user.frame)
    asked.setWindowTitle("Which file?")
    asked.setModal(True)
    column = QVBoxLayout(asked)
    button, name = QPushButton("Cancel", asked), QLineEdit(asked)
    button.setAutoDefault(False)
    for widget in (button, name):
        column.addWidget(widget)
    asked.open()
    user.dialog("Which file?")
    for sent, end in zip(SENT, (*ENDS, "\r"), strict=True):
        button.setFocus()
        assert send(user, sent, end) == "kept", (sent, end)
        name.setFocus()
        assert send(user, sent, end) == "written", (sent, end)
        name.clear()
    asked.close()
    user.come_forward()
    assert stored(user) == []


def test_a_value_sent_while_a_question_is_open_and_no_row_is_in_hand_waits(hands: Hands, shop: Shop) -> None:
    """Met in the table: it became one more way of the question of a row that nobody looked at any more."""
    user = hands
    row(user, shop)
    user.bench.tree.view.setFocus()
    user.gauge("24.98\r")
    assert "far from" in user.answer
    user.gauge("59.96\r")
    assert "The gauge sent “59.96” while “24.98” was in the line" in user.answer
    no_row(user, shop)
    user.bench.tree.view.setFocus()
    assert user.lands_on == "Choose a row"
    assert send(user, "59.98", "\r") == "kept"
    assert "59.98" not in user.answer
    in_tree(user, "spindle")
    user.gauge("59.97\r")
    assert "59.97 instead" in [way.words for way in user.line.answer.ways] or "59.97" in user.answer
    let_go(user)
    assert waiting(user) == ["59.98", "59.96", "59.97"]
    assert typed(user.frame.desk.store, shop.journal, shop.near) == []
