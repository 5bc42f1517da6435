"""Ticking a step: ways out, a key asked for twice, constraints."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from rebuild.model.records.means import OneMeans, OneStepMeans
from rebuild.store.act import Act
from rebuild.window.desk.desk import Desk
from rebuild.window.steps.pane import TaskList
from rebuild.words.fits import FitKind
from rebuild.words.means import MeansKind
from rebuild.words.readings import FeatureKind
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.work.editing import acts as edit
from rebuild.work.fits import acts as fits
from rebuild.work.log import acts as notes
from rebuild.work.readings import acts_features as spec
from rebuild.work.records.ways_out import WayKind
from rebuild.work.steps import acts as tasks
from tests.conftest import Shop
from tests.window.seen import shown

ENTER = Qt.Key.Key_Return


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
        WayKind.GO_TO, WayKind.LEAVE_OUT, WayKind.TAKE_LINK_AWAY, WayKind.ALL_THE_SAME,
    ]  # fmt: skip
    qtbot.keyClick(steps.panel, Qt.Key.Key_T)
    line = steps.model.line(steps.model.row_of(shop.measure))
    assert line is not None
    assert line.row.state is TaskState.DONE
    assert line.row.waits_for == ()


def test_opening_a_step_others_stand_on_asks_why_and_then_once_more(
    qtbot: QtBot, desk: Desk, shop: Shop
) -> None:
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
    qtbot.keyClicks(steps.again.reason, "it seized")
    qtbot.keyClick(steps.again.reason, ENTER)
    assert "Take the spindle out → Measure the journals" in said[-1]
    assert steps.again.reason.text() == "it seized", "what was typed stays"
    qtbot.keyClick(steps.again, Qt.Key.Key_A)
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


def test_the_tick_panel_leads_to_the_rows_that_hold_the_step(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    bore = spec.add_feature(desk.store, shop.cap, "bore", FeatureKind.BORE)
    fit = fits.add_fit(
        desk.store,
        fits.FitEntry(
            bore,
            shop.journal,
            FitKind.PRESS,
            name=f"cap on journal, {'bored out twice, ' * 6}sleeved",
        ),
    )
    press = tasks.add_task(
        desk.store, shop.machine, shop.headstock, "Press the cap on", TaskKind.REFIT,
        part_id=shop.cap,
    )  # fmt: skip
    edit.edit(desk.store, "task", [press], {"irreversible": "yes"})
    question = notes.ask(desk.store, shop.machine, "Which end first?", task_id=press)
    with desk.store.act(Act.EDIT, "means") as tx:
        hoist = OneMeans(name="hoist", kind=MeansKind.HOIST)
        tx.session.add(hoist)
        tx.session.flush()
        tx.session.add(OneStepMeans(task_id=press, means_id=hoist.id))
        hoist_id = hoist.id
    desk.choose(subassembly_id=shop.headstock)
    steps = TaskList(desk)
    shown(qtbot, steps)
    asked: list[tuple[str, str, int]] = []
    desk.row_asked.connect(lambda page, table, row: asked.append((page, table, row)))
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(press)))
    steps.ask_tick()
    steps.panel._fields["note"].setText("dry fitted")
    qtbot.keyClick(steps.panel._fields["measured"], ENTER)
    links = [
        button
        for button in steps.panel.ways.findChildren(QPushButton)
        if "Go to: " in button.accessibleName()
    ]
    narrow = steps.panel.minimumSizeHint().width()
    assert narrow < 340, "long words of a row widen no pane"
    for link in links:
        link.click()
    assert {("fits", "fit", fit), ("questions", "question", question), ("means", "means", hoist_id)} <= set(
        asked
    )
    assert steps.panel._fields["note"].text() == "dry fitted", "what was typed waits"


def test_what_a_tick_asks_for_is_seen_before_it_is_pressed(qtbot: QtBot, desk: Desk, shop: Shop) -> None:
    edit.edit(desk.store, "task", [shop.refit], {"torque_wanted": "25 N·m", "kind": "refit"})
    desk.choose(subassembly_id=shop.headstock)
    steps = TaskList(desk)
    shown(qtbot, steps)
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(shop.strip)))
    assert steps.hint.isVisible()
    assert steps.hint.text() == "Space ticks it off and asks for what was measured, a note."
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(shop.refit)))
    assert "the torque (to be 25 N·m), how the joint is left" in steps.hint.text()
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(shop.strip)))
    steps.ask_tick()
    assert not steps.hint.isVisible(), "its strip says so itself"
    qtbot.keyClick(steps.panel._fields["measured"], ENTER)
    assert steps.hint.isVisible()
    steps.view.setCurrentIndex(steps.model.index(steps.model.row_of(shop.strip)))
    assert not steps.hint.isVisible(), "it is done"
