"""A gauge sends while somebody types elsewhere: what was met at an inch machine, as runs by real keys."""

from __future__ import annotations

import gc

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QLineEdit, QPushButton, QVBoxLayout
from pytestqt.exceptions import capture_exceptions

from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.parts.card_window import PartCardWindow
from rebuild.window.parts.glance_leaf import GlanceLeaf
from rebuild.window.readings.columns import STAGE_COLUMNS, Column
from rebuild.words.readings import STAGES, FeatureKind, Stage
from rebuild.work.editing.acts import edit
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import add_feature
from tests.conftest import Shop
from tests.journeys.hands import Hands
from tests.journeys.test_landing import in_tree, typed, waiting


def marks(user: Hands) -> dict[str, str]:
    with user.frame.desk.store.read() as connection:
        rows = connection.exec_driver_sql("SELECT code, match_mark FROM part").all()
    return {row[0]: row[1] for row in rows}


def test_the_card_stays_on_its_part_while_a_field_of_it_has_the_caret(hands: Hands, shop: Shop) -> None:
    """A burst moved the line on to the next part; the card went along, and the mark typed on was the other part's."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    user.press(Qt.Key.Key_F4)
    window = next(one for one in user.frame.findChildren(PartCardWindow) if one.isVisible())
    window.activateWindow()
    user.bot.waitUntil(lambda: QApplication.activeWindow() is window, timeout=1000)
    leaf = window.card.leaf("card")
    assert isinstance(leaf, GlanceLeaf)
    mark = leaf.form.boxes["match_mark"].widget
    mark.setFocus()
    user.bot.waitUntil(mark.hasFocus, timeout=1000)
    user.type("two dots")
    user.gauge("59.985\r")
    user.gauge("59.984\r")
    assert typed(store, shop.journal, shop.far) == ["59.984"]
    user.frame.desk.choose(part_ids=(shop.cap,), key=(shop.lost_motion, 0))
    assert mark.hasFocus()
    assert window.card.subject == ("part", shop.spindle)
    user.type(" left")
    user.press(Qt.Key.Key_Tab)
    assert marks(user) == {"HS-01": "two dots left", "HS-02": ""}
    assert window.card.subject == ("part", shop.spindle), "the next field is one of the same part"
    window.card.leaves.setFocus()
    user.come_forward()
    user.grid.view.setFocus()
    user.bot.waitUntil(lambda: window.card.subject == ("part", shop.cap), timeout=1000)
    assert leaf.form.row_id == shop.cap


def test_a_part_clicked_again_is_taken_up_where_its_stage_is_unread(hands: Hands, shop: Shop) -> None:
    """With the first of five stations read as found the next value went to *1, cleaned*, and 2 to 5 stayed empty."""
    user, store = hands, hands.frame.desk.store
    ways = add_feature(store, shop.cap, "way", FeatureKind.STRAIGHTNESS, stations=tuple("12345"))

    def back() -> str:
        in_tree(user, "spindle")
        in_tree(user, "bearing cap")
        return user.lands_on

    way = "HS-02 bearing cap  ·  way"
    record_reading(store, ".003", Entry(shop.lost_motion))
    assert back() == f"{way}  ·  1  ·  as found"
    user.gauge("0.01\r")
    assert back() == f"{way}  ·  2  ·  as found"
    for at in range(4):
        user.gauge(f"0.02{at}\r")
    on_cell = user.row("HS-02", "way", "5")
    cleaned = STAGE_COLUMNS[STAGES.index(Stage.CLEANED)]
    user.grid.headings.show_column(cleaned)
    user.click_item(user.grid.view, user.grid.model.index(on_cell, cleaned))
    assert user.lands_on == f"{way}  ·  5  ·  cleaned"
    user.gauge("0.03\r")
    record_reading(store, ".002", Entry(shop.lost_motion, None, Stage.CLEANED))
    assert back() == f"{way}  ·  1  ·  cleaned"
    user.gauge("0.04\r")
    assert back() == f"{way}  ·  2  ·  cleaned"
    with store.read() as connection:
        read = connection.exec_driver_sql(
            "SELECT s.name, r.stage FROM reading r JOIN station s ON s.id = r.station_id "
            f"WHERE r.feature_id = {ways} ORDER BY r.id"
        ).all()
    assert [tuple(row) for row in read] == [
        *((str(at), "as found") for at in range(1, 6)), ("5", "cleaned"), ("1", "cleaned"),
    ]  # fmt: skip


def test_a_burst_past_a_dialog_waits_and_a_quick_text_stays_whole(hands: Hands, shop: Shop) -> None:
    """A burst on a dialog's button was lost; a size typed at 2 ms a key was split: its tail was taken for a gauge's."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    asked = QDialog(user.frame)
    asked.setWindowTitle("Remove it?")
    asked.setModal(True)
    column = QVBoxLayout(asked)
    button, name = QPushButton("No", asked), QLineEdit(asked)
    column.addWidget(button)
    column.addWidget(name)
    asked.open()
    user.dialog("Remove it?")
    button.setFocus()
    user.gauge("25.01\r")
    assert waiting(user) == ["25.01"]
    assert asked.isVisible()
    name.setFocus()
    user.gauge("25.02")
    assert name.text() == "25.02", "the eye is on the field"
    asked.close()
    user.come_forward()
    assert typed(store, shop.journal, shop.near) == []
    field = user.grid.filters.text
    field.setFocus()
    for part in ("40 ", "+0.2/-0.2\r"):
        if part.startswith("+"):
            shift = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_Shift, Qt.KeyboardModifier.ShiftModifier, "")
            QCoreApplication.sendEvent(user.frame.windowHandle(), shift)
            user._clock -= 2000 - 2
        user._send(part, 2)
    assert field.text() == "40 +0.2/-0.2"
    assert waiting(user) == ["25.01"]


def test_a_held_value_let_go_is_typed_over(hands: Hands, shop: Shop) -> None:
    """After Escape, or on another row, what was typed next was joined to it: *25.08359.981*."""
    user, store = hands, hands.frame.desk.store
    in_tree(user, "spindle")
    user.line.focus_entry()
    user.person("25.083\r")
    assert "far from" in user.answer
    user.press(Qt.Key.Key_Escape)
    assert user.line.field.selectedText() == "25.083"
    in_tree(user, "bearing cap")
    user.grid.view.setFocus()
    user.person("0.002\r")
    QTest.qWait(60)
    assert typed(store, shop.lost_motion) == ["0.002"]
    in_tree(user, "spindle")
    user.line.focus_entry()
    user.person("25.084\r")
    assert "far from" in user.answer
    user.click_item(
        user.grid.view, user.grid.model.index(user.row("HS-01", "front journal", "far"), Column.STATION)
    )
    user.person("59.981\r")
    QTest.qWait(60)
    assert typed(store, shop.journal, shop.far) == ["59.981"]
    assert user.line.field.text() == ""


def test_an_instrument_is_added_where_it_is_named(hands: Hands, shop: Shop) -> None:
    """The box at the bench offered only *no instrument named*; a new one opened in mm on an inch machine."""
    user, store = hands, hands.frame.desk.store
    edit(store, "machine", [shop.machine], {"unit": "in"})
    in_tree(user, "spindle")
    box = user.line.controls.instrument
    assert box.itemText(box.count() - 1) == "New instrument…"
    box.setFocus()
    user.press(Qt.Key.Key_End)
    dialog = user.dialog("New instrument")
    assert isinstance(dialog, AddDialog)
    user.type("Telescoping gauge 1/2 to 3/4")
    assert dialog.form.boxes["unit"].editor.typed() == "in"
    assert dialog.form.boxes["kind"].editor.typed() == "telescoping gauge and micrometer"
    assert user.line.controls.chosen_instrument is None
    dialog.add_button.click()
    assert box.currentText() == "Telescoping gauge 1/2 to 3/4"
    with store.read() as connection:
        made = connection.exec_driver_sql("SELECT id, kind, unit FROM instrument ORDER BY id DESC").first()
    assert made is not None
    assert tuple(made)[1:] == ("telescoping gauge and micrometer", "in")
    assert user.line.course.instrument_id == made[0]


def test_a_list_in_a_dialog_opened_by_mouse_and_closed_by_key_raises_no_fault(
    hands: Hands, shop: Shop
) -> None:
    """Met in the first minute: Down, a letter, Enter in a list of *New machine*, and its window was gone."""
    user = hands
    user.ctrl(Qt.Key.Key_M)
    dialog = user.dialog("New machine")
    box = next(one for one in dialog.findChildren(QComboBox) if one.isVisible() and not one.isEditable())
    with capture_exceptions() as faults:
        for key in (Qt.Key.Key_Down, Qt.Key.Key_M, Qt.Key.Key_Up, Qt.Key.Key_Down):
            user.click(box)
            user.bot.waitUntil(lambda: QApplication.activePopupWidget() is not None, timeout=1000)
            for pressed in (key, Qt.Key.Key_Return):
                popup = QApplication.activePopupWidget()
                assert popup is not None
                QTest.keyClick(popup.windowHandle(), pressed)
            user.bot.waitUntil(lambda: QApplication.activePopupWidget() is None, timeout=1000)
            gc.collect()
    assert [str(fault[1]) for fault in faults] == []
    name = next(one for one in dialog.findChildren(QLineEdit) if one.accessibleName() == "Name")
    name.setFocus()
    user.gauge("Mill 6205")
    assert name.text() == "Mill 6205", "what is typed quickly in a dialog stays"
    dialog.reject()
