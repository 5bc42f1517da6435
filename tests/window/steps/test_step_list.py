"""The task list: ticking off, order, links, by keyboard, with the store as the truth."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QAbstractItemModelTester
from pytestqt.qtbot import QtBot

from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.steps.links import BeforeDialog
from rebuild.window.steps.pane import TaskList
from rebuild.words.joints import Tightness
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.joints import acts as joints
from rebuild.work.records.ways_out import WayKind
from rebuild.work.steps import acts as acts
from rebuild.work.steps.acts_again import open_again
from rebuild.work.steps.rows import TaskRow, links, tasks
from tests.conftest import Shop

NO, SHIFT, ALT = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)


@pytest.fixture
def steps(qtbot: QtBot, desk: Desk, shop: Shop) -> TaskList:
    desk.choose(subassembly_id=shop.headstock)
    made = TaskList(desk)
    made.resize(360, 600)
    with qtbot.waitExposed(made):
        made.show()
    return made


def titles(steps: TaskList) -> list[str]:
    lines = [steps.model.line(row) for row in range(steps.model.rowCount())]
    return [line.row.title for line in lines if line is not None]


def stored(desk: Desk, task_id: int) -> TaskRow:
    with desk.store.read() as connection:
        return next(row for row in tasks(connection, desk.machine_id or 0) if row.id == task_id)


def stand_on(steps: TaskList, task_id: int) -> None:
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(task_id)))
    steps.view.setFocus()


def unlinked(desk: Desk, shop: Shop) -> tuple[int, int]:
    """Two more steps of the headstock that wait for nothing."""
    return (
        acts.add_task(desk.store, shop.machine, shop.headstock, "Blow the oil ways out"),
        acts.add_task(desk.store, shop.machine, shop.headstock, "Cut new felts"),
    )


def test_the_model_keeps_qt_s_rules(steps: TaskList) -> None:
    tester = QAbstractItemModelTester(steps.model, QAbstractItemModelTester.FailureReportingMode.Fatal, steps)
    steps.refresh()
    assert tester.model() is steps.model


def test_a_list_made_wider_keeps_no_gap_between_its_steps(
    steps: TaskList, desk: Desk, shop: Shop, qtbot: QtBot
) -> None:
    """A step stood cut off below an empty strip: the heights were new, the places of before."""
    for words in (
        "Fit the positioning screw, its bevels and the shaft that turns them",
        "Turn a full stroke by hand",
    ):
        acts.add_task(desk.store, shop.machine, shop.headstock, words)
    narrow_width = steps.view.viewport().width()
    narrow = steps.view.visualRect(steps.model.index(steps.model.rowCount() - 1)).bottom()
    steps.resize(700, 600)
    qtbot.waitUntil(lambda: steps.view.viewport().width() > narrow_width)

    def tops() -> list[tuple[int, int]]:
        rects = [steps.view.visualRect(steps.model.index(row)) for row in range(steps.model.rowCount())]
        return [(above.bottom() + 1, below.top()) for above, below in pairwise(rects)]

    qtbot.waitUntil(lambda: all(end == top for end, top in tops()), timeout=1000)
    assert steps.view.visualRect(steps.model.index(steps.model.rowCount() - 1)).bottom() < narrow


def test_shows_the_steps_of_the_chosen_subassembly_in_order(steps: TaskList, desk: Desk, shop: Shop) -> None:
    assert titles(steps)[:2] == ["Take the spindle out", "Measure the journals"]
    desk.choose(subassembly_id=shop.carriage)
    assert titles(steps) == []


def test_space_and_enter_tick_a_step_with_what_was_measured(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    stand_on(steps, shop.strip)
    qtbot.keyClick(steps.view, Qt.Key.Key_Space)
    field = steps.panel.focusWidget()
    qtbot.keyClicks(field, "0.02")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    row = stored(desk, shop.strip)
    assert (row.state, row.done_measured) == (TaskState.DONE, "0.02")
    assert row.done_at is not None
    assert steps.panel.isHidden()


def test_typing_on_in_the_tick_panel_answers_no_refusal(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    stand_on(steps, shop.refit)
    steps.ask_tick()
    field = steps.panel._fields["measured"]
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert "A" in {way.key for way in steps.panel.ways.ways}
    for letter in "leave as is":
        focus = steps.panel.window().focusWidget()
        assert focus is not None
        qtbot.keyClicks(focus, letter)
    assert (field.text(), steps.panel.ways.reason.text()) == ("leave as is", "")
    assert steps.panel.ways.ways, "the question stays: these are other words than the step's"
    qtbot.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.AltModifier)
    assert steps.panel.ways.reason.hasFocus() or steps.panel.focusWidget() is steps.panel.ways.reason


def test_a_step_ticked_too_early_is_refused_with_the_chain_and_can_be_insisted_on(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    stand_on(steps, shop.refit)
    steps.ask_tick()
    steps.panel.confirmed.emit(shop.refit, acts.Done())
    assert "Make a new cap → Refit the spindle" in steps.panel._trouble.text()
    assert stored(desk, shop.refit).state is TaskState.OPEN
    qtbot.keyClick(steps.panel.ways, Qt.Key.Key_A)
    assert stored(desk, shop.refit).state is TaskState.OPEN, "no reason was said yet"
    qtbot.keyClicks(steps.panel.ways.reason, "the old cap does for a trial")
    qtbot.keyClick(steps.panel.ways.reason, Qt.Key.Key_Return)
    assert stored(desk, shop.refit).state is TaskState.DONE
    assert desk.store.undo_label() == "going on all the same “Refit the spindle”"
    line = steps.model.line(steps.model.row_of(shop.refit))
    assert line is not None
    assert "all the same, 1 open" in line.about
    assert "the old cap does for a trial" in line.tip


def test_bad_torque_keeps_the_text_and_says_why(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    stand_on(steps, shop.strip)
    steps.ask_tick()
    steps.panel._fields["torque"].setText("25")
    qtbot.keyClick(steps.panel._fields["torque"], Qt.Key.Key_Return)
    assert "Torqued to: “25” has no unit." in steps.panel._trouble.text()
    assert steps.panel._fields["torque"].text() == "25"
    assert stored(desk, shop.strip).state is TaskState.OPEN


def test_shift_space_opens_a_done_step_again(qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop) -> None:
    acts.tick(desk.store, shop.strip)
    stand_on(steps, shop.strip)
    qtbot.keyClick(steps.view, Qt.Key.Key_Space, SHIFT)
    assert stored(desk, shop.strip).state is TaskState.DONE
    qtbot.keyClicks(steps.again.reason, "a washer was left over")
    qtbot.keyClick(steps.again.reason, Qt.Key.Key_Return)
    assert stored(desk, shop.strip).state is TaskState.OPEN
    line = steps.model.line(steps.model.row_of(shop.strip))
    assert line is not None
    assert "attempt 2" in line.about
    assert "Earlier attempt 1: done" in line.tip
    assert line.tip.endswith("a washer was left over")


def test_alt_down_moves_a_step_and_undo_brings_the_order_back(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    first, _second = unlinked(desk, shop)
    before = titles(steps)
    stand_on(steps, first)
    qtbot.keyClick(steps.view, Qt.Key.Key_Down, ALT)
    assert titles(steps) == [*before[:-2], before[-1], before[-2]]
    assert [line.id for line in [steps.model.line(steps.view.currentIndex().row())] if line] == [first]
    desk.undo()
    assert titles(steps) == before


def test_moving_a_step_below_one_that_waits_for_it_is_refused_with_the_chain(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    before, said = titles(steps), []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    stand_on(steps, shop.strip)
    qtbot.keyClick(steps.view, Qt.Key.Key_Down, ALT)
    assert titles(steps) == before
    assert "Take the spindle out → Measure the journals" in said[-1]
    assert [way.kind for way in steps.refusals.ways] == [WayKind.GO_TO, WayKind.TAKE_LINK_AWAY]
    qtbot.keyClick(steps.refusals, Qt.Key.Key_T)
    assert titles(steps) == [before[1], before[0], *before[2:]], "the link gone, the move is tried again"
    assert steps.refusals.isHidden()


def test_dropping_a_step_puts_it_where_it_was_dropped(steps: TaskList, desk: Desk, shop: Shop) -> None:
    unlinked(desk, shop)
    before = titles(steps)
    last = len(before) - 1
    data = steps.model.mimeData([steps.model.index(last)])
    steps.model.dropMimeData(data, Qt.DropAction.MoveAction, 2, 0, steps.model.index(-1))
    assert titles(steps) == [*before[:2], before[last], *before[2:last]]


def test_a_typed_line_becomes_a_step_of_the_guessed_kind(qtbot: QtBot, steps: TaskList, desk: Desk) -> None:
    qtbot.keyClicks(steps._new, "Scrape the cap joint")
    qtbot.keyClick(steps._new, Qt.Key.Key_Return)
    with desk.store.read() as connection:
        made = tasks(connection, desk.machine_id or 0)[-1]
    assert (made.title, made.kind) == ("Scrape the cap joint", TaskKind.REWORK)
    assert steps._new.text() == ""


def test_a_link_that_closes_a_loop_is_refused_in_the_dialog_with_the_loop(
    steps: TaskList, desk: Desk, shop: Shop
) -> None:
    dialog = BeforeDialog(desk, stored(desk, shop.strip), steps)
    items = [dialog._list.item(at) for at in range(dialog._list.count())]
    last = next(item for item in items if item.text() == "Refit the spindle")
    last.setCheckState(Qt.CheckState.Checked)
    assert "Take the spindle out → Measure the journals" in dialog._trouble.text()
    assert last.checkState() is Qt.CheckState.Unchecked
    with desk.store.read() as connection:
        assert (shop.refit, shop.strip) not in {(b, a) for _, b, a in links(connection, shop.machine)}
    assert [way.kind for way in dialog.ways.ways] == [WayKind.TAKE_LINK_AWAY]
    dialog.ways.take_key("T")
    assert last.checkState() is Qt.CheckState.Checked
    with desk.store.read() as connection:
        pairs = {(b, a) for _, b, a in links(connection, shop.machine)}
    assert (shop.refit, shop.strip) in pairs
    assert (shop.strip, shop.measure) not in pairs


def test_what_another_window_ticks_is_seen_after_a_poll(steps: TaskList, desk: Desk, shop: Shop) -> None:
    acts.tick(shop.store, shop.strip)
    desk.store.poll()
    line = steps.model.line(steps.model.row_of(shop.strip))
    assert line is not None
    assert line.row.state is TaskState.DONE


def test_every_control_has_a_name(steps: TaskList) -> None:
    from PySide6.QtWidgets import QAbstractItemView, QLineEdit

    for control in steps.findChildren(QLineEdit) + steps.findChildren(QAbstractItemView):
        assert control.accessibleName(), control


# Seen: earlier attempts only in a tooltip that does not wrap; a step whose joint is finger tight read just "done".
def test_earlier_attempts_wrap_under_the_list_and_done_says_which_joint_is_loose(
    steps: TaskList, desk: Desk, shop: Shop
) -> None:
    on = acts.add_task(
        desk.store,
        shop.machine,
        shop.headstock,
        "Cap on",
        TaskKind.REFIT,
        part_id=shop.spindle,
        after=[shop.strip],
    )
    bolts = joints.add_joint(desk.store, shop.machine, None, "cap bolts", {"part_id": str(shop.spindle)})
    acts.tick(desk.store, on, acts.Done(note="shims in"), reason="trial only")
    stand_on(steps, on)
    line = steps.model.line(steps.model.row_of(on))
    assert line is not None
    assert ", finger tight, shims in" in line.about, line.about
    assert "see below" in line.about
    assert steps.beside_it.isVisible()
    assert "trial only" in steps.beside_it.text()
    open_again(desk.store, on, "a washer was left over")
    stand_on(steps, on)
    assert steps.beside_it.wordWrap()
    told = steps.beside_it.text()
    assert told.startswith("Earlier attempt 1: done "), told
    assert "a washer was left over" in told
    joints.set_joints(desk.store, [bolts], joints.JointState(Tightness.SNUG))
    acts.tick(desk.store, on, reason="again")
    line = steps.model.line(steps.model.row_of(on))
    assert line is not None
    assert "finger tight" not in line.about
    stand_on(steps, shop.strip)
    assert not steps.beside_it.isVisible(), "nothing is told of this one"


# Seen: after a link to a part the step stood on before was still lit.
def test_a_link_to_a_part_puts_the_light_on_the_step_out(steps: TaskList, desk: Desk, shop: Shop) -> None:
    stand_on(steps, shop.strip)
    assert steps.view.selectionModel().hasSelection()
    assert desk.selection.task_ids == (shop.strip,)
    follow(desk, Ref("part", shop.cap))
    assert desk.selection.part_ids == (shop.cap,)
    assert not steps.view.selectionModel().hasSelection()
    follow(desk, Ref("task", shop.measure), subassembly_id=shop.headstock)
    assert desk.selection.task_ids == (shop.measure,)
