"""The sheet of worked examples: one line for each thing the handbook works out, in its group."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QPoint
from pytestqt.qtbot import QtBot

from rebuild.trade.figures import all_figures
from rebuild.window.commands.help_sheets import HelpSheet, worked_examples
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.figures.page import FiguresPage
from rebuild.window.shell.frame import Frame
from rebuild.work.machines.acts import add_machine
from tests.conftest import Shop
from tests.window.lists.test_words_shown import MM_FIRST
from tests.window.walk import settle


def test_every_figure_stands_there_with_what_it_gives(qtbot: QtBot, desk: Desk) -> None:
    page = FiguresPage(desk)
    qtbot.addWidget(page)
    sheet = worked_examples(desk, page)
    assert isinstance(sheet, HelpSheet)
    told = sheet.text.toPlainText()
    for figure in all_figures().values():
        assert figure.title in told
        assert figure.group in told
    # Source: 60°, 40 mm base, 10 mm rollers, a public page's worked example: 67.3205 mm.
    assert "over rollers 67.3205 mm" in told
    assert "Pitch circle 100 mm, Holes 6" in told
    assert told.count("gives ") >= len(all_figures())
    assert "between neighbours 50.0000 mm = 1.96850 in" in told
    assert "hole 6, y" in told, "an example is told whole"
    assert "100 × sin(180° / 6) = 50.0000 mm" in told, "with its working"
    sheet.sought.setText("over rollers")
    sheet.find_next()
    assert sheet.text.textCursor().selectedText().lower() == "over rollers"
    sheet.close()


def test_it_opens_at_the_figure_shown_and_knows_the_shops_words(
    qtbot: QtBot, desk: Desk, tmp_path: Path
) -> None:
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.show()
    page = frame.page("figures")
    assert isinstance(page, FiguresPage)
    page.choose_topic("spring")
    sheet = worked_examples(desk, frame)
    assert isinstance(sheet, HelpSheet)
    settle(60)
    bar = sheet.text.verticalScrollBar()

    def at_the_top() -> str:
        cursor = sheet.text.cursorForPosition(QPoint(20, 14))
        return cursor.block().text()

    assert at_the_top().startswith("Coil spring"), at_the_top()
    for words, title in (("circlip", "retaining ring"), ("half moon", "Woodruff")):
        bar.setValue(0)
        sheet.sought.setText(words)
        sheet.find_next()
        settle(30)
        assert title in at_the_top(), (words, at_the_top())
    sheet.close()


def test_on_an_inch_machine_the_examples_are_in_inches(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    desk.choose_machine(add_machine(desk.store, "Small shaper", {"unit": "in"}))
    page = FiguresPage(desk)
    qtbot.addWidget(page)
    sheet = worked_examples(desk, page)
    assert isinstance(sheet, HelpSheet)
    told = sheet.text.toPlainText()
    # Source: an inch is 25.4 mm exactly: 50 mm between neighbours on a circle of 100 mm.
    assert "between neighbours 1.50000 in = 38.1000 mm" in told, "the circle of 3 in of the inch example"
    # An equation keeps its numbers; a citation stands in square brackets as it is printed.
    lines = [line.partition(" [")[0] for line in told.splitlines() if not line.startswith("equation")]
    found = [line for line in lines if MM_FIRST.search(line)]
    assert not found, found[:5]
    sheet.close()
