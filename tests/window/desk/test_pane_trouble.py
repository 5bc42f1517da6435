"""A pane's sentence of trouble stands no longer than its cause."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLineEdit, QStackedWidget, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from rebuild.errors import BadEntry
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.work.editing import acts as edit
from rebuild.work.machines.acts import add_machine
from tests.conftest import Shop

REFUSED = BadEntry("is not a number.", where="Minute", value="soon")


class Pane(QWidget):
    """A word, two fields and what is wrong with them, on a page of two."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.word, self.minute, self.celsius = QComboBox(), QLineEdit(), QLineEdit()
        self.word.addItems(["one", "two"])
        self.minute.setAccessibleName("Minute")
        self.trouble = PaneTrouble(desk, (self.word, self.minute, self.celsius), self)
        layout = QVBoxLayout(self)
        for widget in (self.word, self.minute, self.celsius, self.trouble):
            layout.addWidget(widget)

    def refuse(self) -> None:
        self.minute.setText("soon")
        self.celsius.setText("20")
        self.trouble.tell(REFUSED)
        assert self.trouble.isVisible()
        assert self.trouble.text() == "▸ Minute: “soon” is not a number."


@pytest.fixture
def pages(qtbot: QtBot, desk: Desk) -> QStackedWidget:
    stack = QStackedWidget()
    stack.addWidget(Pane(desk))
    stack.addWidget(QWidget())
    qtbot.addWidget(stack)
    with qtbot.waitExposed(stack):
        stack.show()
    return stack


def test_it_ends_with_its_cause_and_not_before(
    pages: QStackedWidget, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    pane = pages.widget(0)
    assert isinstance(pane, Pane)
    trouble = pane.trouble
    other = add_machine(desk.store, "Small shaper")

    def stored() -> None:
        edit.edit(desk.store, "part", [shop.cap], {"material": f"GG-{desk.turn}"})

    ends: tuple[Callable[[], object], ...] = (
        pane.minute.clear,
        lambda: pane.word.activated.emit(1),
        lambda: qtbot.keyClick(pane.celsius, Qt.Key.Key_Escape),
        lambda: pane.minute.setText("5"),
        lambda: pages.setCurrentIndex(1),
        lambda: desk.choose_machine(other),
        desk.close,
    )
    for end in ends:
        pages.setCurrentIndex(0)
        pane.refuse()
        if desk.is_open:
            stored()
            pane.celsius.clear()
            assert trouble.text(), "something else was stored or emptied; this is still wrong"
        end()
        assert not trouble.text()
        assert not trouble.isVisible()
