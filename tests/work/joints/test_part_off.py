"""A part that comes off is held by no joint: whatever joint it has is apart, and no second one is made for it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.store.store import Store
from rebuild.words.joints import Tightness
from rebuild.words.places import PlaceKind
from rebuild.words.steps import TaskKind
from rebuild.work.editing import acts as edit
from rebuild.work.joints import acts as joints, rows as joint_rows, rows_parts_held
from rebuild.work.machines import acts as identify
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps import acts as tasks, acts_again as again
from rebuild.work.teardown import acts_attempts as attempts, acts_fasteners as holes
from rebuild.work.teardown.acts import Off, log_removal
from rebuild.work.teardown.acts_line import say_removal
from rebuild.work.teardown.rows_candidates import candidates
from tests.work.teardown.bench_apron import Apron, drafted, on_the_bench


@pytest.fixture
def apron(store: Store) -> Apron:
    """The cover is held by two bolts of whose thread nobody has said anything, and by a dowel."""
    made = on_the_bench(store)
    for name, tight in (("cover bolt left", "snug"), ("cover bolt right", "finger")):
        key = joints.add_joint(store, made.machine, made.group, name, {"part_id": str(made.parts["cover"])})
        joints.set_joints(store, [key], joints.JointState(Tightness(tight)))
    return made


def state(apron: Apron) -> dict[str, str]:
    with apron.store.read() as connection:
        return {row.name: row.tight.value for row in joint_rows.joints(connection, apron.machine)}


APART = {"cover bolt left": "apart", "cover bolt right": "apart"}


def test_a_removal_without_a_word_of_fasteners_takes_every_joint_of_the_part_apart(apron: Apron) -> None:
    before = state(apron)
    apron.off("cover")
    assert state(apron) == APART
    apron.store.undo()
    assert state(apron) == before


def test_fasteners_of_the_line_are_those_of_the_joints_there(apron: Apron) -> None:
    """The trial: a guard with a left and a right joint, and the line naming two bolts, made a third joint."""
    say_removal(apron.store, apron.machine, apron.group, "AP-05 u, 2 x 5/16-18 x 1 hex")
    assert state(apron) == APART
    with apron.store.read() as connection:
        rows = joint_rows.joints(connection, apron.machine)
    assert {(row.thread, row.count) for row in rows} == {("5/16-18", 1)}
    drafted(apron)
    tasks.tick(apron.store, apron.step("cover").id, tasks.Done(joint="snug"))
    assert set(state(apron).values()) == {"snug"}, "the step puts all of them together"
    attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by="worm bound")
    say_removal(apron.store, apron.machine, apron.group, "AP-05 u, 2 x 5/16-18 UNC hex")
    assert state(apron) == APART


def test_a_pin_and_another_thread_are_joints_of_their_own(apron: Apron) -> None:
    key = apron.off("cover")
    holes.add_fastener(apron.store, key, "dowel 1/4")
    holes.add_fastener(apron.store, key, "2 x 5/16-18 hex")
    holes.add_fastener(apron.store, key, "1 x 1/4-20 socket")
    found = state(apron)
    assert len(found) == 4
    assert set(found.values()) == {"apart"}
    with apron.store.read() as connection:
        threads = sorted(row.thread for row in joint_rows.joints(connection, apron.machine))
    assert threads.count("5/16-18") == 2
    assert threads.count("1/4-20") == 1


def _tick_removal(apron: Apron) -> None:
    key = tasks.add_task(
        apron.store, apron.machine, apron.group, "cover off", TaskKind.REMOVE, part_id=apron.parts["cover"]
    )
    tasks.tick(apron.store, key)


def _again(apron: Apron) -> None:
    key = tasks.add_task(
        apron.store, apron.machine, apron.group, "cover on", TaskKind.REFIT, part_id=apron.parts["cover"]
    )
    tasks.tick(apron.store, key, tasks.Done(joint="snug"))
    again.take_apart_again(apron.store, apron.parts["cover"], "shim wrong")


@pytest.mark.parametrize("door", [_tick_removal, _again])
def test_every_other_door_takes_them_all_apart_too(apron: Apron, door: Callable[[Apron], None]) -> None:
    door(apron)
    assert state(apron) == APART


def test_a_removing_step_ticked_late_takes_nothing_apart_that_is_on_again(apron: Apron) -> None:
    late = tasks.add_task(
        apron.store, apron.machine, apron.group, "cover off", TaskKind.REMOVE, part_id=apron.parts["cover"]
    )
    on = tasks.add_task(
        apron.store, apron.machine, apron.group, "cover on", TaskKind.REFIT, part_id=apron.parts["cover"]
    )
    tasks.tick(apron.store, on)
    done = next(row.done_at for row in apron.steps() if row.id == on)
    tasks.tick(apron.store, late, tasks.Done(at=done))
    assert "apart" not in state(apron).values()


# Seen: "In SP Spindle and quill", and it stayed there although the part was said to be DR-02.
def test_a_joint_stands_where_its_part_does(apron: Apron) -> None:
    other = identify.add_subassembly(apron.store, apron.machine, "Drive", "DR")
    guard = identify.add_part(apron.store, apron.machine, other, "belt guard", "DR-02")
    plain = joints.add_joint(apron.store, apron.machine, apron.group, "guard bolt")
    edit.edit(apron.store, "joint", [plain], {"part_id": str(guard)})
    joints.add_joint(apron.store, apron.machine, apron.group, "guard nut", {"part_id": str(guard)})
    say_removal(apron.store, apron.machine, apron.group, "DR-02 u, 4 x M6 socket, dowel 1/4")
    with apron.store.read() as connection:
        rows = joint_rows.joints(connection, apron.machine)
    assert [row.of for row in rows if row.part_id == guard] == ["DR Drive"] * 3


# Seen: "Next off: SP-01 Spindle", which was at the grinder.
def test_what_lies_in_a_bag_or_at_a_shop_is_not_the_next_thing_off(apron: Apron) -> None:
    def next_off() -> str:
        with apron.store.read() as connection:
            return candidates(connection, apron.machine, apron.group).still_on[0].name

    assert next_off() == "apron casting"
    shop = identify.add_place(apron.store, "a grinding shop", PlaceKind.AT_A_SHOP)
    edit.edit(apron.store, "part", [apron.parts["apron casting"]], {"place_id": str(shop)})
    assert next_off() == "half nuts"


def test_a_joint_of_two_parts_is_apart_while_one_is_off_and_says_which(apron: Apron) -> None:
    """Two parts under the same bolts: the log names both, and the joint has one state."""
    shield = identify.add_part(apron.store, apron.machine, apron.group, "shield", "AP-20")
    log = log_removal(apron.store, apron.machine, apron.group, Off(part_ids=(apron.parts["cover"], shield)))
    holes.add_fastener(apron.store, log, "2 x 5/16-18 socket, in the flange")
    drafted(apron)
    tasks.tick(apron.store, apron.step("cover").id, tasks.Done(joint="snug"))
    assert "apart" not in state(apron).values()
    attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by="shield rattles")
    say_removal(apron.store, apron.machine, apron.group, "AP-20 u")
    with apron.store.read() as connection:
        rows = rows_parts_held.joints_said(connection, apron.machine)
    (both,) = [row for row in rows if row.name == "cover bolt left"]
    assert both.part_id == apron.parts["cover"]
    assert both.tight is Tightness.APART
    assert both.lacks.startswith("AP-20 shield is off; apart")
    with pytest.raises(Refused, match="AP-20 shield is off"):
        joints.set_joints(apron.store, [both.id], joints.JointState(Tightness.SNUG))
    own = tasks.add_task(
        apron.store, apron.machine, apron.group, "cover on", TaskKind.REFIT, part_id=apron.parts["cover"]
    )
    tasks.tick(apron.store, own, tasks.Done(joint="snug"))
    assert state(apron)["cover bolt left"] == "apart", "its other part is off still"
    drafted(apron)
    tasks.tick(apron.store, apron.step("shield").id, tasks.Done(joint="snug"))
    assert set(state(apron).values()) == {"snug"}
