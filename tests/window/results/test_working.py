"""The working pane: every line of a working, with its source and status, to read and to copy."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QGuiApplication
from pytestqt.qtbot import QtBot

from rebuild.trade.results.working import Sheet, Source, Status, StepKind, Working
from rebuild.window.desk.desk import Desk, ShowUnit
from rebuild.window.ink import theme
from rebuild.window.results.working import WorkingPane, as_html
from rebuild.work.machines.acts import add_machine


@pytest.fixture
def working() -> Working:
    sheet = Sheet("Bore of a nut")
    sheet.read("nominal D", "1 in < 2 in")
    sheet.table("pitch P", "0.1250 in", Source("ASME B1.1-2003", "Table 2"))
    sheet.equation("minor diameter", "D - P = 0.8750 in")
    sheet.note("Holds to 4 in.", Source("shop rule", "", Status.FROM_MEMORY))
    sheet.caution("Never gauge a turning part.")
    sheet.result("bore", "0.8750 in")
    return sheet.close()


@pytest.fixture
def pane(empty_desk: Desk, qtbot: QtBot) -> WorkingPane:
    made = WorkingPane(empty_desk)
    qtbot.addWidget(made)
    return made


def test_a_working_asked_for_anywhere_is_shown_whole(
    empty_desk: Desk, pane: WorkingPane, working: Working
) -> None:
    empty_desk.ask_working(working)
    text = pane.page.toPlainText()
    assert pane.title.text() == "Bore of a nut"
    for step in working.steps:
        assert step.kind.value in text
        assert step.label in text
        assert step.text in text
    assert "ASME B1.1-2003, Table 2 (published)" in text
    assert "shop rule (from memory)" in text


def test_results_and_cautions_are_in_heavy_type(working: Working) -> None:
    html = as_html(working, theme.LIGHT)
    assert "<b>Never gauge a turning part.</b>" in html
    cells = [row.split("</td>") for row in html.split("<tr>")[1:]]
    heavy = {cell[0].split(">")[-1] for cell in cells if "><b>" in cell[1] and cell[1].endswith("</b>")}
    assert heavy == {StepKind.RESULT.value, StepKind.CAUTION.value}


def test_the_working_is_copied_as_plain_lines(empty_desk: Desk, pane: WorkingPane, working: Working) -> None:
    assert not pane.copy_button.isEnabled()
    empty_desk.ask_working(working)
    pane.copy_button.click()
    assert QGuiApplication.clipboard().text() == working.text()


def test_signs_of_markup_are_shown_as_typed(working: Working) -> None:
    assert "1 in &lt; 2 in" in as_html(working, theme.DARK)


def test_closing_the_file_empties_the_pane(desk: Desk, qtbot: QtBot, working: Working) -> None:
    pane = WorkingPane(desk)
    qtbot.addWidget(pane)
    desk.ask_working(working)
    desk.close()
    assert pane.working is None
    assert not pane.copy_button.isEnabled()
    assert pane.title.text() == "Working"


def test_on_an_inch_machine_it_is_told_and_copied_in_inches(desk: Desk, qtbot: QtBot) -> None:
    pane = WorkingPane(desk)
    qtbot.addWidget(pane)
    sheet = Sheet("A journal")
    sheet.read("reading", "25.400 mm")
    sheet.equation("clearance", "25.425 - 25.400 = 0.025 mm")
    asked = sheet.close()
    desk.ask_working(asked)
    assert "25.400 mm" in pane.page.toPlainText()
    assert "1.0000 in" not in pane.page.toPlainText()
    desk.choose_machine(add_machine(desk.store, "Small shaper", {"unit": "in"}))
    desk.ask_working(asked)
    assert "1.0000 in (25.400 mm)" in pane.page.toPlainText()
    assert "= 0.025 mm (0.0010 in)" in pane.page.toPlainText()
    assert pane.working is asked
    pane.copy_button.click()
    assert "1.0000 in (25.400 mm)" in QGuiApplication.clipboard().text()
    desk.choose_unit(ShowUnit.MM)
    assert "1.0000 in" not in pane.page.toPlainText()
