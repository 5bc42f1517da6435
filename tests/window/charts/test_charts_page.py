"""The Chart page through the window: the table, an entry with its sign, limits, and the level."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester
from PySide6.QtWidgets import QToolButton
from pytestqt.qtbot import QtBot

from rebuild.window.charts.page import ChartPage
from rebuild.window.charts.table import SHAPE
from rebuild.window.desk.desk import Desk
from rebuild.words.charts import LevelWay
from rebuild.work.charts import acts as chart, acts_levelling as levelling
from rebuild.work.charts.rows_tests import ReadRow
from rebuild.work.machines.acts import add_machine


@pytest.fixture
def page(qtbot: QtBot, desk: Desk) -> ChartPage:
    made = ChartPage(desk)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    return made


def rows(page: ChartPage) -> list[tuple[str, ...]]:
    model = page.tests.table.plain
    return [model.text(row) for row in range(model.rowCount())]


def choose(page: ChartPage, number: str) -> None:
    """Choose the first position of a test by its number."""
    page.tests.table.selectRow(next(at for at, cells in enumerate(rows(page)) if cells[0] == number))


@pytest.fixture
def charted(page: ChartPage, desk: Desk) -> ChartPage:
    page.tests._buttons["usual"].click()
    return page


def test_the_usual_tests_come_with_one_press_and_the_model_is_sound(charted: ChartPage) -> None:
    QAbstractItemModelTester(charted.tests.table.plain, QAbstractItemModelTester.FailureReportingMode.Fatal)
    assert len(rows(charted)) == 22
    assert rows(charted)[0][:4] == ("1", "Bed ways", "along, vertical", "≤ 0.04 mm")
    assert charted.tests.foot.text().startswith("14 tests, 22 positions: 0 read as found")


def test_a_bare_number_offers_both_signs_and_one_press_stores_it(charted: ChartPage, qtbot: QtBot) -> None:
    choose(charted, "6")
    entry = charted.tests.panel.entry
    entry.value.setText("0.012")
    qtbot.keyClick(entry.value, Qt.Key.Key_Return)
    assert "has no sign" in entry.trouble
    assert entry.value.text() == "0.012"
    falling = next(button for button in entry.findChildren(QToolButton) if button.text() == "-0.012")
    falling.click()
    assert entry.trouble == ""
    at = next(at for at, cells in enumerate(rows(charted)) if cells[0] == "6")
    assert rows(charted)[at][5] == "-0.012 mm"
    reading = charted.tests.table.plain.index(at, 0).data(SHAPE)
    assert isinstance(reading, ReadRow)
    assert reading.says == "falling toward the free end"
    choose(charted, "6")
    assert "bar 40 x 300 mm" in entry.value.toolTip()
    entry.value.setText("0.010 rising, bar 40 x 300")
    qtbot.keyClick(entry.value, Qt.Key.Key_Return)
    assert (entry.trouble, rows(charted)[at][5]) == ("", "+0.014 mm")  # 0.010 and 3.8 µm of sag


def test_undo_returns_to_the_position_and_its_stage(charted: ChartPage, qtbot: QtBot, desk: Desk) -> None:
    """As on the bench: what was taken back is read again where it was read, and redo goes on behind it."""
    choose(charted, "6")
    here, entry = charted.tests.table.chosen(), charted.tests.panel.entry
    entry.value.setText("-0.012")
    qtbot.keyClick(entry.value, Qt.Key.Key_Return)
    there = charted.tests.table.chosen()
    assert there != here
    stage = entry.stage.currentIndex()
    entry.stage.setCurrentIndex(1 - stage)
    desk.undo()
    assert charted.tests.table.chosen() == here
    assert entry.stage.currentIndex() == stage
    assert desk.landing is not None
    assert desk.landing.row == (here,)
    desk.redo()
    assert charted.tests.table.chosen() == there
    entry.value.setText("0.0")
    desk.undo()
    assert charted.tests.table.chosen() == there, "a value half typed stays where it is typed"


def test_undo_returns_to_the_place_on_the_bed(page: ChartPage, desk: Desk) -> None:
    page.views.show_view(1)
    level = page.levelling
    place, way = level.place.currentText(), level.way.currentText()
    level.value.setText("0.02")
    level.enter()
    assert level.place.currentText() != place
    desk.undo()
    assert (level.place.currentText(), level.way.currentText()) == (place, way)


def test_a_doubtful_value_wants_enter_twice(charted: ChartPage, qtbot: QtBot) -> None:
    choose(charted, "4")
    entry = charted.tests.panel.entry
    entry.value.setText("0.254")
    qtbot.keyClick(entry.value, Qt.Key.Key_Return)
    assert "25.4 times" in entry.trouble
    qtbot.keyClick(entry.value, Qt.Key.Key_Return)
    assert entry.trouble == ""
    assert any(cells[5] == "0.254 mm" for cells in rows(charted))


def test_a_refused_text_stays_in_its_field(charted: ChartPage, qtbot: QtBot) -> None:
    choose(charted, "4")
    entry = charted.tests.panel.entry
    entry.value.setText("-0.01")
    qtbot.keyClick(entry.value, Qt.Key.Key_Return)
    assert "without a sign" in entry.trouble
    assert entry.value.text() == "-0.01"


def test_the_limit_shows_its_origin_and_can_be_replaced(charted: ChartPage, desk: Desk) -> None:
    choose(charted, "6")
    form = charted.tests.panel.limit
    assert form.status.currentText() == "one maker's record"
    form.allowed.setText("0.05 mm")
    form.allowed.setModified(True)
    form.origin.setText("own")
    form.status.setCurrentText("the owner's own")
    form.store()
    at = next(at for at, cells in enumerate(rows(charted)) if cells[0] == "6")
    assert rows(charted)[at][3] == "0…0.05 mm"
    assert "the list says 0.02 mm per 300 mm" in form.said.text()
    form.take(0)
    assert rows(charted)[at][3] == "0…0.02 mm / 300 mm"
    assert desk.store.undo_label() is not None


def test_another_windows_reading_appears(charted: ChartPage, desk: Desk) -> None:
    choose(charted, "4")
    key = charted.tests.table.chosen()
    assert key is not None
    chart.read_position(desk.store, key, "0.004")
    assert any(cells[5] == "0.004 mm" for cells in rows(charted))
    desk.undo()
    assert not any(cells[5] for cells in rows(charted))


def test_warnings_and_working_are_shown(charted: ChartPage, desk: Desk, qtbot: QtBot) -> None:
    choose(charted, "6")
    key = charted.tests.table.chosen()
    assert key is not None
    chart.read_position(desk.store, key, "+0.008")
    assert "Read before “1 Bed ways”" in charted.tests.panel.warnings.text()
    with qtbot.waitSignal(desk.working_asked) as asked:
        charted.tests._buttons["working"].click()
    assert "one maker's record" in asked.args[0].text()


def test_the_levels_unit_begins_as_the_owners(page: ChartPage, desk: Desk) -> None:
    """An inch machine was offered mm/m first."""
    page.show_view(1)
    assert page.levelling.unit.currentText() == "mm/m"
    inch = add_machine(desk.store, "Inch planer", {"unit": "in"})
    desk.choose_machine(inch)
    page.levelling.refresh()
    assert page.levelling.unit.currentText() == "in/ft"
    hint = page.levelling.division.placeholderText()
    assert hint == "as 0.0005 in/ft"
    # By hand: 0.0005 in over 12 in is 41.667 µm a metre.
    assert chart.division_of(hint.removeprefix("as "), None) == pytest.approx(41.667, abs=0.001)
    page.levelling.unit.setCurrentText("div")
    page.levelling.refresh()
    assert page.levelling.unit.currentText() == "div", "what was chosen stays"


def test_the_level_is_entered_and_judged(page: ChartPage, desk: Desk, qtbot: QtBot) -> None:
    page.show_view(1)
    assert page.levelling.above.isHidden(), "without readings there is nothing to draw"
    pane = page.levelling
    pane.place.setEditText("tailstock end")
    pane.unit.setCurrentText("div")
    pane.value.setText("2")
    qtbot.keyClick(pane.value, Qt.Key.Key_Return)
    assert "value of one is not known" in pane.trouble.text()
    assert pane.value.text() == "2"
    pane.division.setText("0.02 mm/m")
    qtbot.keyClick(pane.value, Qt.Key.Key_Return)
    assert pane.table.plain.text(0)[3] == "2 div"
    assert "Only tailstock end is read" in pane.said.text()
    assert desk.machine_id is not None
    levelling.read_level(desk.store, desk.machine_id, "headstock end", LevelWay.ACROSS, "0.01")
    assert "Twist 0.03 mm/m" in pane.said.text()


def test_inches_on_demand(charted: ChartPage, desk: Desk) -> None:
    from rebuild.window.desk.desk import ShowUnit

    desk.choose_unit(ShowUnit.IN)
    assert rows(charted)[0][3] == "≤ 0.0016 in"
