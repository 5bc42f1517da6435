"""What stands before power is work of the graph, and an undecided part holds what puts it on.

Common practice, no source.
"""

from __future__ import annotations

import datetime as dt

from rebuild.words.decisions import Decision
from rebuild.words.readings import FeatureKind
from rebuild.words.steps import TaskKind
from rebuild.words.work_graph import Holding, Standing
from rebuild.work.decisions import acts as decide
from rebuild.work.joints import acts as joints
from rebuild.work.machines import acts as identify
from rebuild.work.plan.laying import said_elsewhere
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records.ways_out import Refused
from rebuild.work.steps import acts as tasks
from rebuild.work.where_was_i.rows import where_was_i
from tests.support import refuses
from tests.work.plan.test_derived import NOW, Bare, bare

__all__ = ["bare"]


# Seen: a guard finger tight, a cap apart, 15 checks open, and "nothing else can be done now", "Finish" today.
def test_joints_and_checks_before_power_are_work_and_move_the_finish(bare: Bare) -> None:
    swept = tasks.add_task(bare.store, bare.machine, None, "Sweep the ways")
    tasks.tick(bare.store, swept)
    power = tasks.add_task(bare.store, bare.machine, None, "First power", TaskKind.COMMISSION)
    guard = joints.add_joint(bare.store, bare.machine, None, "guard", {"tight": "finger", "wanted": "snug"})
    cap = joints.add_joint(bare.store, bare.machine, None, "front cap", {"wanted": "torqued"})
    graph = bare.work().graph
    assert [(node.title, node.ref.id) for node in graph.ready if not said_elsewhere(node)] == [
        ("Make final guard: finger tight, to be snug", guard),
        ("Put together front cap", cap),
    ]
    checks = bare.node("Check before power")
    assert {hold.ref.id for hold in graph.held_by(checks.key)} == {guard, cap}
    assert checks.key in {hold.key for hold in graph.held_by(power)}
    with bare.store.read() as connection:
        found = where_was_i(connection, bare.machine, NOW)
    assert [action.ref.table for action in found.next_actions] == ["joint", "joint"]
    assert found.finish is not None
    assert found.finish.date() > NOW.date()
    joints.set_joints(bare.store, [guard], joints.JointState(joints.Tightness.SNUG))
    assert {hold.ref.id for hold in bare.work().graph.held_by(checks.key)} == {cap}
    tasks.add_task(bare.store, bare.machine, None, "Scrape the saddle")
    after = tasks.add_task(bare.store, bare.machine, None, "Level it again", after=[power])
    later = bare.work().graph
    assert {hold.title for hold in later.held_by(checks.key)} == {
        "Scrape the saddle",
        "Put together front cap",
    }, "in the plan from the first, behind all that comes before power"
    assert checks.key not in {hold.key for hold in later.held_by(after)}
    assert not later.loops


# Seen: the finish stood at 19 Dec; ticking a refit step made it 22 Dec, taking the tick off 19 Dec again.
def test_doing_work_never_makes_the_finish_later(bare: Bare) -> None:
    steps = [tasks.add_task(bare.store, bare.machine, None, f"Fit no. {place}") for place in range(3)]

    def finish() -> dt.datetime:
        with bare.store.read() as connection:
            found = where_was_i(connection, bare.machine, NOW).finish
        assert found is not None
        return found

    assert {hold.key for hold in bare.work().graph.held_by(bare.node("Check before power").key)} == set(steps)
    stood = [finish()]
    for step in steps:
        tasks.tick(bare.store, step)
        stood.append(finish())
    assert stood == sorted(stood, reverse=True)
    assert stood[-1] < stood[0]


def test_a_joint_its_open_step_brings_together_is_not_named_twice(bare: Bare) -> None:
    cap = bare.part("HS-02", "cap", Decision.REUSE)
    tasks.add_task(bare.store, bare.machine, None, "Cap on", TaskKind.REFIT, part_id=cap)
    joints.add_joint(bare.store, bare.machine, None, "cap screws", {"part_id": str(cap)})
    assert [node.title for node in bare.work().graph.ready] == ["Cap on"]


# Seen: "Press in Rear bush", which cannot be undone, was ready with its part undecided.
def test_an_undecided_part_holds_what_cannot_be_undone(bare: Bare) -> None:
    bush, cover = bare.part("HS-01", "rear bush"), bare.part("HS-09", "cover")
    press = tasks.add_task(
        bare.store,
        bare.machine,
        None,
        "Press in the bush",
        TaskKind.REFIT,
        part_id=bush,
        typed={"irreversible": "yes"},
    )
    on = tasks.add_task(bare.store, bare.machine, None, "Cover on", TaskKind.REFIT, part_id=cover)
    graph = bare.work().graph
    assert [(hold.kind, hold.ref.id) for hold in graph.held_by(press)] == [(Holding.UNDECIDED, bush)]
    assert graph.standing(on) is Standing.READY, "nobody measured the cover: nothing is known against it"
    with refuses(bare.store, "HS-01 rear bush is still to be decided", Refused):
        tasks.tick(bare.store, press)
    decide.decide(bare.store, [bush], Decision.REUSE, reason="sound")
    assert bare.work().graph.standing(press) is Standing.READY


def test_a_part_measured_and_undecided_holds_its_refit_step(bare: Bare) -> None:
    spindle = bare.part("HS-03", "spindle")
    on = tasks.add_task(bare.store, bare.machine, None, "Spindle in", TaskKind.REFIT, part_id=spindle)
    journal = spec.add_feature(bare.store, spindle, "journal", FeatureKind.OUTSIDE_DIAMETER)
    measure.record_reading(bare.store, "59.98", measure.Entry(journal))
    with refuses(bare.store, "HS-03 spindle is still to be decided", Refused):
        tasks.tick(bare.store, on)
    tasks.tick(bare.store, on, reason="trial only, comes off again")
    other = identify.add_part(bare.store, bare.machine, None, "collar", "HS-04")
    assert bare.of(other) == []
