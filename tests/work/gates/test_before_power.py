"""First power is held by what stands before it, gone on with only with a reason, and an empty list is no clearance."""

from __future__ import annotations

import pytest

from rebuild.store.store import Store
from rebuild.trade.run_in.checks import usual_looks
from rebuild.words.decisions import Decision
from rebuild.words.gates import Gate
from rebuild.words.joints import Tightness
from rebuild.words.machines import MachineKind
from rebuild.words.readings import FeatureKind
from rebuild.words.run_in import LookWhen, RunState
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.waiting import WaitingKind
from rebuild.work.book.rows import read_book
from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as editing, acts_ways_out as ways
from rebuild.work.gates import acts as gates
from rebuild.work.gates.acts_checks import lay_out_checks
from rebuild.work.gates.rows import gone_on
from rebuild.work.joints import acts as joints
from rebuild.work.joints.rows import joints as joint_rows
from rebuild.work.machines.acts import add_machine, add_part
from rebuild.work.power.rows import before_power, holds
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.refit.acts import draft
from rebuild.work.run_in import acts as run
from rebuild.work.run_in.rows import checks, run_steps
from rebuild.work.steps import acts as tasks, acts_again
from rebuild.work.steps.rows import tasks as task_rows
from rebuild.work.teardown.acts import log_removal
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.teardown.off import Off
from rebuild.work.teardown.rows_attempts import attempts
from rebuild.work.waiting.acts import Mark, add_waiting, mark
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
    said = "1 thing stands before power, and “First power” needs it: rail clamp bolts: apart, to be snug"
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
    with refuses(store, "things stand before power, .*: ram clamp: apart", Refused):
        tasks.tick(store, second)


# Seen: the motor alone and a touch gone on with, then the run-in began unasked with joints apart and earth unproved.
def test_a_reason_lets_one_act_pass_and_the_next_is_asked_again(store: Store) -> None:
    mill = add_machine(store, "Mill", {"kind": "mill"})
    joints.add_joint(store, mill, None, "arbor nut", {"wanted": "torqued", "torque_wanted": "20 N·m"})
    run.lay_out_run(store, mill, 60, 600)
    with store.read() as connection:
        looks = checks(connection, mill)
        count = len(before_power(connection, mill))
        slow = run_steps(connection, mill)[0].id
    alone = next(row for row in looks if row.text.startswith("Motor alone"))
    touch = next(row for row in looks if row.text.startswith("Touched on"))
    with refuses(store, "By: is empty, and what is gone on with all the same is printed with who did it"):
        run.check_done(store, alone.id, reason="only motor bump, belt off")
    run.check_done(store, alone.id, "the owner", reason="only motor bump, belt off")
    whole = f"{count} things stand before power, .*arbor nut"
    with refuses(store, whole, Refused):
        run.check_done(store, touch.id)
    run.check_done(store, touch.id, "the owner", reason="a touch")
    with refuses(store, whole, Refused):
        run.begin_step(store, slow)
    run.begin_step(store, slow, reason="guards stand, nobody near")
    with store.read() as connection:
        assert run_steps(connection, mill)[0].now == "running, all the same"
    run.read_bearing(store, slow, "front", 20, "30 C")
    with refuses(store, whole, Refused):
        run.end_step(store, slow, RunState.RUN)


# Seen: a front bush 3.6 thou over and undecided was no line under the parts before power.
def test_a_part_out_of_its_limits_and_undecided_stands_before_power(store: Store, shaper: int) -> None:
    def parts() -> list[str]:
        with store.read() as connection:
            return [one.text for one in before_power(connection, shaper) if one.sort == "part"]

    bush = add_part(store, shaper, None, "front bush", "SP-05")
    bore = spec.add_feature(store, bush, "bore", FeatureKind.BORE, unit="in", spec="0.7500-0.7505")
    measure.record_reading(store, "0.7504", measure.Entry(bore))
    assert parts() == []
    measure.record_reading(store, "0.7541", measure.Entry(bore))
    assert parts() == ["SP-05 front bush: bore 0.0036 in over its limit, still to be decided"]
    measure.record_reading(store, "0.7493", measure.Entry(bore))
    assert parts() == ["SP-05 front bush: bore 0.0007 in under its limit, still to be decided"], (
        "the newest speaks"
    )
    decide.decide(store, [bush], Decision.REUSE, reason="runs slowly, good enough")
    assert parts() == []


def test_parts_not_there_stand_before_power(store: Store, shaper: int) -> None:
    check_all(store, shaper)
    gib, lever, knob, spare, rest = (
        add_part(store, shaper, None, name) for name in ("gib", "lever", "knob", "spare gib", "ram")
    )
    editing.edit(store, "part", [lever], {"decision": "remake", "decision_reason": "worn"})
    editing.edit(store, "part", [knob], {"origin": "missing"})
    bought = {"decision": "buy", "decision_reason": "for the shelf"}
    editing.edit(store, "part", [spare], {**bought, "spare_of_id": str(gib)})
    sent = add_waiting(
        store, shaper, "gib ground", WaitingKind.SENT_OUT, part_id=gib, typed={"who": "the grinder"}
    )
    mark(store, sent, Mark.ORDERED)
    log_removal(store, shaper, None, Off(part_ids=(rest,)))
    with store.read() as connection:
        standing = before_power(connection, shaper)
    assert {one.text for one in standing} == {
        "gib: away, sent out (the grinder)", "lever: not made", "knob: missing",
        "ram: taken off and still to be decided",
    }  # fmt: skip
    assert {one.sort for one in standing} == {"part"}


# Seen: the book printed "and 12 more" of what was overridden, and the refusal led to none of its rows.
def test_all_that_was_overridden_is_kept_and_the_refusal_leads_to_its_rows(store: Store, shaper: int) -> None:
    with store.read() as connection:
        standing = before_power(connection, shaper)
    assert len(standing) > 6
    step = first_power(store, shaper)
    with pytest.raises(Refused, match=f"and {len(standing) - 4} more") as refused:
        tasks.tick(store, step)
    assert [(row.words, row.id) for row in refused.value.rows] == [(one.text, one.target) for one in standing]
    assert {row.table for row in refused.value.rows} == {"run_look"}
    tasks.tick(store, step, reason="a touch")
    with store.read() as connection:
        (gone,) = read_book(connection, shaper).tried.gone_on
    assert all(one.text in gone.against for one in standing)
    assert " more." not in gone.against


def standing_parts(store: Store, machine: int) -> list[str]:
    with store.read() as connection:
        return [one.text for one in before_power(connection, machine) if one.sort == "part"]


# Seen: the spindle bush pulled, remade, its sheet accepted, its refit drafted and open: the gate did not name it.
@pytest.mark.parametrize("decision", ["open", "reuse", "rework", "remake", "buy", "defer"])
def test_a_part_that_came_off_stands_until_a_refit_step_put_it_back(
    store: Store, shaper: int, decision: str
) -> None:
    bush = add_part(store, shaper, None, "Spindle bush, front")
    removal = log_removal(store, shaper, None, Off(part_ids=(bush,)))
    editing.edit(store, "part", [bush], {"decision": decision, "decision_reason": "bore 0.08 over"})
    with store.read() as connection:
        attempt = attempts(connection, shaper)[0].id
    draft(store, attempt)
    with store.read() as connection:
        (step,) = [row.id for row in task_rows(connection, shaper) if row.part_id == bush]
    if decision in ("rework", "remake", "buy"):
        assert standing_parts(store, shaper)[0].startswith("Spindle bush, front: not ")
        shaped = tasks.add_task(store, shaper, None, "Shape it", TaskKind.REWORK, part_id=bush)
        assert standing_parts(store, shaper)[0].startswith("Spindle bush, front: not ")
        tasks.tick(store, shaped)
    said = "taken off and still to be decided" if decision == "open" else "taken off, not back on"
    assert removal
    assert standing_parts(store, shaper) == [f"Spindle bush, front: {said}"]
    tasks.tick(store, step)
    assert standing_parts(store, shaper) == []
    acts_again.open_again(store, step, "it ran hot")
    assert standing_parts(store, shaper) == [f"Spindle bush, front: {said}"]


def test_a_part_remade_or_bought_and_never_fitted_stands_too(store: Store, shaper: int) -> None:
    screw = add_part(store, shaper, None, "gib screw 8")
    editing.edit(store, "part", [screw], {"decision": "remake", "decision_reason": "missing"})
    tasks.tick(store, tasks.add_task(store, shaper, None, "Turn it", TaskKind.MAKE, part_id=screw))
    assert standing_parts(store, shaper) == ["gib screw 8: remade, not fitted"]
    tasks.tick(store, tasks.add_task(store, shaper, None, "Screw in", TaskKind.REFIT, part_id=screw))
    assert standing_parts(store, shaper) == []
    lever = add_part(store, shaper, None, "lever")
    editing.edit(store, "part", [lever], {"decision": "rework", "decision_reason": "bent"})
    assert standing_parts(store, shaper) == ["lever: not reworked"]


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
        alone, every = (len(before_power(connection, shaper, motor_alone=only)) for only in (True, False))
    said = f"{alone} things stand before power of the motor alone (of {every} before power in all)"
    assert said in str(refused.value)
    with store.read() as connection:
        electrical = [
            row.id
            for row in checks(connection, shaper)
            if row.due is LookWhen.BEFORE_POWER and row.topic in ("lockout", "mains", "capacitor")
        ]
    for key in electrical:
        run.check_done(store, key, "the electrician")
    tasks.tick(store, step)


# Seen: a guard logged off, put on finger tight, and the motor run alone beside it without a word.
def test_a_guard_left_finger_tight_is_asked_about_before_the_motor_runs_alone(
    store: Store, shaper: int
) -> None:
    guard = add_part(store, shaper, None, "belt guard", "BG-01")
    say_removal(store, shaper, None, "belt guard u, 2x M6x20")
    with store.read() as connection:
        (attempt,) = attempts(connection, shaper)
    draft(store, attempt.id)
    with store.read() as connection:
        (put_on,) = [row.id for row in task_rows(connection, shaper) if row.part_id == guard]
        before = [
            one.text for one in before_power(connection, shaper, motor_alone=True) if one.sort == "joint"
        ]
    assert before == [], "apart: nothing of it is there to fly off; power to the machine asks for it"
    tasks.tick(store, put_on, tasks.Done(joint="finger"))
    with store.read() as connection:
        for alone in (True, False):
            said = [
                one.text for one in before_power(connection, shaper, motor_alone=alone) if one.sort == "joint"
            ]
            assert said == ["BG-01 belt guard, M6 screw: finger tight, to be snug"]
        joint = next(row.id for row in joint_rows(connection, shaper))
    joints.set_joints(store, [joint], joints.JointState(Tightness.SNUG))
    with store.read() as connection:
        assert not [one for one in before_power(connection, shaper, motor_alone=True) if one.sort == "joint"]


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
