"""The Survey page: readings typed and pasted, results and plot following, set-up by dialog."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QAbstractItemModelTester, QTest
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from rebuild.trade.results.working import Working
from rebuild.window.desk.desk import Desk
from rebuild.window.surveys.new_survey import SurveyDialog
from rebuild.window.surveys.page import SurveyPage
from rebuild.words.surveys import SurveyMethod
from rebuild.work.machines.acts import add_machine
from rebuild.work.surveys.acts import add_survey, enter_run
from rebuild.work.surveys.rows import survey_data
from tests.conftest import Shop


@pytest.fixture
def survey(desk: Desk, shop: Shop) -> int:
    return add_survey(
        desk.store,
        shop.machine,
        "Bed",
        SurveyMethod.LEVEL,
        lines=["front V", "rear flat"],
        typed={"unit": "mm/m", "step": "200 mm", "allowed": "0.02 mm"},
    )


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, survey: int) -> SurveyPage:
    made = SurveyPage(desk)
    made.resize(1200, 720)
    with qtbot.waitExposed(made):
        made.show()
    return made


def test_the_model_keeps_qt_s_rules(page: SurveyPage) -> None:
    tester = QAbstractItemModelTester(page.model, QAbstractItemModelTester.FailureReportingMode.Fatal, page)
    page.refresh()
    assert tester.model() is page.model


def test_headings_leave_the_cell_in_hand(page: SurveyPage) -> None:
    table = page.table
    for place, text in enumerate(["0.04", "0.02", "-0.02"]):
        assert page.model.setData(page.model.index(place, 0), text)
    table.setCurrentIndex(page.model.index(2, 0))
    for header, section in ((table.horizontalHeader(), 1), (table.verticalHeader(), 0)):
        across = header.orientation() is Qt.Orientation.Horizontal
        at = header.sectionViewportPosition(section) + 5
        where = QPoint(at, 5) if across else QPoint(5, at)
        QTest.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=where)
        here = table.currentIndex()
        assert (here.row(), here.column()) == (2, 0)


def test_a_line_keeps_the_name_it_was_given(desk: Desk, page: SurveyPage, shop: Shop) -> None:
    made = add_survey(desk.store, shop.machine, "Ways", SurveyMethod.LEVEL, lines=["way_2, front"])
    with desk.store.read() as connection:
        page.model.show_data(survey_data(connection, made), two_runs=False, by_steps=True)
    assert page.model.headerData(0, Qt.Orientation.Horizontal) == "way_2, front"


def test_typing_down_a_line_shows_its_deviation(page: SurveyPage) -> None:
    for place, text in enumerate(["0.04", "0.02", "-0.02", "-0.04"]):
        assert page.model.setData(page.model.index(place, 0), text)
    item = page.results.topLevelItem(0)
    assert (item.text(0), item.text(1), item.text(3)) == ("front V", "12.0 µm", "convex")
    assert item.text(2) == "one run only, no instrument"
    (curve,) = page.curves.shown
    heights = [height for _along, height in curve.values]
    assert max(heights) - min(heights) == pytest.approx(12.0), "drawn in µm, as the table says"
    assert [along for along, _height in curve.values] == pytest.approx([0, 200, 400, 600, 800])
    assert page.curves.accessibleDescription() == "front V"
    assert page.curves.set.stations == pytest.approx((0, 200, 400, 600, 800))
    # The ends 0 and the middle 12 µm against the narrowest band: laid about its middle, ± 10 µm allowed.
    assert page.curves.set.band == pytest.approx((-10.0, 10.0))
    page.shown.setCurrentIndex(1)
    (metal,) = page.curves.shown
    assert metal.values[2][1] == pytest.approx(12.0)
    assert min(height for _along, height in metal.values) == 0.0
    table = page.stations
    assert [table.headerItem().text(at) for at in range(3)] == [
        "Station",
        "front V, off the line [µm]",
        "front V, to remove [µm]",
    ]
    assert [table.topLevelItem(row).text(2) for row in range(5)] == ["0.0", "8.0", "12.0", "8.0", "0.0"]


def test_bad_text_is_said_with_its_place_and_not_stored(qtbot: QtBot, page: SurveyPage, desk: Desk) -> None:
    said: list[str] = []
    desk.said.connect(lambda words, _how: said.append(words))
    assert not page.model.setData(page.model.index(0, 0), "steep")
    assert "front V, run 1, reading 1: “steep” is not a number." in said[-1]
    assert page.model.data(page.model.index(0, 0)) == ""


def test_a_column_pasted_from_a_spreadsheet_lands_in_the_run(
    page: SurveyPage, desk: Desk, survey: int
) -> None:
    QApplication.clipboard().setText("0.01\n0.02\n0.03\n")
    page.table.setCurrentIndex(page.model.index(0, 1))
    page.paste()
    with desk.store.read() as connection:
        rear = survey_data(connection, survey).lines[1]
    assert [text for text, _ in rear.runs[1]] == ["0.01", "0.02", "0.03"]


def test_undo_returns_to_the_cell(page: SurveyPage, desk: Desk) -> None:
    """As on the bench: what was taken back is read again where it was read, and redo goes on behind it."""
    page.table.setCurrentIndex(page.model.index(0, 1))
    page.take_burst("0.04")
    page.take_burst("0.05")
    assert page.table.currentIndex().row() == 2
    page.table.setCurrentIndex(page.model.index(0, 0))
    desk.undo()
    here = page.table.currentIndex()
    assert (here.row(), here.column()) == (1, 1)
    assert desk.landing is not None
    assert desk.landing.row[2] == 1
    desk.redo()
    assert page.table.currentIndex().row() == 2


def test_there_and_back_gives_closure_and_uncertainty(page: SurveyPage, desk: Desk, survey: int) -> None:
    with desk.store.read() as connection:
        line = survey_data(connection, survey).lines[0].id
    enter_run(desk.store, line, ["0.04", "0.02", "-0.02", "-0.04"])
    enter_run(desk.store, line, ["0.04", "0.03", "-0.02", "-0.04"], run=2)
    item = page.results.topLevelItem(0)
    assert item.text(6) == "-2.0 µm"
    assert item.text(2).endswith("µm (k=2.08), at least"), (
        "no instrument is named: only the repeats are known"
    )


def test_working_opens(page: SurveyPage, desk: Desk, survey: int) -> None:
    workings: list[Working] = []
    desk.working_asked.connect(workings.append)
    page.model.setData(page.model.index(0, 0), "0.04")
    page.model.setData(page.model.index(1, 0), "0.02")
    page._buttons["working"].click()
    assert "h(i+1) = h(i) + slope(i)·step" in workings[-1].text()


def test_the_dialog_makes_a_survey_and_keeps_what_was_typed_on_trouble(desk: Desk, page: SurveyPage) -> None:
    dialog = SurveyDialog(desk, None, page)
    dialog.name.setText("Cross slide")
    dialog.texts["step"].setText("a hand")
    dialog._store()
    assert "Step (bridge length): “a hand” is not a size." in dialog.trouble.text()
    assert dialog.texts["step"].text() == "a hand"
    dialog.texts["step"].setText("50 mm")
    dialog.lines.setText("left dovetail, right dovetail")
    dialog._store()
    assert dialog.survey_id is not None
    with desk.store.read() as connection:
        assert [line.name for line in survey_data(connection, dialog.survey_id).lines] == [
            "left dovetail",
            "right dovetail",
        ]
    # On an inch machine a level's figure is in/ft and the hints are in inches.
    desk.choose_machine(add_machine(desk.store, "Small shaper", {"unit": "in"}))
    inch = SurveyDialog(desk, None, page)
    assert inch.unit.currentText() == "in/ft"
    assert inch.texts["step"].placeholderText() == "e.g. 5 in"


def test_the_set_up_of_a_survey_is_edited(desk: Desk, page: SurveyPage, survey: int) -> None:
    dialog = SurveyDialog(desk, survey, page)
    assert dialog.texts["step"].text() == "200 mm"
    dialog.texts["allowed"].setText("0.03 mm")
    dialog._store()
    with desk.store.read() as connection:
        assert survey_data(connection, survey).allowed_mm == 0.03


def type_into(qtbot: QtBot, page: SurveyPage, row: int, column: int, text: str) -> None:
    page.table.edit(page.model.index(row, column))
    editor = page.table.findChild(QLineEdit)
    assert editor is not None
    editor.selectAll()
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, Qt.Key.Key_Return)


def test_a_cell_is_typed_by_keyboard(qtbot: QtBot, page: SurveyPage) -> None:
    type_into(qtbot, page, 0, 0, "0.05")
    qtbot.waitUntil(lambda: page.model.data(page.model.index(0, 0)) == "0.05", timeout=2000)


def test_a_refused_text_comes_back_in_its_cell(qtbot: QtBot, page: SurveyPage) -> None:
    type_into(qtbot, page, 0, 0, "steep")

    def reopened() -> None:
        editor = page.table.findChild(QLineEdit)
        assert editor is not None
        assert editor.text() == "steep"

    qtbot.waitUntil(reopened, timeout=2000)
