"""The frame: pages, choosers, menus, messages, undo, memory, and that everything can be named and reached."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeySequence
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSlider,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QLineEdit,
    QMenu,
    QMenuBar,
    QPlainTextEdit,
    QScrollBar,
    QSplitter,
    QTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from rebuild.model.enums import Decision, SpecOrigin
from rebuild.window.actions import ACTIONS, ON_NOTHING, ON_PARTS, ON_SUBASSEMBLY, row_of
from rebuild.window.acts import ACTS
from rebuild.window.bench_page import BenchPage
from rebuild.window.desk import Desk, Say, ShowUnit
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.frame import Frame
from rebuild.window.help_sheets import LIMITS, keys_text
from rebuild.window.kept import KeptEntries
from rebuild.window.memory import Memory
from rebuild.window.pages import PAGES, present_pages
from rebuild.work import decide, edit, identify, measure
from rebuild.work.lookup import part_sheet, record, tree
from tests.conftest import Shop
from tests.window.test_forms import type_into

CONTROLS = (
    QAbstractButton, QAbstractItemView, QAbstractSlider, QAbstractSpinBox, QComboBox, QLineEdit, QMenu,
    QPlainTextEdit, QTextEdit,
)  # fmt: skip


def nameless(top: QWidget) -> list[str]:
    """Controls under a widget that a screen reader could not name. Qt names the inner parts of its own."""
    found = []
    for widget in [top, *top.findChildren(QWidget)]:
        inner = widget.objectName().startswith("qt_") or isinstance(widget, QScrollBar)
        # The line of a combo box, the cross that clears a line, the corner of a table, the menu bar's overflow.
        part = isinstance(
            widget.parent(), QComboBox | QAbstractSpinBox | QLineEdit | QAbstractItemView | QMenuBar
        )
        if not isinstance(widget, CONTROLS) or inner or part:
            continue
        named = widget.accessibleName() or (widget.text() if isinstance(widget, QAbstractButton) else "")
        popup = widget.window().metaObject().className() == "QComboBoxPrivateContainer"
        if not named and not popup and not (isinstance(widget, QMenu) and widget.title()):
            found.append(f"{type(widget).__name__} in {type(widget.parent()).__name__}")
    return found


def test_every_page_in_the_table_opens_and_names_its_controls(frame: Frame) -> None:
    for page in frame.pages:
        frame.show_page(page.key)
        assert frame.page_shown == page.key
        assert frame.header.pages.chosen == page.key
        assert nameless(frame.page(page.key)) == [], page.key
    assert nameless(frame) == []


def test_every_leaf_and_dialog_names_its_controls(frame: Frame, shop: Shop, qapp: QApplication) -> None:
    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    for key in ("details", "features", "concessions", "history"):
        bench.details.show_leaf(key)
        assert nameless(bench.details) == [], key
    for key in sorted(set(ACTS) - {"undo", "redo", "back_up", "remove_machine"}):
        frame.do(key)
        dialog = next((one for one in frame.findChildren(QDialog) if one.isVisible()), None)
        assert dialog is not None, key
        assert nameless(dialog) == [], key
        assert dialog.windowTitle(), key
        dialog.close()
        dialog.deleteLater()
        qapp.sendPostedEvents(None, 52)  # QEvent.DeferredDelete


def test_tables_of_actions_and_acts_fit_each_other(frame: Frame) -> None:
    keys = [row.key for row in ACTIONS if row.key]
    assert len(keys) == len(set(keys))
    assert set(ACTS) <= set(keys)
    for key in keys:
        assert frame.action(key).objectName() == key
    for key in (*ON_PARTS, *ON_SUBASSEMBLY, *ON_NOTHING):
        assert not key or row_of(key)
    shortcuts = [row.keys for row in ACTIONS if row.keys] + [f"Ctrl+{place}" for place in range(1, 10)]
    portable = [QKeySequence(keys).toString() for keys in shortcuts]
    assert len(portable) == len(set(portable))
    for row in ACTIONS:
        assert not row.keys or row.keys in keys_text()


def test_lines_are_grey_while_what_they_need_is_missing(frame: Frame, shop: Shop) -> None:
    frame.desk.choose(part_ids=())
    assert not frame.action("decide").isEnabled()
    assert frame.action("new_part").isEnabled()
    frame.desk.choose(part_ids=(shop.cap, shop.spindle))
    assert frame.action("decide").isEnabled()
    assert not frame.action("concede").isEnabled()
    frame.do("close_file")
    assert [row.key for row in ACTIONS if row.key and frame.action(row.key).isEnabled()] == [
        "new_file", "open_file", "try_demo", "quit", "keys", "limits",
    ]  # fmt: skip


def test_pages_missing_from_the_program_are_left_out() -> None:
    assert [page.key for page in present_pages()] == [page.key for page in PAGES if page.slot.present]
    assert PAGES[0].slot.present


def test_arrows_go_along_the_page_names(frame: Frame, qtbot: QtBot) -> None:
    qtbot.keyClick(frame.header.pages, Qt.Key.Key_Right)
    assert frame.page_shown == frame.pages[1].key
    qtbot.keyClick(frame.header.pages, Qt.Key.Key_Left)
    assert frame.page_shown == "bench"


def test_another_pane_can_ask_for_a_page(frame: Frame) -> None:
    frame.desk.page_asked.emit(frame.pages[-1].key)
    assert frame.page_shown == frame.pages[-1].key


def test_title_names_machine_and_file(frame: Frame, shop: Shop) -> None:
    assert frame.windowTitle() == f"Toolroom lathe — {shop.path.name} — Rebuild"
    edit.edit(frame.desk.store, "machine", [shop.machine], {"name": "Small lathe"})
    assert frame.windowTitle().startswith("Small lathe")


def test_machine_chooser_shows_another_machine(frame: Frame, shop: Shop) -> None:
    other = identify.add_machine(frame.desk.store, "Crank shaper", {"kind": "shaper", "year": "1938"})
    machines = frame.header.machines
    assert [machines.itemText(at) for at in range(machines.count())] == ["Toolroom lathe", "Crank shaper"]
    machines.setCurrentIndex(1)
    machines.activated.emit(1)
    assert frame.desk.machine_id == other
    assert frame.windowTitle().startswith("Crank shaper")


def test_unit_chooser_changes_what_is_shown_and_no_data(frame: Frame) -> None:
    before = frame.desk.store.undo_label()
    frame.header.units.setCurrentIndex(2)
    frame.header.units.activated.emit(2)
    assert frame.desk.show_unit is ShowUnit.IN
    assert frame.desk.store.undo_label() == before
    frame.desk.choose_unit(ShowUnit.MM)
    assert frame.header.units.currentText() == "all in mm"


def test_undo_names_the_act_in_menu_and_tip(frame: Frame, shop: Shop) -> None:
    decide.decide(frame.desk.store, [shop.spindle], Decision.REUSE)
    undo, redo = frame.action("undo"), frame.action("redo")
    assert undo.text() == "&Undo decision reuse on HS-01 spindle"
    assert undo.toolTip() == "Undo decision reuse on HS-01 spindle"
    assert (redo.isEnabled(), redo.toolTip()) == (False, "Nothing to redo")
    frame.do("undo")
    assert frame.messages.sentence == "Undone: decision reuse on HS-01 spindle."
    assert redo.text() == "&Redo decision reuse on HS-01 spindle"
    frame.do("redo")
    assert frame.messages.sentence == "Done again: decision reuse on HS-01 spindle."
    measure.record_reading(frame.desk.store, "59.98", measure.Entry(shop.journal))
    assert undo.text() == "&Undo reading 59.98 mm on HS-01 spindle, front journal"


def test_ctrl_z_goes_to_the_editor_first_then_to_the_file(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    with qtbot.waitActive(frame):
        frame.activateWindow()
    decide.decide(frame.desk.store, [shop.spindle], Decision.REUSE)
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    box = bench.tree.filter
    box.setFocus()
    qtbot.keyClicks(box, "cap")
    qtbot.keyClick(box, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert box.text() == ""
    assert frame.desk.store.undo_label() == "decision reuse on HS-01 spindle"
    qtbot.keyClick(box, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert frame.messages.sentence == "Undone: decision reuse on HS-01 spindle."


def test_trouble_stays_until_dismissed_and_can_be_copied(frame: Frame) -> None:
    strip = frame.messages.trouble
    assert not strip.isVisible()
    frame.desk.say("The disk is full.", Say.TROUBLE)
    frame.desk.say("Another trouble.", Say.TROUBLE)
    frame.desk.say("Something was done.")
    assert frame.messages.sentence == "Something was done."
    assert strip.isVisible()
    assert strip.text.text() == "The disk is full."
    strip.copy.click()
    assert QGuiApplication.clipboard().text() == "The disk is full."
    strip.dismiss.click()
    assert strip.text.text() == "Another trouble."
    strip.dismiss.click()
    assert not strip.isVisible()


def test_kept_entries_are_counted_shown_and_settled(frame: Frame) -> None:
    assert not frame.messages.kept.isVisible()
    frame.desk.store.keep_entry("part no. 2, material", "cast iron", "another window was first.")
    frame.desk.say("Something clashed.", Say.TROUBLE)
    assert frame.messages.kept.text() == "1 kept entry…"
    frame.messages.kept.click()
    dialog = frame.findChild(KeptEntries)
    assert dialog is not None
    assert dialog.table.plain.text(0)[1:] == (
        "part no. 2, material",
        "cast iron",
        "another window was first.",
    )
    dialog.copy.click()
    assert QGuiApplication.clipboard().text() == "cast iron"
    dialog.settle.click()
    with frame.desk.store.read() as connection:
        assert record.kept_entries(connection) == []
    assert dialog.empty.isVisible()


def test_second_windows_machine_part_and_message_appear(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    identify.add_machine(shop.store, "Crank shaper")
    qtbot.waitUntil(lambda: frame.header.machines.count() == 2, timeout=1000)
    assert "Another window changed this file" in frame.messages.sentence


def test_f6_goes_round_the_panes(frame: Frame, qtbot: QtBot) -> None:
    with qtbot.waitActive(frame):
        frame.activateWindow()
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    seen = []
    for _ in bench.panes():
        frame.do("next_pane")
        focus = QApplication.focusWidget()
        seen.append(
            next(i for i, pane in enumerate(bench.panes()) if pane is focus or pane.isAncestorOf(focus))
        )
    assert sorted(seen) == list(range(len(bench.panes())))


def test_window_state_is_remembered(frame: Frame, shop: Shop, tmp_path: Path, qtbot: QtBot) -> None:
    frame.resize(900, 640)
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    QApplication.processEvents()
    total = sum(bench.across.sizes())
    bench.across.setSizes([total // 2, total // 4, total // 4])
    sizes = bench.across.sizes()
    bench.details.show_leaf("history")
    frame.desk.choose_unit(ShowUnit.IN)
    frame.show_page(frame.pages[1].key)
    frame.close()
    assert not frame.desk.is_open

    memory = Memory(tmp_path / "window.ini")
    assert memory.text("open") == str(shop.path.resolve())
    desk = Desk()
    desk.open(shop.path)
    again = Frame(desk, memory)
    again.show()
    QApplication.processEvents()
    assert again.height() == frame.height()  # Qt restores onto the screen, which offscreen is 800 wide
    again.resize(frame.size())
    assert desk.show_unit is ShowUnit.IN
    assert again.page_shown == frame.pages[1].key
    shown = again.page("bench")
    assert isinstance(shown, BenchPage)
    QApplication.processEvents()
    assert shown.across.sizes() == sizes
    assert shown.details.leaves.chosen == "history"
    again.close()


def test_text_refused_in_the_details_is_kept_when_the_window_closes(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    from rebuild.window.part_leaves.fields import FieldsLeaf

    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    leaf = bench.details.leaf("details")
    assert isinstance(leaf, FieldsLeaf)
    boxes = leaf.form("part").boxes
    type_into(qtbot, boxes["quantity"].widget, "two")
    type_into(qtbot, boxes["material"].widget, "GG-25")
    frame.close()
    with shop.store.read() as connection:
        assert [kept.typed for kept in record.kept_entries(connection)] == ["two"]
        assert record.card(connection, "part", shop.cap).fields["material"] == "GG-25"


def test_backup_lies_beside_the_file(frame: Frame, shop: Shop) -> None:
    frame.do("back_up")
    assert "Backed up and verified" in frame.messages.sentence
    assert len(list(shop.path.parent.glob("* backup *.rebuild"))) == 1


def test_removed_machine_comes_back_whole(frame: Frame, shop: Shop) -> None:
    frame.do("remove_machine")
    assert frame.desk.machine_id is None
    frame.do("undo")
    with frame.desk.store.read() as connection:
        assert len(tree.parts(connection, shop.machine)) == 2
    assert frame.desk.machine_id == shop.machine


def test_limits_of_use_defer_to_local_codes() -> None:
    assert "codes of your place" in LIMITS
    assert "licensed" in LIMITS


def test_splitters_give_every_pane_room(frame: Frame) -> None:
    frame.resize(1280, 800)
    QApplication.processEvents()
    bench = frame.page("bench")
    for splitter in bench.findChildren(QSplitter):
        assert all(size > 100 for size in splitter.sizes())


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

    def dialog(self, title: str) -> AddDialog:
        def there() -> bool:
            active = QApplication.activeWindow()
            return isinstance(active, AddDialog) and active.windowTitle() == title

        self._bot.waitUntil(there)
        dialog = QApplication.activeWindow()
        assert isinstance(dialog, AddDialog)
        return dialog

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
    keys.tab_to("What would change it")
    keys.press(Qt.Key.Key_Tab)
    while not (isinstance(focus := QApplication.focusWidget(), QAbstractButton) and focus.text() == "Decide"):
        keys.press(Qt.Key.Key_Tab)
    keys.press(Qt.Key.Key_Space)

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
