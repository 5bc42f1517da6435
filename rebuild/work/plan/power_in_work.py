"""What stands before power as work: each joint nobody's step sees to, and the checks once all is together."""

from __future__ import annotations

from rebuild.trade.schedule.graph import Ref
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.usual import LOOK
from rebuild.words.gates import Gate
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import JointFact
from rebuild.work.plan.laying import Laying, Slot, key_of, said_elsewhere


def lay_before_power(laying: Laying) -> None:
    """Joints nobody's step sees to; and, once nothing else is left, the checks, which hold what needs power.

    Laid last: while other work is open the checks stand at the gate alone, where they hold the same steps.
    """
    joints = {_joint(laying, joint): joint for joint in laying.facts.joints if not _seen_to(laying, joint)}
    powered = [held.task_id for held in laying.facts.gates if held.gate is Gate.POWER]
    if not laying.facts.checks or not _all_else_done(laying, powered, set(joints)):
        return
    (first, text), *more = laying.facts.checks
    said = f"{text} and {len(more)} more" if more else text
    times = len(laying.facts.checks)
    key = laying.add(
        key_of(Slot.CHECKS, first),
        TaskKind.INSPECT,
        f"Check before power: {said}",
        Ref("run_look", first),
        ThreePoint(LOOK.shortest * times, LOOK.likely * times, LOOK.longest * times),
    )
    for before, joint in joints.items():
        laying.tie(before, key, Holding.GATE, f"{joint.name}: {joint.state}", joint.id)
    for step_id in powered:
        if laying.is_open(step_id):
            laying.tie(key, step_id, Holding.GATE, f"{Gate.POWER.value}: {said}", first)


def _all_else_done(laying: Laying, powered: list[int], joints: set[int]) -> bool:
    """Whether a machine that was worked on has nothing left open but what may come with or after the checks."""
    if not any(step.state is TaskState.DONE for step in laying.facts.steps):
        return False
    left = [
        node.key
        for node in laying.nodes.values()
        if node.open and node.key not in joints and not said_elsewhere(node)
    ]
    # What nothing typed comes before cannot come after the checks: mostly one is found at once.
    if any(key not in laying.linked.behind for key in set(left).difference(powered)):
        return False
    return laying.behind(powered).issuperset(left)


def _seen_to(laying: Laying, joint: JointFact) -> bool:
    """Whether an open step brings it together, or its part is not there yet."""
    if joint.part_id in laying.unmade or laying.is_open(joint.task_id or 0):
        return True
    return any(laying.is_open(step.id) for step in laying.put_on_by.get(joint.part_id or 0, ()))


def _joint(laying: Laying, joint: JointFact) -> int:
    title = f"Put together {joint.name}" if joint.apart else f"Make final {joint.name}: {joint.state}"
    return laying.add(
        key_of(Slot.JOINT, joint.id),
        TaskKind.OTHER,
        title,
        Ref("joint", joint.id),
        LOOK,
        part=laying.parts.get(joint.part_id or 0),
        subassembly_id=joint.subassembly_id,
    )
