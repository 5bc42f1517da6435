"""First power is held by what stands before it, gone on with only with a reason, and an empty list is no clearance."""

from __future__ import annotations

import pytest

from rebuild.store.store import Store
from rebuild.trade.run_in.checks import usual_looks
from rebuild.words.gates import Gate
from rebuild.words.joints import Tightness
from rebuild.words.machines import MachineKind
from rebuild.words.run_in import LookWhen, RunState
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.book.rows import read_book
from rebuild.work.editing import acts as editing, acts_ways_out as ways
from rebuild.work.gates import acts as gates
from rebuild.work.gates.acts_checks import lay_out_checks
from rebuild.work.gates.rows import gone_on
from rebuild.work.joints import acts as joints
from rebuild.work.machines.acts import add_machine
from rebuild.work.power.rows import before_power, holds
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.run_in import acts as run
from rebuild.work.run_in.rows import checks, run_steps
from rebuild.work.steps import acts as tasks, acts_again
from rebuild.work.steps.rows import tasks as task_rows
from tests.support import refuses


@pytest.fixture
def shaper(store: Store) -> int:
    return add_machine(store, "Crank shaper", {"kind": "shaper"})


def check_all(store: Store, machine: int) -> None:
    with store.read() as connection:
        due = [row.id for row in checks(connection, machine) if row.due is LookWhen.BEFORE_POWER]
    for key in due:
        run.check_done(store, key, "the electrician")


def first_power(store: Store, machine: int) -> int:
    return tasks.add_task(store, machine, None, "First power", TaskKind.COMMISSION)


def state(store: Store, machine: int, key: int) -> TaskState:
    with store.read() as connection:
        return next(row.state for row in task_rows(connection, machine) if row.id == key)


# Seen: first power ticked without a word with a joint apart.
def test_first_power_is_refused_while_a_joint_is_apart(store: Store, shaper: int) -> None:
    check_all(store, shaper)
    joint = joints.add_joint(store, shaper, None, "rail clamp bolts", {"wanted": "snug"})
    step = first_power(store, shaper)
    said = "1 thing stands before power, and “First power” needs it: rail clamp bolts: apart, wants snug"
    with refuses(store, said, Refused):
        tasks.tick(store, step, confirmed=True)
    with refuses(store, said, Refused):
        editing.edit(store, "task", [step], {"state": "done"})
    joints.set_joints(store, [joint], joints.JointState(Tightness.SNUG))
    tasks.tick(store, step)
    assert state(store, shaper, step) is TaskState.DONE


# Seen: "31 things stand before power" and ticked all the same, no reason asked, stored as an ordinary tick.
def test_going_on_all_the_same_takes_a_reason_and_is_an_act_of_its_own(store: Store, shaper: int) -> None:
    step = first_power(store, shaper)
    for empty in ("", "  "):
        with refuses(store, "things stand before power", Refused):
            tasks.tick(store, step, confirmed=True, reason=empty)
    tasks.tick(store, step, reason="motor only turned by hand, supply off", by="owner")
    assert store.undo_label() == "going on all the same “First power”"
    with store.read() as connection:
        (gone,) = gone_on(connection, shaper, open_only=True)
        standing = before_power(connection, shaper)
        printed = read_book(connection, shaper).tried.gone_on
    assert (gone.gate, gone.reason, gone.said_by) == (
        Gate.POWER, "motor only turned by hand, supply off", "owner",
    )  # fmt: skip
    assert set(gone.covers) == {one.key for one in standing}
    assert "things stand before power" in gone.against
    assert printed == (gone,)


def test_what_comes_up_later_is_asked_about_afresh(store: Store, shaper: int) -> None:
    tasks.tick(store, first_power(store, shaper), reason="a touch, to see which way it turns")
    second = tasks.add_task(store, shaper, None, "Run in at slow speed", TaskKind.COMMISSION)
    joints.add_joint(store, shaper, None, "ram clamp", {"wanted": "snug"})
    with refuses(store, "1 thing stands before power, .*: ram clamp: apart", Refused):
        tasks.tick(store, second)


def test_it_is_shown_until_it_is_closed_with_a_word_and_then_holds_again(store: Store, shaper: int) -> None:
    tasks.tick(store, first_power(store, shaper), reason="a touch")
    with store.read() as connection:
        (gone,) = gone_on(connection, shaper, open_only=True)
    with refuses(store, "Closed with: is empty"):
        gates.close(store, [gone.id], " ")
    gates.close(store, [gone.id], "switched off again, list gone through")
    with refuses(store, "Going on all the same: .* was closed on"):
        gates.close(store, [gone.id], "twice")
    with store.read() as connection:
        assert gone_on(connection, shaper, open_only=True) == []
        assert gone_on(connection, shaper)[0].closed_note == "switched off again, list gone through"
    second = tasks.add_task(store, shaper, None, "Run in at slow speed", TaskKind.COMMISSION)
    with refuses(store, "things stand before power", Refused):
        tasks.tick(store, second)


def test_opening_the_step_again_closes_it(store: Store, shaper: int) -> None:
    step = first_power(store, shaper)
    tasks.tick(store, step, reason="a touch")
    acts_again.open_again(store, step, "it only hummed")
    with store.read() as connection:
        assert gone_on(connection, shaper, open_only=True) == []


# Seen: a new lathe's list before power is empty and reads as clearance.
@pytest.mark.parametrize("kind", list(MachineKind))
def test_every_machine_has_its_list_from_the_start(store: Store, kind: MachineKind) -> None:
    machine = add_machine(store, "New", {"kind": kind.value})
    with store.read() as connection:
        assert [row.text for row in checks(connection, machine)] == [
            row.text for row in sorted(usual_looks(kind), key=lambda look: tuple(LookWhen).index(look.due))
        ]
        assert before_power(connection, machine)


def test_an_empty_list_is_not_set_up_and_never_clear(store: Store, shaper: int) -> None:
    with store.read() as connection:
        every = [row.id for row in checks(connection, shaper)]
    editing.remove(store, "run_look", every)
    with store.read() as connection:
        (only,) = before_power(connection, shaper)
    assert (only.sort, only.text) == ("list", "The list of checks before power is not set up")
    step = first_power(store, shaper)
    with pytest.raises(Refused, match="not set up") as refused:
        tasks.tick(store, step)
    way = next(way for way in refused.value.ways if way.kind is WayKind.SET_UP)
    assert way.words == "Set up the list of checks for a shaper"
    ways.take(store, way)
    with store.read() as connection:
        assert len(checks(connection, shaper)) == len(every)
    assert lay_out_checks(store, shaper) == 0


def test_a_machine_of_another_kind_has_that_kind_s_list(store: Store, shaper: int) -> None:
    run.add_check(store, shaper, "My own look")
    editing.edit(store, "machine", [shaper], {"kind": "lathe"})
    with store.read() as connection:
        words = [row.text for row in checks(connection, shaper)]
    assert "My own look" in words
    assert set(words) == {*(look.text for look in usual_looks("lathe")), "My own look"}


def test_a_motor_alone_needs_the_electrics_not_the_joints(store: Store, shaper: int) -> None:
    joints.add_joint(store, shaper, None, "rail clamp bolts", {"wanted": "snug"})
    step = tasks.add_task(store, shaper, None, "Prove direction with the belts off", TaskKind.COMMISSION)
    with pytest.raises(Refused, match="things stand before power") as refused:
        tasks.tick(store, step)
    assert "rail clamp" not in str(refused.value)
    with store.read() as connection:
        electrical = [
            row.id
            for row in checks(connection, shaper)
            if row.due is LookWhen.BEFORE_POWER and row.topic in ("lockout", "mains", "capacitor")
        ]
    for key in electrical:
        run.check_done(store, key, "the electrician")
    tasks.tick(store, step)


def test_a_check_of_first_power_passes_the_gate_too_and_so_does_typing_its_date(
    store: Store, shaper: int
) -> None:
    with store.read() as connection:
        touched = next(row for row in checks(connection, shaper) if row.text.startswith("Touched on"))
    with refuses(store, "things stand before power", Refused):
        run.check_done(store, touched.id)
    with refuses(store, "things stand before power", Refused):
        editing.edit(store, "run_look", [touched.id], {"done_at": "2026-05-01"})
    check_all(store, shaper)
    with refuses(store, "Reason: “because” is not asked for"):
        run.check_done(store, touched.id, reason="because")
    run.check_done(store, touched.id)


def test_cautions_on_a_step_of_power_are_read_first(store: Store, shaper: int) -> None:
    check_all(store, shaper)
    step = first_power(store, shaper)
    tasks.add_caution(store, step, "guards")
    with pytest.raises(Refused, match="Nobody has said that its cautions were read") as refused:
        tasks.tick(store, step)
    ways.take(store, next(way for way in refused.value.ways if way.kind is WayKind.READ))
    tasks.tick(store, step)


def test_the_plan_hears_what_holds_a_step_row_by_row(store: Store, shaper: int) -> None:
    joint = joints.add_joint(store, shaper, None, "rail clamp bolts", {"wanted": "snug"})
    check_all(store, shaper)
    step = first_power(store, shaper)
    run.lay_out_run(store, shaper, 12, 90)
    with store.read() as connection:
        found = holds(connection, shaper)
        slow, quarter, *_ = run_steps(connection, shaper)
    of_step = [hold for hold in found if hold.task_id == step]
    assert [(hold.gate, hold.page, hold.target) for hold in of_step] == [(Gate.POWER, "joints", joint)]
    joints.set_joints(store, [joint], joints.JointState(Tightness.SNUG))
    with store.read() as connection:
        found = holds(connection, shaper)
    assert [hold.task_id for hold in found if hold.task_id] == []
    assert [hold.target for hold in found if hold.run_step_id == slow.id] == []
    assert [hold.target for hold in found if hold.run_step_id == quarter.id] == [slow.id]
    assert quarter.state is RunState.TO_RUN
