"""Teardown, Joints, Waiting and Where was I: driven by the keyboard, with the store as the truth."""

from __future__ import annotations

import datetime as dt

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester
from PySide6.QtWidgets import QAbstractItemView, QComboBox, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from rebuild.trade.results.working import Working
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.add_dialog import AddDialog
from rebuild.window.joints.page import JointsPage
from rebuild.window.steps.pane import TaskList
from rebuild.window.teardown.page import TeardownPage
from rebuild.window.waiting.page import WaitingPage
from rebuild.window.where_was_i.page import WherePage
from rebuild.words.joints import Tightness
from rebuild.words.places import PlaceKind
from rebuild.words.steps import ConstraintKind, LinkAnswer, TaskState
from rebuild.work.joints import acts as joints, rows as joint_rows
from rebuild.work.log.rows import log
from rebuild.work.machines import acts as identify
from rebuild.work.records.ways_out import WayKind
from rebuild.work.refit import acts as refit
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown import acts as teardown, rows_removals as removals
from rebuild.work.waiting import acts as waiting, acts_clocks as clocks
from rebuild.work.waiting.rows import Stand, waiting as waiting_rows
from tests.conftest import Shop

ENTER = Qt.Key.Key_Return
NOW = dt.datetime(2026, 6, 15, 20, 0)


def shown(qtbot: QtBot, page: QWidget) -> None:
    page.resize(1280, 760)
    with qtbot.waitExposed(page):
        page.show()


def named(page: QWidget) -> None:
    for kind in (QLineEdit, QAbstractItemView, QComboBox):
        for control in page.findChildren(kind):
            owner = control.parentWidget()
            inside = isinstance(owner, QComboBox) or control.objectName().startswith("qt_")
            spoken = control.accessibleName() or (owner is not None and owner.accessibleName())
            assert spoken or inside or isinstance(owner.parentWidget(), QComboBox), control


# Teardown


@pytest.fixture
def page(qtbot: QtBot, desk: Desk, shop: Shop) -> TeardownPage:
    desk.choose(subassembly_id=shop.headstock)
    made = TeardownPage(desk)
    shown(qtbot, made)
    return made


def log_rows(desk: Desk, shop: Shop) -> list[removals.RemovalRow]:
    with desk.store.read() as connection:
        attempt = removals.current_attempt(connection, shop.machine, shop.headstock)
        return removals.removals(connection, attempt.id) if attempt else []


def say(qtbot: QtBot, page: TeardownPage, line: str) -> None:
    page.off.line.setFocus()
    qtbot.keyClicks(page.off.line, line)
    qtbot.keyClick(page.off.line, ENTER)


def test_two_keys_log_the_next_part_and_three_another_one(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    assert page.off.next_off.text() == "Next off: HS-01 spindle"
    qtbot.keyClick(page.off.line, Qt.Key.Key_Down)
    assert page.off.next_off.text() == "Next off: HS-02 bearing cap"
    say(qtbot, page, "l")
    assert page.off.next_off.text() == "Next off: HS-01 spindle"
    say(qtbot, page, "w")
    assert [row.called for row in log_rows(desk, shop)] == ["HS-02 bearing cap", "HS-01 spindle"]
    assert page.log.plain.rowCount() == 2
    assert page.off.line.text() == ""


def test_what_was_understood_is_read_back_before_enter(qtbot: QtBot, page: TeardownPage, desk: Desk) -> None:
    identify.add_place(desk.store, "3 grey", PlaceKind.TOTE)
    page.off.line.setFocus()
    qtbot.keyClicks(page.off.line, "cap u, 4 x M10 x 40 socket, found shim, > tote 3")
    words = page.off.understood.text()
    for part in (
        "HS-02 bearing cap",
        "unscrewed",
        "4 × M10 × 40 mm socket screw",
        "found: shim",
        "→ tote 3 grey",
    ):
        assert part in words


def test_a_line_that_cannot_be_stored_stays_with_its_sentence(qtbot: QtBot, page: TeardownPage) -> None:
    say(qtbot, page, "nosuch l")
    assert page.off.line.text() == "nosuch l"
    assert "“nosuch” is none of those there" in page.off.ways.sentence.text()


def test_a_part_off_twice_offers_its_ways_and_one_key_takes_one(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap l")
    say(qtbot, page, "cap l")
    assert [way.kind for way in page.off.ways.ways] == [WayKind.ALIKE, WayKind.NEW_ATTEMPT]
    assert page.off.line.text() == "cap l"
    qtbot.keyClick(page.off.ways, Qt.Key.Key_N)
    assert page.attempt is not None
    assert (page.attempt.number, page.attempts.count()) == (2, 2)
    assert len(log_rows(desk, shop)) == 1


def test_fasteners_and_shims_are_added_to_the_chosen_removal(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    workings: list[Working] = []
    desk.working_asked.connect(workings.append)
    say(qtbot, page, "cap u")
    qtbot.keyClicks(page.detail.fastener_line, "2 x M10 x 40 hex")
    qtbot.keyClick(page.detail.fastener_line, ENTER)
    qtbot.keyClicks(page.detail.shim_line, "left 0.05 + 2 x 0.1")
    qtbot.keyClick(page.detail.shim_line, ENTER)
    assert page.detail.fasteners.plain.text(0)[0] == "2 × M10 × 40 mm hex bolt"
    assert page.detail.shims.plain.text(0) == ("left", "0.05 mm + 0.1 mm + 0.1 mm", "0.250 mm (0.0098 in)")
    page.detail.shims.selectRow(0)
    assert "0.05 mm + 0.1 mm + 0.1 mm = 0.250 mm" in workings[-1].text()
    qtbot.keyClicks(page.detail.shim_line, "left 12")
    qtbot.keyClick(page.detail.shim_line, ENTER)
    assert page.detail.shim_line.text() == "left 12"


def test_drafting_shows_the_steps_beside_the_log(qtbot: QtBot, page: TeardownPage) -> None:
    say(qtbot, page, "cap u")
    say(qtbot, page, "spin l")
    page.views.show_view(1)
    page.back.draft_button.click()
    assert "2 steps of 2 things off, 0 on again." in page.back.said.text()
    titles = [page.back.steps.model.line(row) for row in range(page.back.steps.model.rowCount())]
    assert "Refit HS-02 bearing cap" in [line.title for line in titles if line]
    assert page.log.plain.text(0)[4] == "drafted"


def test_taken_down_again_asks_what_stopped_it_and_the_missed_link_is_accepted_with_enter(
    qtbot: QtBot, page: TeardownPage, desk: Desk, shop: Shop
) -> None:
    say(qtbot, page, "cap u")
    say(qtbot, page, "spin l")
    assert page.attempt is not None
    refit.draft(desk.store, page.attempt.id)
    with desk.store.read() as connection:
        rows = removals.removals(connection, page.attempt.id)
    for row in rows:  # the cap first: the wrong way round
        tasks.tick(desk.store, row.refit_id or 0, sure=True)
    page.begin_next()
    dialog = next(child for child in page.findChildren(AddDialog))
    dialog.form.boxes["stopped_by"].editor.put("spindle would not enter")
    dialog.add(again=False)
    assert page.attempt is not None
    assert page.attempt.number == 2
    say(qtbot, page, "cap u")
    say(qtbot, page, "spin l")
    page.views.show_view(2)
    assert "spindle would not enter" in page.second.heading.text()
    assert page.second.proposals.plain.text(0)[:2] == ("HS-01 spindle", "HS-02 bearing cap")
    page.second.accept()
    assert page.second.proposals.plain.text(0)[3] == LinkAnswer.ACCEPTED.value


def test_the_log_model_keeps_qt_s_rules_and_controls_have_names(qtbot: QtBot, page: TeardownPage) -> None:
    tester = QAbstractItemModelTester(
        page.log.plain, QAbstractItemModelTester.FailureReportingMode.Fatal, page
    )
    say(qtbot, page, "cap u")
    page.refresh()
    assert tester.model() is page.log.plain
    named(page)


# Ticking


def test_the_tick_panel_offers_the_ways_out_and_a_letter_takes_one(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
    desk.choose(subassembly_id=shop.headstock)
    steps = TaskList(desk)
    shown(qtbot, steps)
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(shop.measure)))
    steps.ask_tick()
    qtbot.keyClick(steps.panel._fields["measured"], ENTER)
    assert [way.kind for way in steps.panel.ways.ways] == [
        WayKind.GO_TO,
        WayKind.LEAVE_OUT,
        WayKind.TAKE_LINK_AWAY,
    ]
    qtbot.keyClick(steps.panel, Qt.Key.Key_T)
    line = steps.model.line(steps.model.row_of(shop.measure))
    assert line is not None
    assert line.row.state is TaskState.DONE
    assert line.row.waits_for == ()


def test_opening_a_step_others_stand_on_asks_for_the_key_twice(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    tasks.tick(desk.store, shop.strip)
    tasks.tick(desk.store, shop.measure)
    desk.choose(subassembly_id=shop.headstock)
    steps = TaskList(desk)
    shown(qtbot, steps)
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(shop.strip)))
    steps.view.setFocus()
    qtbot.keyClick(steps.view, Qt.Key.Key_Space, Qt.KeyboardModifier.ShiftModifier)
    assert "Take the spindle out → Measure the journals" in said[-1]
    qtbot.keyClick(steps.view, Qt.Key.Key_Space, Qt.KeyboardModifier.ShiftModifier)
    line = steps.model.line(steps.model.row_of(shop.strip))
    assert line is not None
    assert line.row.state is TaskState.OPEN


def test_a_constraint_dialog_asks_what_its_kind_needs(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    from rebuild.window.steps.constraint_dialog import ConstraintDialog

    desk.choose(subassembly_id=shop.headstock)
    steps = TaskList(desk)
    shown(qtbot, steps)
    line = steps.model.line(0)
    assert line is not None
    dialog = ConstraintDialog(desk, line.row, steps)
    dialog.kind.setCurrentIndex(dialog.kind.findText(ConstraintKind.CURE.value))
    dialog.detail.setText("epoxy")
    dialog.rest.setText("a day")
    dialog.add()
    assert "Must rest for" in dialog._trouble.text()
    dialog.rest.setText("24 h")
    dialog.add()
    line = steps.model.line(0)
    assert line is not None
    assert line.row.constraints == ((ConstraintKind.CURE, "epoxy"),)


# Joints


@pytest.fixture
def walk(qtbot: QtBot, desk: Desk, shop: Shop) -> JointsPage:
    for name, location in (
        ("rear cap screws", "rear"),
        ("front cap screws", "front"),
        ("foot bolts", "tailstock end, low"),
    ):
        joints.add_joint(
            desk.store,
            shop.machine,
            shop.headstock,
            name,
            {
                "location": location,
                "thread": "3/8-16",
                "wanted": "torqued",
                "count": "4",
            },
        )
    made = JointsPage(desk)
    shown(qtbot, made)
    return made


def test_one_key_says_how_the_chosen_joints_are(
    qtbot: QtBot, walk: JointsPage, desk: Desk, shop: Shop
) -> None:
    assert [walk.table.plain.text(row)[2] for row in range(3)] == [
        "front cap screws, 4 × 3/8-16",
        "foot bolts, 4 × 3/8-16",
        "rear cap screws, 4 × 3/8-16",
    ]
    assert "3 of 3 joints are not final" in walk.sentence.text()
    walk.table.selectAll()
    qtbot.keyClick(walk.table, Qt.Key.Key_F)
    qtbot.keyClick(walk.table, Qt.Key.Key_O)
    with desk.store.read() as connection:
        assert {row.state for row in joint_rows.joints(connection, shop.machine)} == {"finger, oiled"}


def test_a_torque_is_typed_and_the_joint_leaves_the_list(
    qtbot: QtBot, walk: JointsPage, desk: Desk, shop: Shop
) -> None:
    workings: list[Working] = []
    desk.working_asked.connect(workings.append)
    walk.table.selectRow(0)
    assert "27-41 N·m (20-30 lb-ft)" in walk.torque.placeholderText()
    walk.activateWindow()
    walk.table.setFocus()
    qtbot.waitUntil(walk.table.hasFocus)
    qtbot.keyClick(walk.table, Qt.Key.Key_T)
    qtbot.keyClicks(walk.torque, "25")
    qtbot.keyClick(walk.torque, ENTER)
    assert walk.torque.text() == "25", "a torque has a unit; what was typed stays"
    qtbot.keyClicks(walk.torque, " lb-ft")
    qtbot.keyClick(walk.torque, ENTER)
    assert walk.table.plain.rowCount() == 2
    with desk.store.read() as connection:
        row = next(row for row in joint_rows.joints(connection, shop.machine) if "front" in row.name)
    assert (row.tight, row.torque_done) == (Tightness.TORQUED, "25 lb-ft")
    walk._working()
    assert "usual range" in workings[-1].text()


def test_alt_and_arrows_change_the_walk(qtbot: QtBot, walk: JointsPage, desk: Desk, shop: Shop) -> None:
    walk.activateWindow()
    walk.table.setFocus()
    qtbot.waitUntil(walk.table.hasFocus)
    walk.table.selectRow(2)
    qtbot.keyClick(walk.table, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    with desk.store.read() as connection:
        order = [row.name for row in joint_rows.joints(connection, shop.machine)]
    assert order == ["front cap screws", "rear cap screws", "foot bolts"]
    desk.undo()
    assert walk.table.plain.text(1)[2].startswith("foot bolts")
    named(walk)


# Waiting


@pytest.fixture
def waits(qtbot: QtBot, desk: Desk, shop: Shop) -> WaitingPage:
    made = WaitingPage(desk, now=lambda: NOW)
    shown(qtbot, made)
    return made


def test_what_the_shop_already_has_is_shown_before_an_order(
    qtbot: QtBot, waits: WaitingPage, desk: Desk, shop: Shop
) -> None:
    waiting.add_stock(desk.store, "taper pins No. 4", {"quantity": "24", "counted_in": "pcs"})
    line = waits.orders.line
    qtbot.keyClicks(line.line, "taper pin no. 4")
    qtbot.keyClick(line.line, ENTER)
    assert line.found.plain.text(0)[0] == "taper pins No. 4"
    assert "Already have it?" in line.said.text()
    with desk.store.read() as connection:
        assert waiting_rows(connection, shop.machine, NOW) == []
    qtbot.keyClick(line.line, ENTER)
    with desk.store.read() as connection:
        (row,) = waiting_rows(connection, shop.machine, NOW)
    assert (row.what, row.stand) == ("taper pin no. 4", Stand.WANTED)
    assert line.line.text() == ""


def test_one_press_notes_ordered_arrived_and_checked(waits: WaitingPage, desk: Desk, shop: Shop) -> None:
    waiting.add_waiting(desk.store, shop.machine, "drive belt")
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    waits.orders.mark(waiting.Mark.CHECKED)
    assert "Say when it arrived before it is checked" in said[-1]
    for mark in (waiting.Mark.ORDERED, waiting.Mark.ARRIVED, waiting.Mark.CHECKED):
        waits.orders.mark(mark)
    assert waits.orders.list.table.plain.text(0)[0] == "checked 15 Jun 20:00"


def test_a_clock_is_started_from_its_line_and_closed(qtbot: QtBot, waits: WaitingPage) -> None:
    pane = waits.clocks
    waits.views.show_view(1)
    pane.kind.setCurrentIndex(pane.kind.findText("re-level"))
    qtbot.keyClicks(pane.what, "bed")
    qtbot.keyClicks(pane.soonest, "4 h, 3 d, 30 d")
    qtbot.keyClicks(pane.latest, "1 h")
    qtbot.keyClick(pane.latest, ENTER)
    assert "before the soonest" in pane.said.text()
    assert pane.what.text() == "bed"
    pane.latest.clear()
    qtbot.keyClick(pane.latest, ENTER)
    assert pane.list.table.plain.rowCount() == 3
    assert pane.list.table.plain.text(0)[2] == "re-level from 16 Jun, in 4 h"
    pane.close_chosen()
    assert pane.list.table.plain.rowCount() == 2
    named(waits)


def test_costs_add_up(waits: WaitingPage, desk: Desk, shop: Shop) -> None:
    waiting.add_waiting(
        desk.store,
        shop.machine,
        "felts",
        part_id=shop.cap,
        typed={
            "price": "28",
            "ordered_at": "2026-05-01",
            "arrived_at": "2026-05-10",
        },
    )
    table = waits.cost.groups.plain
    assert [table.text(row) for row in range(table.rowCount())] == [
        ("HS Headstock", "28.00", "0.00", "0.0"),
        ("not split", "0.00", "0.00", "3.0"),
        ("in all", "28.00", "0.00", "3.0"),
    ]


# Where was I


def test_the_page_says_what_waits_and_leads_there(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    asked: list[str] = []
    desk.page_asked.connect(asked.append)
    about = clocks.About(part_id=shop.cap)
    clocks.start_clock(
        desk.store,
        shop.machine,
        clocks.ClockKind.BATH,
        "cap",
        started=NOW - dt.timedelta(days=3),
        about=about,
    )
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    assert "Take the spindle out" in page.sections["Next three actions"].body.text()
    assert "in the bath since 12 Jun 20:00, 3 d" in page.sections["Baths and clocks"].body.text()
    assert "Which oil did the maker print?" in page.sections["Open questions"].body.text()
    assert "Stripped the headstock" in page.sections["Last sessions"].body.accessibleName()
    assert page.found is not None
    at = [action.task_id for action in page.found.next_actions].index(shop.strip)
    page.sections["Next three actions"].body.linkActivated.emit(str(at))
    assert (asked[-1], desk.selection.task_ids, desk.selection.subassembly_id) == (
        "bench",
        (shop.strip,),
        shop.headstock,
    )


def test_words_of_the_user_are_never_read_as_mark_up(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    from rebuild.work.editing import acts as edit

    edit.edit(desk.store, "task", [shop.strip], {"title": "Take <b>it</b> & go"})
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    assert "Take &lt;b&gt;it&lt;/b&gt; &amp; go" in page.sections["Next three actions"].body.text()


def test_a_session_ends_with_three_lines_and_trouble_keeps_them(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    fields = page.end.fields
    fields["did"].setFocus()
    for name, words in (("did", "spindle in"), ("left", "caps finger tight"), ("next_step", "re-lift")):
        qtbot.keyClicks(fields[name], words)
        qtbot.keyClick(fields[name], ENTER)
    qtbot.keyClicks(fields["split"], "ZZ 1")
    page.end.store()
    assert "“ZZ” is no code" in page.end.said.text()
    assert fields["did"].text() == "spindle in"
    fields["split"].setText("HS 1")
    page.end.store()
    assert fields["did"].text() == ""
    with desk.store.read() as connection:
        row = next(row for row in log(connection, shop.machine) if row.did == "spindle in")
    assert (row.left_on_bench, row.next_step, row.hours) == ("caps finger tight", "re-lift", 1.0)
    named(page)


def test_a_page_not_seen_is_read_when_it_is_seen_again(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    page = WherePage(desk, now=lambda: NOW)
    shown(qtbot, page)
    page.hide()
    teardown.say_removal(desk.store, shop.machine, shop.headstock, "cap l")
    tasks.tick(desk.store, shop.strip)
    shown(qtbot, page)
    assert "Measure the journals" in page.sections["Next three actions"].body.text()
