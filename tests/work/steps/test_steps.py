"""Steps of work: added, ordered, linked without loops, ticked off with what was measured."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import text

from rebuild.errors import BadEntry, BrokenOrder, NotThere
from rebuild.words.steps import ConstraintKind, LinkKind
from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify
from rebuild.work.plan.rows_what_next import what_next
from rebuild.work.steps import acts as tasks, acts_again, rows as lookup

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM task WHERE id = {key}")).one()


def order(shop: Shop) -> list[int]:
    with shop.store.read() as connection:
        return [found.id for found in lookup.tasks(connection, shop.machine)]


def test_a_step_is_added_last_with_its_fields(shop: Shop) -> None:
    key = tasks.add_task(
        shop.store,
        shop.machine,
        shop.headstock,
        "Torque the caps",
        after=[shop.refit, shop.refit],
        typed={
            "kind": "refit",
            "low_min": "5",
            "likely_min": "10",
            "high_min": "1 h",
            "torque_wanted": "25 N·m",
        },
    )
    found = row(shop, key)
    assert (found.kind, found.state, found.high_min, found.position) == ("refit", "open", 60.0, 4)
    with shop.store.read() as connection:
        (listed,) = [one for one in lookup.tasks(connection, shop.machine) if one.id == key]
    assert listed.waits_for == ((shop.refit, "Refit the spindle"),)


@pytest.mark.parametrize(
    ("title", "typed", "said"),
    [
        ("", {}, "Step: is empty. Say what is to be done."),
        (
            "x",
            {"low_min": "2 h", "high_min": "1 h"},
            "Durations: “120 / 60” do not rise from shortest to likely",
        ),
        ("x", {"likely_min": "soon"}, "Likely: “soon” is not an amount."),
        ("x", {"kind": "magic"}, "Kind: “magic” is not one of the words."),
        ("x", {"irreversible": "perhaps"}, "Cannot be undone: “perhaps” is neither yes nor no."),
    ],
)
def test_a_step_refused(shop: Shop, title: str, typed: dict[str, str], said: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        tasks.add_task(shop.store, shop.machine, None, title, typed=typed)
    assert str(refusal.value).startswith(said)


def test_steps_are_put_in_order_within_their_list(shop: Shop) -> None:
    drain = tasks.add_task(shop.store, shop.machine, shop.headstock, "Drain the oil")
    lock = tasks.add_task(shop.store, shop.machine, shop.headstock, "Lock the supply off")
    work = [shop.strip, shop.measure, shop.remake, shop.refit]
    tasks.reorder(shop.store, [lock, drain], 0)
    assert order(shop) == [lock, drain, *work]
    assert shop.store.undo() == "new order of Lock the supply off and 1 more"
    assert order(shop) == [*work, drain, lock]
    tasks.reorder(shop.store, [drain], 99)
    assert order(shop)[-1] == drain
    label = shop.store.undo_label()
    tasks.reorder(shop.store, [drain], 99)
    tasks.reorder(shop.store, [], 0)
    assert shop.store.undo_label() == label


def test_an_order_against_a_link_is_refused(shop: Shop) -> None:
    with pytest.raises(BrokenOrder) as refusal:
        tasks.reorder(shop.store, [shop.refit], 0)
    assert "Refit the spindle" in refusal.value.chain
    assert order(shop) == [shop.strip, shop.measure, shop.remake, shop.refit]


def test_steps_of_two_lists_are_not_ordered_together(shop: Shop) -> None:
    other = tasks.add_task(shop.store, shop.machine, shop.carriage, "Clean the apron")
    with pytest.raises(BadEntry, match="Step: “Clean the apron” is of another list"):
        tasks.reorder(shop.store, [shop.strip, other], 0)


def test_a_loop_is_refused_and_spelled_out_in_the_order_of_the_work(shop: Shop) -> None:
    with pytest.raises(BrokenOrder) as refusal:
        tasks.add_link(shop.store, shop.refit, shop.strip)
    assert refusal.value.chain == (
        "Take the spindle out",
        "Measure the journals",
        "Make a new cap",
        "Refit the spindle",
        "Take the spindle out",
    )
    assert "Take the spindle out → Measure the journals → " in str(refusal.value)
    assert "Take one of these links away first." in str(refusal.value)
    with pytest.raises(BrokenOrder, match="Take the spindle out → Take the spindle out"):
        tasks.add_link(shop.store, shop.strip, shop.strip)


def test_links_are_added_once_and_within_a_machine(shop: Shop) -> None:
    tasks.add_link(shop.store, shop.strip, shop.refit, LinkKind.WHILE_OFF, " bearings bare ")
    assert shop.store.undo_label() == "new link “Take the spindle out” before “Refit the spindle”"
    with pytest.raises(BadEntry, match="“Take the spindle out” already comes first"):
        tasks.add_link(shop.store, shop.strip, shop.refit)
    other = identify.add_machine(shop.store, "Shaper")
    step = tasks.add_task(shop.store, other, None, "Lift the ram off")
    for first, second in ((shop.strip, step), (step, shop.strip)):
        with pytest.raises(BadEntry, match="belongs to another machine"):
            tasks.add_link(shop.store, first, second)
    with pytest.raises(BadEntry, match="Step: “Take the spindle out” belongs to another machine"):
        tasks.add_task(shop.store, other, None, "x", after=[shop.strip])
    with pytest.raises(BadEntry, match="Part: “spindle” belongs to another machine"):
        tasks.add_task(shop.store, other, None, "x", part_id=shop.spindle)


def test_a_step_is_ticked_with_when_and_what(shop: Shop) -> None:
    at = dt.datetime(2026, 3, 14, 19, 30)
    tasks.tick(shop.store, shop.strip, tasks.Done("0.03", " 25 N·m ", "easy", at))
    found = row(shop, shop.strip)
    assert (found.state, found.done_at, found.done_measured, found.done_torque, found.done_note) == (
        "done",
        "2026-03-14T19:30:00",
        "0.03",
        "25 N·m",
        "easy",
    )
    assert shop.store.undo_label() == "step done “Take the spindle out”"
    acts_again.open_again(shop.store, shop.strip, "it came off again")
    assert (row(shop, shop.strip).state, row(shop, shop.strip).done_at) == ("open", None)


@pytest.mark.parametrize(
    ("done", "said"),
    [
        (tasks.Done(measured="tight"), "Measured: “tight” is not a size."),
        (tasks.Done(torque="25"), "Torqued to: “25” has no unit. Type it as 25 N·m"),
        (tasks.Done(torque="25 mm"), "Torqued to: “25 mm” has a unit “mm” that is not a torque."),
    ],
)
def test_what_was_done_must_be_readable(shop: Shop, done: tasks.Done, said: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        tasks.tick(shop.store, shop.strip, done)
    assert str(refusal.value).startswith(said)
    assert row(shop, shop.strip).state == "open"


def test_a_step_whose_predecessor_is_open_asks(shop: Shop) -> None:
    extra = tasks.add_task(shop.store, shop.machine, shop.headstock, "Drain the oil")
    tasks.add_link(shop.store, extra, shop.measure)
    with pytest.raises(BrokenOrder) as question:
        tasks.tick(shop.store, shop.measure)
    assert question.value.chain == ("Take the spindle out", "Measure the journals")
    assert "(1 more steps before it are open too)" in str(question.value)
    tasks.tick(shop.store, shop.measure, reason="seen at the bench")
    assert row(shop, shop.measure).state == "done"


def test_an_irreversible_step_asks_once_more(shop: Shop) -> None:
    key = tasks.add_task(
        shop.store, shop.machine, None, "Ream and pin the dog", typed={"irreversible": "yes"}
    )
    with pytest.raises(BrokenOrder, match=r"cannot be undone on the machine.*take a photo"):
        tasks.tick(shop.store, key)
    tasks.tick(shop.store, key, reason="seen at the bench")
    assert row(shop, key).state == "done"


def test_a_step_set_done_by_editing_knows_when_and_keeps_the_order(shop: Shop) -> None:
    with pytest.raises(BrokenOrder):
        edit.edit(shop.store, "task", [shop.measure], {"state": "done"})
    edit.edit(shop.store, "task", [shop.strip, shop.measure], {"state": "done"})
    assert row(shop, shop.strip).done_at is not None
    with pytest.raises(BrokenOrder):
        edit.edit(shop.store, "task", [shop.strip], {"state": "open"})
    with pytest.raises(BadEntry, match="Open it again in the list of steps"):
        edit.edit(shop.store, "task", [shop.measure], {"state": "open"})
    assert row(shop, shop.measure).done_at is not None


def test_editing_durations_keeps_them_rising(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="do not rise"):
        edit.edit(shop.store, "task", [shop.remake], {"low_min": "2 h"})
    edit.edit(shop.store, "task", [shop.remake], {"low_min": "1 h", "high_min": "95"})
    assert (row(shop, shop.remake).low_min, row(shop, shop.remake).high_min) == (60.0, 95.0)


def test_cautions_and_constraints_sit_on_a_step(shop: Shop) -> None:
    tasks.add_caution(shop.store, shop.strip, "slings")
    tasks.add_constraint(shop.store, shop.strip, ConstraintKind.TWO_PEOPLE, "chain hoist")
    with shop.store.read() as connection:
        (listed,) = [one for one in lookup.tasks(connection, shop.machine) if one.id == shop.strip]
    assert listed.cautions == ("slings",)
    assert listed.constraints == ((ConstraintKind.TWO_PEOPLE, "chain hoist"),)
    with pytest.raises(BadEntry, match=r"Caution: “dragons” is not a caution\. Topics: "):
        tasks.add_caution(shop.store, shop.strip, "dragons")


def test_what_next_follows_links_and_open_questions(shop: Shop) -> None:
    def state() -> tuple[list[str], list[str]]:
        with shop.store.read() as connection:
            found = what_next(connection, shop.machine)
        # Once work has begun the checks before power wait for the last of it.
        held = [step.title for step in found.waiting if not step.title.startswith("Check before power")]
        return [step.title for step in found.now], held

    assert state()[0] == ["Take the spindle out"]
    for step in (shop.strip, shop.measure, shop.remake):
        tasks.tick(shop.store, step)
    assert state() == ([], ["Refit the spindle"]), "the open question holds it up"
    notes.answer(shop.store, shop.question, "ISO VG 22", "the printed chart")
    assert state() == (["Refit the spindle"], [])


@pytest.mark.parametrize(
    "act", ["tick", "open again", "add_caution", "add_constraint", "add_link", "reorder"]
)
def test_a_step_that_is_gone(shop: Shop, act: str) -> None:
    calls: dict[str, Any] = {
        "tick": lambda: tasks.tick(shop.store, 99),
        "open again": lambda: acts_again.open_again(shop.store, 99, "it came off again"),
        "add_caution": lambda: tasks.add_caution(shop.store, 99, "slings"),
        "add_constraint": lambda: tasks.add_constraint(shop.store, 99, ConstraintKind.CURE),
        "add_link": lambda: tasks.add_link(shop.store, 99, shop.strip),
        "reorder": lambda: tasks.reorder(shop.store, [99], 0),
    }
    with pytest.raises(NotThere, match=r"The step no\. 99 is no longer there"):
        calls[act]()
