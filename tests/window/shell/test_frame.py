"""The frame: pages, choosers, menus, messages, undo, memory, and a second window."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeySequence
from PySide6.QtWidgets import (
    QApplication,
    QSplitter,
)
from pytestqt.qtbot import QtBot

from rebuild.trade.results.limits_of_use import LIMITS
from rebuild.window.bench.page import BenchPage
from rebuild.window.commands.menu_lines import ACTIONS, ON_NOTHING, ON_PARTS, ON_SUBASSEMBLY, row_of
from rebuild.window.commands.pages import PAGES, present_pages
from rebuild.window.desk.desk import Desk, Say, ShowUnit
from rebuild.window.desk.memory import Memory
from rebuild.window.log.kept import KeptEntries
from rebuild.window.log.questions import QuestionsPage
from rebuild.window.readings.grid import MeasurementGrid
from rebuild.window.shell.frame import Frame
from rebuild.window.shell.start import frame_for
from rebuild.window.where_was_i.page import WherePage
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.landings.acts import keep_unplaced
from rebuild.work.machines import acts as identify, rows_tree as tree
from rebuild.work.readings import acts as measure
from rebuild.work.records import rows, rows_kept
from tests.conftest import Shop
from tests.support import sheet_of_keys
from tests.window.forms.test_forms import type_into


def test_every_key_of_the_table_has_its_line_and_its_shortcut_once(frame: Frame) -> None:
    keys = [row.key for row in ACTIONS if row.key]
    assert len(keys) == len(set(keys))
    for key in keys:
        assert frame.action(key).objectName() == key
    for key in (*ON_PARTS, *ON_SUBASSEMBLY, *ON_NOTHING):
        assert not key or row_of(key)
    shortcuts = [row.keys for row in ACTIONS if row.keys] + [f"Ctrl+{place}" for place in range(1, 10)]
    portable = [QKeySequence(keys).toString() for keys in shortcuts]
    assert len(portable) == len(set(portable))
    for row in ACTIONS:
        assert not row.keys or row.keys in sheet_of_keys()


def test_lines_are_grey_while_what_they_need_is_missing(frame: Frame, shop: Shop) -> None:
    frame.desk.choose(part_ids=())
    assert not frame.action("decide").isEnabled()
    assert frame.action("new_part").isEnabled()
    frame.desk.choose(part_ids=(shop.cap, shop.spindle))
    assert frame.action("decide").isEnabled()
    assert not frame.action("concede").isEnabled()
    frame.do("close_file")
    assert [row.key for row in ACTIONS if row.key and frame.action(row.key).isEnabled()] == [
        "new_file",
        "open_file",
        "mend_file",
        "try_demo",
        "quit",
        "act_finder",
        "text_larger",
        "text_smaller",
        "text_usual",
        "keys",
        "all_keys",
        "examples",
        "cautions",
        "limits",
    ]


def test_pages_missing_from_the_program_are_left_out() -> None:
    assert [page.key for page in present_pages()] == [page.key for page in PAGES if page.slot.present]
    assert PAGES[0].slot.present


def test_arrows_go_along_the_groups_and_along_the_pages_of_one(frame: Frame, qtbot: QtBot) -> None:
    frame.show_page("where")
    qtbot.keyClick(frame.header.pages.groups, Qt.Key.Key_Right)
    assert frame.page_shown == "bench"
    qtbot.keyClick(frame.header.pages.groups, Qt.Key.Key_Left)
    assert frame.page_shown == "where"
    qtbot.keyClick(frame.header.pages.rows["now"], Qt.Key.Key_Right)
    assert frame.page_shown == "plan"


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


def test_a_file_opens_on_the_machine_it_was_left_on(frame: Frame, shop: Shop) -> None:
    path = frame.desk.store.path
    other = identify.add_machine(frame.desk.store, "Mill")
    gone = identify.add_machine(frame.desk.store, "Planer")
    for left, found in ((other, other), (gone, shop.machine)):
        frame.desk.choose_machine(left)
        if left == gone:
            edit.remove(frame.desk.store, "machine", [gone])
            frame.memory.leave_on(path, gone)
        frame.do("close_file")
        frame.files.open(path)
        assert frame.desk.machine_id == found
    frame.desk.choose_machine(other)
    frame.do("close_file")
    again = frame_for(path, frame.memory)
    assert again.desk.machine_id == other
    again.close()


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
    assert undo.text() == "&Undo reading 59.98 mm on HS-01 spindle, front journal, as found"


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
        assert rows_kept.kept_entries(connection) == []
    assert dialog.empty.isVisible()


def test_a_value_without_a_row_is_told_of_where_one_looks_and_before_the_window_goes(frame: Frame) -> None:
    keep_unplaced(frame.desk.store, "1.2497 in", "fits")
    waits = "1 value without a row waits: 1.2497 in."
    where = frame.page("where")
    assert isinstance(where, WherePage)
    assert "1.2497 in" in where.sections["Values without a row"].body.text()
    questions = frame.page("questions")
    assert isinstance(questions, QuestionsPage)
    assert questions.values.text().startswith(waits)
    assert not frame.close()
    assert frame.messages.sentence.startswith(waits)
    assert frame.desk.is_open
    frame.desk.undo()
    assert not questions.values.text()
    keep_unplaced(frame.desk.store, "1.2497 in", "fits")
    assert frame.close(), "said once"


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
    frame.resize(1280, 700)
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    QApplication.processEvents()
    total = sum(bench.across.sizes())
    bench.across.setSizes([total // 2, total // 4, total // 4])
    sizes = bench.across.sizes()
    bench.details.show_leaf("history")
    frame.desk.choose_unit(ShowUnit.IN)
    frame.desk.say_evening("45 min")
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
    assert desk.evening == "45 min", "seen: it was to be typed again after a restart"
    assert again.page_shown == "where", "a file with anything in it opens where one was"
    shown = again.page("bench")
    assert isinstance(shown, BenchPage)
    QApplication.processEvents()
    assert shown.across.sizes() == sizes
    assert shown.details.leaves.chosen == "history"
    again.close()


def test_text_refused_in_the_details_is_kept_when_the_window_closes(
    frame: Frame, shop: Shop, qtbot: QtBot
) -> None:
    from rebuild.window.parts.fields_leaf import FieldsLeaf

    frame.desk.choose(subassembly_id=shop.headstock, part_ids=(shop.cap,))
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    bench.details.show_leaf("details")
    leaf = bench.details.leaf("details")
    assert isinstance(leaf, FieldsLeaf)
    boxes = leaf.form("part").boxes
    type_into(qtbot, boxes["quantity"].widget, "two")
    type_into(qtbot, boxes["material"].widget, "GG-25")
    frame.close()
    with shop.store.read() as connection:
        assert [kept.typed for kept in rows_kept.kept_entries(connection)] == ["two"]
        assert rows.card(connection, "part", shop.cap).fields["material"] == "GG-25"


def test_backup_lies_beside_the_file(frame: Frame, shop: Shop, qtbot: QtBot) -> None:
    frame.do("back_up")
    qtbot.waitUntil(lambda: "Backed up" in frame.messages.sentence, timeout=20_000)
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
    frame.resize(1280, 700)
    QApplication.processEvents()
    bench = frame.page("bench")
    for splitter in bench.findChildren(QSplitter):
        assert all(size > 100 for size in splitter.sizes())


def test_at_1280_the_grid_shows_every_column_without_scrolling(frame: Frame, shop: Shop) -> None:
    for stage in (Stage.AS_FOUND, Stage.CLEANED, Stage.REWORKED, Stage.FITTED):
        measure.record_reading(
            frame.desk.store, "59.98", measure.Entry(shop.journal, shop.near, stage), confirmed=True
        )
    frame.desk.choose(subassembly_id=shop.headstock)
    frame.resize(1280, 700)
    bench = frame.page("bench")
    assert isinstance(bench, BenchPage)
    assert isinstance(bench.grid, MeasurementGrid)
    QApplication.processEvents()
    assert frame.width() == 1280
    assert bench.grid.view.horizontalScrollBar().maximum() == 0
