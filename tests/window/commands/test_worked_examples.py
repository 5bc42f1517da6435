"""The sheet of worked examples: one line for each thing the handbook works out, in its group."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from rebuild.trade.figures import all_figures
from rebuild.window.commands.help_sheets import HelpSheet, worked_examples
from rebuild.window.desk.desk import Desk
from rebuild.window.figures.page import FiguresPage


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
    sheet.find.setText("over rollers")
    sheet.find_next()
    assert sheet.text.textCursor().selectedText().lower() == "over rollers"
    sheet.close()
