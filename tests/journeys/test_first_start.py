"""From nothing to a machine that can be measured."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from rebuild.window.commands.help_sheets import HelpSheet
from rebuild.window.readings.columns import Column
from tests.journeys.conftest import Start
from tests.journeys.hands import Hands


def add_machine(user: Hands) -> None:
    user.dialog("New machine")  # asked for by itself
    user.type("Crank shaper")
    user.tab_to("Kind")
    user.type("sha")
    user.tab_to("Model")
    user.type("16 in")
    user.tab_to("Unit of its drawings")
    user.type("in")
    user.enter()
    user.bot.waitUntil(lambda: user.frame.desk.machine_id is not None)


def add_parts(user: Hands) -> None:
    user.ctrl(Qt.Key.Key_N, shift=True)
    user.dialog("New subassembly")
    user.type("BG")
    user.press(Qt.Key.Key_Tab)
    user.type("Bull gear and crank")
    user.ctrl(Qt.Key.Key_Return)  # add it, and begin the next
    user.type("RAM")
    user.press(Qt.Key.Key_Tab)
    user.type("Ram")
    user.enter()
    user.bench.tree.view.setFocus()
    user.press(Qt.Key.Key_Home)
    user.press(Qt.Key.Key_Insert, Qt.KeyboardModifier.ShiftModifier)  # inside the bull gear
    user.dialog("New subassembly")
    user.type("CR")
    user.press(Qt.Key.Key_Tab)
    user.type("Crank")
    user.enter()
    user.ctrl(Qt.Key.Key_N)
    user.dialog("New part")
    user.type("crank pin")  # the code CR-01 stands already, the keyboard is on the name
    user.tab_to("Material")
    user.type("4140")
    user.ctrl(Qt.Key.Key_Return)
    user.type("sliding block")
    user.enter()


def add_features(user: Hands) -> None:
    user.bench.tree.find_part()
    user.type("crank pin")
    user.enter()  # from the filter onto the part found
    user.ctrl(Qt.Key.Key_E)
    user.dialog("New feature")
    user.type("journal")
    user.tab_to("Spec")
    user.type("1.2495 +0/-.001")
    user.tab_to("Spec from")
    user.type("dra")
    user.tab_to("Stations")
    user.type("near, far")
    user.ctrl(Qt.Key.Key_Return)
    user.type("runout")
    user.tab_to("Kind")
    user.type("runout")
    user.tab_to("Spec")
    user.type("max 3 tenths")
    user.enter()


def add_instrument(user: Hands) -> None:
    user.ctrl(Qt.Key.Key_I)
    user.dialog("Instruments")
    user.tab_to("New…")
    user.press(Qt.Key.Key_Space)
    user.dialog("New instrument")
    user.type("Mic 1-2 in")
    user.tab_to("Kind")
    user.type("outside")
    user.tab_to("Resolution")
    user.type("0.0001 in")
    user.tab_to("Maximum permissible error")
    user.type("0.0001 in")
    user.enter()
    user.dialog("Instruments")
    user.press(Qt.Key.Key_Escape)


def test_a_new_file_and_everything_in_it_by_keyboard_alone(start: Start, tmp_path: Path) -> None:
    """First start, nothing but keys.

    1. The first page offers new, open and the demo; the keyboard is on New. Enter, the file's name, Enter.
    2. The machine is asked for at once: a crank shaper drawn in inches; the cursor is then in the tree.
    3. Ctrl+Shift+N: two subassemblies; Shift+Ins in the tree: one inside the first.
    4. Ctrl+N: two parts, the code given by itself; Ctrl+Enter begins the next.
    5. Ctrl+F finds the crank pin, Enter goes onto it; Ctrl+E: a journal with spec, origin and two stations,
       and a runout with one limit typed in tenths.
    6. Ctrl+I: a micrometer with its limit of error.
    7. Ctrl+T: a first step. Closed and opened again, everything is there, and the instrument can be chosen.
    """
    user = start()
    path = tmp_path / "shaper.rebuild"
    assert user.frame.start.isVisible()
    assert user.focus().accessibleName() == "New file"
    user.name_a_file(path, user.enter)
    assert path.exists()

    add_machine(user)
    add_parts(user)
    add_features(user)
    add_instrument(user)
    user.ctrl(Qt.Key.Key_T)
    user.dialog("New step")
    user.type("Draw the crank pin out")
    user.enter()
    user.press(Qt.Key.Key_Escape)
    user.ctrl(Qt.Key.Key_Q)

    again = start(path)
    again.frame.show_page("bench")
    again.bench.tree.view.expandAll()
    assert again.frame.header.machines.currentText() == "Crank shaper"
    lines = again.tree_lines()
    assert [line.split("  ")[0] for line in lines if line.startswith(("BG", "RAM", "CR"))]
    assert any("CR-01" in line and "crank pin" in line for line in lines)
    assert any("CR-02" in line and "sliding block" in line for line in lines)
    assert again.cell("CR-01", "journal", "near", Column.SPEC) == "1.2495 +0/-.001"
    assert again.cell("CR-01", "journal", "far", Column.UNIT) == "in"
    assert again.cell("CR-01", "runout", "", Column.SPEC) == "max 3 tenths"
    offered = again.line.controls.instrument
    assert offered.itemText(1).startswith("Mic 1-2 in")
    again.bench.tree.find_part()
    again.type("crank pin")
    again.enter()
    assert again.step_titles() == ["Draw the crank pin out"]
    again.frame.close()


def test_a_file_that_is_not_ours_is_refused_on_the_first_page(start: Start, tmp_path: Path) -> None:
    """Opening the wrong file: the first page says what is wrong and stays; nothing is written to it."""
    wrong = tmp_path / "notes.rebuild"
    wrong.write_text("bull gear: 42 teeth\n")
    user = start()
    user.tab_to("Open a file")
    user.name_a_file(wrong, lambda: user.press(Qt.Key.Key_Space))
    assert "notes.rebuild" in user.frame.start.sentence
    assert user.frame.start.isVisible()
    assert wrong.read_text() == "bull gear: 42 teeth\n"
    assert QApplication.activeModalWidget() is None


@pytest.mark.parametrize(
    ("title", "words"),
    [
        ("Keys", ("Ctrl+M", "Alt+Up", "Space", "tick off", "take the last reading back")),
        ("Cautions", ("Slings", "Defers to:", "Local", "from memory")),
        ("Limits of use", ("codes of your place", "licensed", "caution stands beside the step")),
    ],
)
def test_help_can_be_read_before_any_file_is_open(start: Start, title: str, words: tuple[str, ...]) -> None:
    """Help on the first page: F1 lists every key; the cautions say to whom they defer; so do the limits of use."""
    user = start()
    if title == "Keys":
        user.press(Qt.Key.Key_F1)
    else:
        user.menu("Help", title)
    shown = user.dialog("Keys and words" if title == "Keys" else title)
    assert isinstance(shown, HelpSheet)
    read = shown.text.toPlainText().lower()
    assert [word for word in words if word.lower() not in read] == []
    user.press(Qt.Key.Key_Escape)
    assert not shown.isVisible()
