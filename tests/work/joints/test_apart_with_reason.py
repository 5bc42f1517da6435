"""A joint comes apart by one door: with why, its step open again, and never while the machine may turn.

Common practice, no source.
"""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.model.records.joints import Joint
from rebuild.store.act import Act
from rebuild.words.joints import Tightness
from rebuild.words.run_in import RunState
from rebuild.words.steps import TaskState
from rebuild.work.editing import acts as edit
from rebuild.work.joints import acts as joints
from rebuild.work.joints.rows import joints as joint_rows
from rebuild.work.records.ways_out import Refused, WayKind
from rebuild.work.run_in import acts as run
from rebuild.work.steps import acts as tasks
from rebuild.work.steps.acts_joint_apart import take_joints_apart
from rebuild.work.steps.rows import tasks as steps
from rebuild.work.steps.rows_attempts import step_attempts
from tests.conftest import Shop
from tests.support import refuses

APART = joints.JointState(Tightness.APART)


@pytest.fixture
def pair(shop: Shop) -> tuple[int, int, int]:
    """A step done with two joints torqued: the step and the joints."""
    step = tasks.add_task(shop.store, shop.machine, shop.headstock, "Cap on", part_id=shop.cap)
    keys = [
        joints.add_joint(
            shop.store, shop.machine, shop.headstock, name,
            {"tight": "torqued", "torque_done": "40 N·m", "torque_wanted": "40 N·m"},
        )
        for name in ("left bolt", "right bolt")
    ]  # fmt: skip
    with shop.store.act(Act.EDIT, "joints of the step") as tx:
        for key in keys:
            tx.get(Joint, key, "joint").task_id = step
    tasks.tick(shop.store, step)
    return step, keys[0], keys[1]


def tight(shop: Shop) -> dict[int, str]:
    with shop.store.read() as connection:
        return {row.id: row.tight for row in joint_rows(connection, shop.machine)}


# Seen: "x" on a torqued joint made it apart at once, and its step stayed "done, torqued 40 Nm".
def test_a_joint_of_a_done_step_comes_apart_only_with_a_reason(
    shop: Shop, pair: tuple[int, int, int]
) -> None:
    step, left, right = pair
    with refuses(shop.store, "brought together by “Cap on”, which is done", Refused) as caught:
        joints.set_joints(shop.store, [left], APART)
    assert [way.kind for way in caught.value.ways] == [WayKind.ALL_THE_SAME]
    with refuses(shop.store, "brought together by “Cap on”, which is done", Refused):
        edit.edit(shop.store, "joint", [left], {"tight": "apart"})
    with refuses(shop.store, "Why again: is empty", BadEntry):
        take_joints_apart(shop.store, [left], "  ")
    assert take_joints_apart(shop.store, [left], "shim too thick") == 1
    assert tight(shop) == {left: "apart", right: "torqued"}, "the other joint of the step stays as it is"
    with shop.store.read() as connection:
        row = next(row for row in steps(connection, shop.machine) if row.id == step)
        (attempt,) = step_attempts(connection, shop.machine)
    assert row.state is TaskState.OPEN
    assert attempt.reason == "shim too thick"
    assert "left bolt: " in attempt.joints
    shop.store.undo()
    assert tight(shop) == {left: "torqued", right: "torqued"}


def test_nothing_comes_apart_while_a_speed_runs(shop: Shop, pair: tuple[int, int, int]) -> None:
    key = run.add_step(shop.store, shop.machine, "slow", {"speed_rpm": "200"})
    run.begin_step(shop.store, key, reason="turned by hand")
    with refuses(shop.store, "“slow” of the run-in is running", Refused):
        take_joints_apart(shop.store, [pair[1]], "noise")
    with refuses(shop.store, "“slow” of the run-in is running", Refused):
        joints.set_joints(shop.store, [pair[1]], APART)
    run.end_step(shop.store, key, RunState.STOPPED)
    assert take_joints_apart(shop.store, [pair[1]], "noise") == 1
