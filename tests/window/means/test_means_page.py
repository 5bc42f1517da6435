"""The Means page and the dialog of a step: what is lacking is come by with a press; the step that waits says so."""

from __future__ import annotations

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.means.page import MeansPage
from rebuild.window.means.step_dialog import StepMeansDialog
from rebuild.window.steps.pane import TaskList
from rebuild.work.steps.rows import tasks
from tests.conftest import Shop
from tests.window.seen import named, shown

ENTER = Qt.Key.Key_Return


def test_a_step_names_what_it_needs_and_the_page_offers_ways(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = MeansPage(desk)
    shown(qtbot, page)
    assert page.list.table.plain.rowCount() == 0
    assert not any(button.isEnabled() for button in page.buttons.values())
    with desk.store.read() as connection:
        step = next(row for row in tasks(connection, shop.machine) if row.id == shop.remake)
    dialog = StepMeansDialog(desk, step, page)
    qtbot.keyClicks(dialog.name, "boring bar")
    qtbot.keyClicks(dialog.note, "bush bore")
    qtbot.keyClick(dialog.note, ENTER)
    assert dialog.table.plain.text(0) == ("boring bar", "the shop has none", "bush bore")
    qtbot.keyClicks(dialog.name, "Boring bar")
    qtbot.keyClick(dialog.name, ENTER)
    assert "named by this step already" in dialog.trouble.text()
    assert dialog.name.text() == "Boring bar"
    named(dialog)
    dialog.close()
    assert page.list.table.plain.text(0)[:4] == ("boring bar", "tool", "the shop has none", "1")
    assert page.said.text() == "1 means, 1 not here, 1 of them named by open steps"
    assert page.steps.plain.text(0) == ("Make a new cap", "open", "bush bore", "Toolroom lathe")
    page.buttons["make"].click()
    assert page.list.table.plain.text(0)[2] == "to be made first: “Make boring bar”"
    assert not page.buttons["make"].isEnabled()
    desk.undo()
    page.buttons["buy"].click()
    assert page.list.table.plain.text(0)[2] == "on the list of what to order, not ordered yet"
    page.buttons["back"].click()
    assert page.list.table.plain.text(0)[2] == "in the shop"
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    page.buttons["lend"].click()
    assert "To whom: is empty" in said[-1]
    qtbot.keyClicks(page.who, "neighbour")
    page.buttons["lend"].click()
    assert page.list.table.plain.text(0)[2] == "lent to neighbour"
    steps = TaskList(desk)
    shown(qtbot, steps)
    desk.choose(subassembly_id=shop.headstock, part_ids=(), task_ids=())
    line = steps.model.line(steps.model.row_of(shop.remake))
    assert line is not None
    assert line.about.endswith("needs boring bar: lent to neighbour")
    page.line.setFocus()
    qtbot.keyClicks(page.line, "boring BAR")
    qtbot.keyClick(page.line, ENTER)
    assert "on the list already" in said[-1]
    assert page.line.text() == "boring BAR"
    named(page)
