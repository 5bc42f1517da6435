"""A joint that comes apart again must be looked at again, however it came apart."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from rebuild.store.store import Store
from rebuild.words.joints import Tightness
from rebuild.work.editing import acts as edit
from rebuild.work.joints import acts as joints, rows as joint_rows
from rebuild.work.steps import acts as tasks
from rebuild.work.teardown import acts as teardown, acts_attempts as attempts, acts_fasteners as holes
from tests.support import refuses
from tests.work.teardown.bench_apron import Apron, drafted, on_the_bench

ON = "it is back on, and no refit step was drafted"
SCREWS = "4 x 3/8-16 x 1 socket"


@pytest.fixture
def apron(store: Store) -> Apron:
    return on_the_bench(store)


@pytest.fixture
def joint(apron: Apron) -> int:
    """The cover's screws: off, back on, snug, and checked after the run-in."""
    apron.off("cover")
    holes.add_fastener(apron.store, apron.log()[0].id, SCREWS)
    with apron.store.read() as connection:
        (row,) = joint_rows.joints(connection, apron.machine)
    edit.edit(apron.store, "joint", [row.id], {"look_again": "yes", "duty": "bolt and nut, steel to steel"})
    joints.set_joints(apron.store, [row.id], joints.JointState(Tightness.SNUG, reason=ON))
    joints.looked_again(apron.store, [row.id])
    return row.id


def to_look_at(apron: Apron) -> list[int]:
    with apron.store.read() as connection:
        return [row.id for row in joint_rows.after_run_in(connection, apron.machine)]


def _off_again(apron: Apron, _joint: int) -> None:
    attempts.begin_attempt(apron.store, apron.machine, apron.group, stopped_by="worm bound")
    off = teardown.Off((apron.parts["cover"],))
    key = teardown.log_removal(apron.store, apron.machine, apron.group, off)
    holes.add_fastener(apron.store, key, SCREWS)


def _said_apart(apron: Apron, joint: int) -> None:
    joints.set_joints(apron.store, [joint], joints.JointState(Tightness.APART))


def _edited_apart(apron: Apron, joint: int) -> None:
    edit.edit(apron.store, "joint", [joint], {"tight": "apart"})


@pytest.mark.parametrize("take_apart", [_off_again, _said_apart, _edited_apart])
def test_a_joint_taken_apart_is_no_longer_looked_at_again(
    apron: Apron, joint: int, take_apart: Callable[[Apron, int], None]
) -> None:
    assert to_look_at(apron) == []
    take_apart(apron, joint)
    assert to_look_at(apron) == [joint]
    with apron.store.read() as connection:
        (row,) = joint_rows.joints(connection, apron.machine)
    assert (row.id, row.tight) == (joint, Tightness.APART)


def test_a_joint_only_loosened_or_tightened_keeps_it(apron: Apron, joint: int) -> None:
    joints.set_joints(apron.store, [joint], joints.JointState(Tightness.LOOSE))
    joints.set_joints(apron.store, [joint], joints.JointState(Tightness.TORQUED, torque="25 lb-ft"))
    assert to_look_at(apron) == []


@pytest.mark.parametrize("tight", [Tightness.APART, Tightness.LOOSE, Tightness.FINGER])
def test_a_joint_let_go_has_no_torque(apron: Apron, joint: int, tight: Tightness) -> None:
    joints.set_joints(apron.store, [joint], joints.JointState(Tightness.TORQUED, torque="25 lb-ft"))
    joints.set_joints(apron.store, [joint], joints.JointState(Tightness.SNUG))
    with apron.store.read() as connection:
        assert joint_rows.joints(connection, apron.machine)[0].torque_done == "25 lb-ft"
    joints.set_joints(apron.store, [joint], joints.JointState(tight))
    with apron.store.read() as connection:
        assert joint_rows.joints(connection, apron.machine)[0].torque_done == ""


def test_a_torque_makes_a_joint_torqued_but_takes_nothing_from_one_tighter(apron: Apron, joint: int) -> None:
    for before, after in ((Tightness.SNUG, "torqued"), (Tightness.LOCKED, "locked")):
        joints.set_joints(apron.store, [joint], joints.JointState(before))
        joints.set_joints(apron.store, [joint], joints.JointState(torque="25 lb-ft"))
        with apron.store.read() as connection:
            assert joint_rows.joints(connection, apron.machine)[0].tight == after


@pytest.mark.parametrize(
    ("before", "after"), [(Tightness.APART, "finger"), (Tightness.LOOSE, "loose"), (Tightness.SNUG, "snug")]
)
def test_putting_a_part_on_brings_only_a_joint_that_is_apart_to_finger_tight(
    apron: Apron, joint: int, before: Tightness, after: str
) -> None:
    drafted(apron)
    joints.set_joints(apron.store, [joint], joints.JointState(before))
    tasks.tick(apron.store, apron.step("cover").id)
    with apron.store.read() as connection:
        assert joint_rows.joints(connection, apron.machine)[0].tight == after


def test_refusals_store_nothing(apron: Apron, joint: int) -> None:
    with refuses(apron.store, "Torqued to: is empty. Type what it was torqued to"):
        joints.set_joints(apron.store, [joint], joints.JointState(Tightness.TORQUED))
    with refuses(apron.store, "Torqued to: “25” has no unit"):
        joints.set_joints(apron.store, [joint], joints.JointState(torque="25"))
    with refuses(apron.store, "Torque per bolt: “25” has no unit"):
        edit.edit(apron.store, "joint", [joint], {"torque_wanted": "25"})
