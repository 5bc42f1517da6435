"""Worn-part readings at the bench: typed and sent by a gauge, held, asked about, judged, struck, taken back."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QPushButton

from rebuild.window.ink.shapes import Shape
from rebuild.window.readings.columns import Column
from tests.conftest import Shop
from tests.journeys.conftest import Start
from tests.journeys.hands import CTRL, Hands

JOURNAL = ("HS-01", "front journal")


def take_instrument(user: Hands, name: str) -> None:
    """Choose an instrument in the entry line by the keyboard: Alt+I, then its first letters."""
    user.alt(Qt.Key.Key_I)
    user.type(name)
    assert user.line.controls.instrument.currentText().startswith(name)


def test_a_run_of_readings_during_teardown(hands: Hands, start: Start, shop: Shop) -> None:
    """Teardown: the spindle comes out and is measured.

    1. Ctrl+F finds the spindle; Enter goes onto it; the entry line shows its front journal, near, as found.
    2. Alt+I and "Mic" take the micrometer, Ctrl+Enter in the grid goes into the line.
    3. 59.985 Enter is stored; the line moves on to *far* by itself. There "59,980" could be two things: the line
       asks, key 1 answers, nothing is lost.
    4. The keyboard is in the grid when the gauge sends .0035 for the lost motion: that is outside the range of the
       micrometer named, and asked about. With no instrument named it lands on the line and is stored. Alt+A goes
       back to that row; the gauge sends .035, ten times the last, and it is held. Esc goes back to the text, Esc
       clears it.
    5. Three readings are asked for (Alt+D); the gauge sends three; their mean is stored.
    6. The grid shows each value as found beside its spec, off by how much, the verdict as word and shape, the zone.
    7. Del on a cell strikes the reading with a reason. Edit > Undo by the mouse brings it back, Edit > Redo
       strikes it again, Ctrl+Z brings it back.
    8. The window closes and opens again: every reading is there.
    """
    user = hands
    user.bench.tree.find_part()
    user.type("spindle")
    user.enter()
    user.frame.stack.next_pane()
    assert user.lands_on == "HS-01 spindle  ·  front journal  ·  near  ·  as found"
    take_instrument(user, "Mic")
    user.grid.view.setFocus()
    user.ctrl(Qt.Key.Key_Return)
    assert user.focus().accessibleName() == "Reading"

    user.person("59.985\r")
    assert user.lands_on.startswith("HS-01 spindle  ·  front journal  ·  far")
    assert user.answer.startswith("59.985 mm (2.3616 in).  Undecided")
    assert "too coarse" in user.answer
    user.person("59,980\r")
    assert [way.words.split(" ")[0] for way in user.line.answer.ways][:2] == ["59.980", "59980"]
    assert user.line.field.text() == "59,980", "the text stays while it asks"
    user.person("1")
    user.bot.waitUntil(lambda: not user.line.answer.ways)
    assert user.lands_on.startswith("HS-02 bearing cap  ·  lost motion")

    user.grid.view.setFocus()
    user.gauge(".0035\r")
    assert "outside the range of Micrometer 50-75" in user.answer, "no micrometer of that size reads it"
    user.press(Qt.Key.Key_Escape)
    user.press(Qt.Key.Key_Escape)
    user.alt(Qt.Key.Key_I)
    user.press(Qt.Key.Key_Home)
    user.grid.view.setFocus()
    user.gauge(".0035\r")
    assert user.cell("HS-02", "lost motion", "", Column.AS_FOUND) == ".0035"
    user.alt(Qt.Key.Key_A)
    user.bot.waitUntil(lambda: "lost motion" in user.lands_on)  # a button is seen to go down first
    user.gauge(".035\r")
    assert "a decimal place?" in user.answer
    assert user.line.answer.mark.shape is Shape.ASKED
    assert user.cell("HS-02", "lost motion", "", Column.AS_FOUND) == ".0035"
    user.press(Qt.Key.Key_Escape)
    assert user.line.field.text() == ".035", "the text stays"
    user.press(Qt.Key.Key_Escape)

    user.alt(Qt.Key.Key_D)
    user.replace("3")
    user.line.focus_entry()
    for text in (".0035\r", ".0037\r", ".0036\r"):
        user.gauge(text)
    assert user.cell("HS-02", "lost motion", "", Column.AS_FOUND) == "0.0036"

    assert user.cell(*JOURNAL, "near", Column.SPEC) == "60 -0.010/-0.029"
    assert user.cell(*JOURNAL, "near", Column.AS_FOUND) == "59.985"
    assert user.cell(*JOURNAL, "near", Column.VERDICT) == "undecided"
    assert user.cell(*JOURNAL, "far", Column.VERDICT) == "conforms"
    assert user.cell(*JOURNAL, "far", Column.OFF) == "0.009"
    assert user.grid.model.shown_at(user.row(*JOURNAL, "near")).placed is not None

    near = user.grid.model.index(user.row(*JOURNAL, "near"), Column.AS_FOUND)
    user.click_item(user.grid.view, near)
    user.press(Qt.Key.Key_Delete)
    user.dialog("Delete entry")
    user.type("chip under the anvil")
    user.enter()
    assert user.cell(*JOURNAL, "near", Column.AS_FOUND) == ""
    user.menu("Edit", "Undo deleted reading")
    assert user.cell(*JOURNAL, "near", Column.AS_FOUND) == "59.985"
    user.menu("Edit", "Redo deleted reading")
    assert user.cell(*JOURNAL, "near", Column.AS_FOUND) == ""
    user.grid.view.setFocus()
    user.ctrl(Qt.Key.Key_Z)
    assert user.cell(*JOURNAL, "near", Column.AS_FOUND) == "59.985"

    take_instrument(user, "Mic")
    user.ctrl(Qt.Key.Key_Q)
    again = start(shop.path)
    again.frame.show_page("bench")
    again.frame.desk.choose(subassembly_id=shop.headstock)
    shown = {
        (part, feature, station): again.cell(part, feature, station, Column.AS_FOUND)
        for part, feature, station in ((*JOURNAL, "near"), (*JOURNAL, "far"), ("HS-02", "lost motion", ""))
    }
    assert list(shown.values()) == ["59.985", "59.980", "0.0036"]
    assert again.line.controls.instrument.currentText().startswith("Mic")
    assert again.frame.desk.store.undo_label() is not None, "undo survives closing"


def test_what_is_held_is_stored_by_one_more_enter(hands: Hands, shop: Shop) -> None:
    """A stub of another spindle was fitted, and 5.9985 is what it really is.

    One Enter holds it and asks whether a decimal place slipped; a second Enter a moment later stores it; the
    verdict says what it is.
    """
    user = hands
    user.frame.desk.choose(part_ids=(shop.spindle,), key=(shop.journal, shop.near))
    take_instrument(user, "Mic")
    user.line.focus_entry()
    user.person("5.9985\r")
    assert "a decimal place?" in user.answer
    assert user.cell(*JOURNAL, "near", Column.AS_FOUND) == ""
    user.bot.wait(200)
    user.person("\r")
    assert user.cell(*JOURNAL, "near", Column.AS_FOUND) == "5.9985"
    assert user.cell(*JOURNAL, "near", Column.VERDICT) == "undecided", (
        "a 50 to 75 micrometer proves nothing of it"
    )


def test_a_verdict_opens_its_working_and_the_mouse_can_do_it_all(hands: Hands, shop: Shop) -> None:
    """The same by mouse: click the part, click the line, type, click Working; double-click a verdict.

    The working names the limits, the reading, the rule and its edition.
    """
    user = hands
    tree = user.bench.tree.view
    tree.expandAll()
    spindle = next(
        index
        for row in range(tree.model().rowCount(tree.model().index(0, 0)))
        if "HS-01" in str((index := tree.model().index(row, 0, tree.model().index(0, 0))).data())
    )
    user.click_item(tree, spindle)
    instruments = user.line.controls.instrument
    instruments.showPopup()
    user.click_item(instruments.view(), instruments.model().index(1, 0))
    user.click(user.line.field)
    user.person("59.995\r")
    work = user.line.answer.working
    assert isinstance(work, QPushButton)
    user.click(work)
    words = user.bench.details.leaf("working").page.toPlainText()  # type: ignore[attr-defined]
    assert "ISO 14253-1" in words
    assert "59.995" in words
    user.bench.details.show_leaf("details")
    verdict = user.grid.model.index(user.row(*JOURNAL, "near"), Column.VERDICT)
    user.click_item(user.grid.view, verdict)
    user.double_click(user.grid.view, verdict)
    assert user.bench.details.leaves.chosen == "working"


def test_a_column_goes_to_a_spreadsheet_and_comes_back(hands: Hands, shop: Shop) -> None:
    """Copy the specs and readings with headings; paste a column of readings from a spreadsheet in one act."""
    from PySide6.QtGui import QGuiApplication

    user = hands
    view, model = user.grid.view, user.grid.model
    near = user.row(*JOURNAL, "near")
    user.click_item(view, model.index(near, Column.AS_FOUND))
    QGuiApplication.clipboard().setText("59.985\n59.981\n")
    user.ctrl(Qt.Key.Key_V)
    preview = next((one for one in user.frame.findChildren(QDialog) if one.isVisible()), None)
    if preview is not None:
        user.click(user.button("Store"))
    assert [user.cell(*JOURNAL, at, Column.AS_FOUND) for at in ("near", "far")] == ["59.985", "59.981"]
    assert "2" in (user.frame.desk.store.undo_label() or "")
    view.setFocus()
    user.click_item(view, model.index(near, Column.SPEC))
    user.press(Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    user.press(Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    user.press(Qt.Key.Key_C, CTRL)
    assert QGuiApplication.clipboard().text().splitlines() == [
        "60 -0.010/-0.029\t59.985",
        "60 -0.010/-0.029\t59.981",
    ]
