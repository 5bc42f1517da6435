"""A pane's sentence of trouble stands no longer than its cause."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLineEdit, QStackedWidget, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

import rebuild.window
from rebuild.errors import BadEntry
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.means.step_dialog import StepMeansDialog
from rebuild.window.plan.evening import EveningRow
from rebuild.window.steps.constraint_dialog import ConstraintDialog
from rebuild.window.surveys.new_survey import SurveyDialog
from rebuild.words.steps import ConstraintKind
from rebuild.work.editing import acts as edit
from rebuild.work.machines.acts import add_machine
from rebuild.work.records.acts_settings import set_decimal_comma
from rebuild.work.steps.rows import tasks
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


#: Where a sentence of trouble is set otherwise, and why.
_ELSEWHERE = {
    "desk/pane_trouble.py": "the owner",
    "figures/result.py": "a result with its cautions, replaced by the next result",
    "steps/tick_panel.py": "the why of a refused tick with its ways out, kept for the next try",
}


def test_what_is_wrong_under_fields_has_one_owner() -> None:
    top = Path(rebuild.window.__file__).parent
    by_hand = {
        path.relative_to(top).as_posix()
        for path in top.rglob("*.py")
        if re.search(r"trouble\.setText\(|self\.setText\(f\"▸ \{trouble\}", path.read_text(encoding="utf-8"))
    }
    assert by_hand == set(_ELSEWHERE)


def test_tonight_reads_its_time_as_the_file_reads_a_comma(desk: Desk, qtbot: QtBot) -> None:
    pane = EveningRow(desk)
    qtbot.addWidget(pane)
    pane.show()
    pane.minutes.setText("1,500 h")
    assert pane.tonight() is None, "it may be one and a half or fifteen hundred"
    assert pane.trouble.isVisible()
    set_decimal_comma(desk.store, True)
    tonight = pane.tonight()
    assert tonight is not None
    assert tonight.minutes == 90
    pane.minutes.setText("90 min")
    assert pane.tonight() is not None
    assert not pane.trouble.isVisible()


def test_a_dialogs_trouble_is_over_with_its_cause(desk: Desk, shop: Shop, qtbot: QtBot) -> None:
    with desk.store.read() as connection:
        row = next(row for row in tasks(connection, shop.machine) if row.id == shop.refit)
    host = QWidget()
    qtbot.addWidget(host)
    means = StepMeansDialog(desk, row, host)
    means.show()
    means.add()
    assert means.trouble.isVisible()
    means.name.setText("a hook spanner")
    assert not means.trouble.isVisible()
    rest = ConstraintDialog(desk, row, host)
    rest.show()
    rest.kind.setCurrentIndex(rest.kind.findData(ConstraintKind.CURE))
    rest.rest.setText("a day")
    rest.add()
    assert rest._trouble.isVisible()
    rest.rest.setText("2 h")
    assert not rest._trouble.isVisible()
    survey = SurveyDialog(desk, None, host)
    survey.show()
    survey.name.setText("Bed")
    survey.texts["step"].setText("a hand")
    survey._store()
    assert "a hand" in survey.trouble.text()
    survey.texts["step"].setText("100 mm")
    assert not survey.trouble.isVisible()
