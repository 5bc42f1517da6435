"""What the step list hears, counts, and refuses to put in order; the kind of a new link."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from rebuild.window.desk.desk import Desk
from rebuild.window.steps.links import BeforeDialog
from rebuild.window.steps.pane import TaskList
from rebuild.words.steps import LinkKind, TaskState
from rebuild.words.waiting import ClockKind
from rebuild.work.editing import acts as edit
from rebuild.work.steps import acts
from rebuild.work.waiting import acts_clocks as clocks
from tests.conftest import Shop
from tests.support import acts_in
from tests.window.steps.test_step_list import stand_on, stored, titles, unlinked

ALT, SHIFT = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def steps(qtbot: QtBot, desk: Desk, shop: Shop) -> TaskList:
    desk.choose(subassembly_id=shop.headstock)
    made = TaskList(desk)
    made.resize(360, 600)
    with qtbot.waitExposed(made):
        made.show()
    return made


def about(steps: TaskList, key: int) -> str:
    line = steps.model.line(steps.model.row_of(key))
    assert line is not None
    return line.about


def test_a_clock_started_or_seen_to_shows_at_its_step(steps: TaskList, desk: Desk, shop: Shop) -> None:
    (key,) = clocks.start_clock(
        desk.store,
        shop.machine,
        ClockKind.LOOK,
        "felt",
        after=["4 h"],
        about=clocks.About(task_id=shop.strip),
    )
    assert "look again from" in about(steps, shop.strip)
    clocks.close_clock(desk.store, [key])
    assert "look again" not in about(steps, shop.strip)


def test_steps_left_out_count_as_done_and_are_hidden_among_the_open(
    steps: TaskList, desk: Desk, shop: Shop
) -> None:
    acts.tick(desk.store, shop.strip)
    edit.edit(desk.store, "task", [shop.measure], {"state": "left out"})
    edit.edit(desk.store, "task", [shop.remake], {"state": "under way"})
    assert steps._counted.text() == "2 of 4 steps done"
    steps._open_only.setChecked(True)
    assert titles(steps) == ["Make a new cap", "Refit the spindle"]


def test_alt_up_and_alt_down_go_each_their_way(qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop) -> None:
    _first, second = unlinked(desk, shop)
    before = titles(steps)
    stand_on(steps, second)
    qtbot.keyClick(steps.view, Qt.Key.Key_Up, ALT)
    assert titles(steps) == [*before[:-2], before[-1], before[-2]]
    qtbot.keyClick(steps.view, Qt.Key.Key_Down, ALT)
    assert titles(steps) == before


def test_no_order_is_made_while_only_open_steps_show(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    _first, second = unlinked(desk, shop)
    said: list[str] = []
    desk.said.connect(lambda sentence, _how: said.append(sentence))
    steps._open_only.setChecked(True)
    stand_on(steps, second)
    before = acts_in(shop.path)
    qtbot.keyClick(steps.view, Qt.Key.Key_Up, ALT)
    steps.model.moved.emit([second], 0)
    assert said == ["Show all steps to put them in a new order."] * 2
    assert acts_in(shop.path) == before


def test_opening_what_others_stand_on_asks_first_and_stores_nothing(
    qtbot: QtBot, steps: TaskList, desk: Desk, shop: Shop
) -> None:
    for key in (shop.strip, shop.measure):
        acts.tick(desk.store, key)
    stand_on(steps, shop.strip)
    before = acts_in(shop.path)
    qtbot.keyClick(steps.view, Qt.Key.Key_Space, SHIFT)
    qtbot.keyClicks(steps.again.reason, "it seized")
    qtbot.keyClick(steps.again.reason, Qt.Key.Key_Return)
    assert stored(desk, shop.strip).state is TaskState.DONE
    assert acts_in(shop.path) == before
    qtbot.keyClick(steps.again, Qt.Key.Key_O)
    assert stored(desk, shop.measure).state is TaskState.OPEN
    assert stored(desk, shop.strip).state is TaskState.OPEN


@pytest.mark.parametrize("kind", list(LinkKind)[:2])
def test_a_new_link_is_of_the_kind_chosen(steps: TaskList, desk: Desk, shop: Shop, kind: LinkKind) -> None:
    first, second = unlinked(desk, shop)
    dialog = BeforeDialog(desk, stored(desk, second), steps)
    at = next(at for at in range(dialog.kind.count()) if dialog.kind.itemData(at) == kind)
    dialog.kind.setCurrentIndex(at)
    items = [dialog._list.item(at) for at in range(dialog._list.count())]
    next(item for item in items if item.text() == "Blow the oil ways out").setCheckState(
        Qt.CheckState.Checked
    )
    with desk.store.read() as connection:
        query = f"SELECT kind FROM link WHERE before_id = {first} AND after_id = {second}"
        assert connection.exec_driver_sql(query).scalar_one() == kind.value
