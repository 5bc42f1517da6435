"""Everything is created from an empty file with the keyboard alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QWidget,
)
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.memory import Memory
from rebuild.window.shell.frame import Frame
from rebuild.words.decisions import Decision
from rebuild.words.readings import SpecOrigin
from rebuild.work.machines import rows_parts as part_sheet, rows_tree as tree
from rebuild.work.records import rows as record


class Keyboard:
    """Nothing but keys, sent to whatever has the focus."""

    def __init__(self, qtbot: QtBot, frame: Frame) -> None:
        self._bot = qtbot
        self._frame = frame

    def press(self, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self._bot.keyClick(self._focus(), key, modifier)

    def control(self, key: Qt.Key, *, shift: bool = False) -> None:
        more = Qt.KeyboardModifier.ShiftModifier if shift else Qt.KeyboardModifier.NoModifier
        self.press(key, Qt.KeyboardModifier.ControlModifier | more)

    def type(self, text: str) -> None:
        self._bot.keyClicks(self._focus(), text)

    def tab_to(self, name: str, most: int = 60) -> None:
        for _ in range(most):
            if self._focus().accessibleName() == name:
                return
            self.press(Qt.Key.Key_Tab)
        pytest.fail(f"Tab never reached {name}")

    def dialog(self, title: str) -> None:
        def there() -> bool:
            active = QApplication.activeWindow()
            return isinstance(active, QDialog) and active.windowTitle() == title

        self._bot.waitUntil(there)

    def _focus(self) -> QWidget:
        if QApplication.activeWindow() is None:
            # Offscreen there is no window manager to give the keyboard back when a dialog closes.
            with self._bot.waitActive(self._frame):
                self._frame.activateWindow()
        focus = QApplication.focusWidget() or QApplication.activeWindow()
        assert focus is not None
        return focus


def test_everything_is_created_from_an_empty_file_with_the_keyboard_alone(
    qapp: QApplication, project: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    desk = Desk()
    desk.open(project)
    frame = Frame(desk, Memory(tmp_path / "window.ini"))
    frame.show()
    with qtbot.waitActive(frame):
        frame.activateWindow()
    keys = Keyboard(qtbot, frame)

    keys.control(Qt.Key.Key_M)
    keys.dialog("New machine")
    keys.type("Crank shaper")
    keys.tab_to("Kind")
    keys.type("sha")
    keys.tab_to("Unit of its drawings")
    keys.type("in")
    keys.press(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.machine_id is not None)

    keys.control(Qt.Key.Key_N, shift=True)
    keys.dialog("New subassembly")
    keys.type("BG")
    keys.press(Qt.Key.Key_Tab)
    keys.type("Bull gear")
    keys.press(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.selection.subassembly_id is not None)

    keys.control(Qt.Key.Key_N)
    keys.dialog("New part")
    keys.type("crank pin")  # the code BG-01 stands already; the keyboard is on the name
    keys.control(Qt.Key.Key_Return)  # add, and the next
    keys.type("sliding block")
    keys.tab_to("Material")
    keys.type("SAE 660")
    keys.press(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(desk.selection.part_ids) == 1)

    keys.control(Qt.Key.Key_E)
    keys.dialog("New feature")
    keys.type("bore")
    keys.tab_to("Kind")
    keys.type("bore")
    keys.tab_to("Spec")
    keys.type("1.2500-1.2510")
    keys.tab_to("Spec from")
    keys.type("dra")
    keys.tab_to("Stations")
    keys.type("near, far")
    keys.press(Qt.Key.Key_Return)

    keys.control(Qt.Key.Key_T)
    keys.dialog("New step")
    keys.type("Measure the block")
    keys.press(Qt.Key.Key_Return)

    keys.control(Qt.Key.Key_D)
    keys.dialog("Decide")
    keys.tab_to("Decision")
    keys.type("remake")
    keys.tab_to("Reason")
    keys.type("worn oval")
    keys.control(Qt.Key.Key_Return)

    keys.control(Qt.Key.Key_P)
    keys.dialog("Put away")
    keys.tab_to("Or a new place")
    keys.type("7")
    keys.press(Qt.Key.Key_Return)

    with desk.store.read() as connection:
        (machine,) = tree.machines(connection)
        (group,) = tree.subassemblies(connection, machine.id)
        parts = tree.parts(connection, machine.id)
        block = parts[1]
        ((feature_id, feature),) = part_sheet.features(connection, block.id)
        fields = record.card(connection, "feature", feature_id).fields
        spec = part_sheet.spec_of_feature(connection, feature_id)
        reason = record.card(connection, "part", block.id).fields["decision_reason"]
    assert (machine.name, machine.kind.value, machine.unit) == ("Crank shaper", "shaper", "in")
    assert (group.code, group.name, group.tasks) == ("BG", "Bull gear", 1)
    assert [(part.code, part.name) for part in parts] == [("BG-01", "crank pin"), ("BG-02", "sliding block")]
    assert (block.decision, block.place, reason) == (Decision.REMAKE, "tote 7", "worn oval")
    assert (feature, fields["kind"], fields["spec_origin"]) == ("bore", "bore", SpecOrigin.DRAWING.value)
    assert spec == ("1.2500-1.2510", "in")
    assert len(desk.selection.part_ids) == 1
    frame.close()
