"""The Controls page: laid out, found, proved with a second Enter where the travel is another, and before power."""

from __future__ import annotations

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.trade.run_in.controls import usual_controls
from rebuild.window.controls.page import ControlsPage
from rebuild.window.desk.desk import Desk
from rebuild.words.machines import MachineKind
from rebuild.work.editing.acts import edit
from tests.conftest import Shop
from tests.window.seen import named, shown

ENTER = Qt.Key.Key_Return


def test_controls_are_laid_out_found_and_proved(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = ControlsPage(desk)
    shown(qtbot, page)
    page.usual.click()
    table = page.list.table
    assert table.plain.rowCount() == len(usual_controls(MachineKind.LATHE))
    first = table.chosen()
    assert first is not None
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    page.usual.click()
    assert said[-1] == "The usual ones are all there."
    edit(desk.store, "control", [first], {"per_turn": "20 mm", "engages": "always"})
    qtbot.keyClicks(page.how, "stiff over the last inch")
    qtbot.keyClicks(page.turn, "19.9")
    page.found_button.click()
    assert table.plain.text(0)[5] == "stiff over the last inch; a turn moved 19.900 mm"
    assert (page.how.text(), page.turn.text()) == ("", "")
    qtbot.keyClicks(page.turn, "25")
    qtbot.keyClick(page.turn, ENTER)
    assert "Proved how: is empty" in said[-1]
    qtbot.keyClicks(page.how, "other rack fitted")
    qtbot.keyClick(page.how, ENTER)
    assert "25 is not the 20.000 mm a turn should move" in said[-1]
    assert table.plain.text(0)[6] == "to be proved before power"
    assert page.how.text() == "other rack fitted"
    qtbot.keyClick(page.how, ENTER)
    assert table.plain.text(0)[6].startswith("proved ")
    assert "a turn moves: 25.000 mm" in page.told.text()
    page.again_button.click()
    assert not page.again_button.isEnabled()
    desk.undo()
    assert page.again_button.isEnabled()
    named(page)
    desk.choose_machine(None)
    assert table.plain.rowCount() == 0
