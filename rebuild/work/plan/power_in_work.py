"""What stands before power as work: each joint nobody's step sees to, and the checks once all is together."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.trade.schedule.graph import CLOSED, Edge, Ref
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.usual import LOOK
from rebuild.words.gates import Gate
from rebuild.words.steps import TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import JointFact
from rebuild.work.plan.laying import Laying, Slot, key_of, said_elsewhere


def lay_before_power(laying: Laying) -> None:
    """Joints nobody's step sees to; and the checks, which come last of all and hold what needs power.

    Laid last: the checks wait for all that nothing else waits for, less what comes after power. They are in the plan
    as soon as there is other work, not when the first of it is done: doing work never makes the finish later. A
    machine without any work has them in its list alone.
    """
    joints = {_joint(laying, joint): joint for joint in laying.facts.joints if not _seen_to(laying, joint)}
    powered = [held.task_id for held in laying.facts.gates if held.gate is Gate.POWER]
    if not laying.facts.checks or not laying.nodes:
        return
    (first, text), *more = laying.facts.checks
    said = f"{text} and {len(more)} more" if more else text
    times = len(laying.facts.checks)
    last = [key for key in _last_before(laying, powered) if key not in joints]
    key = laying.add(
        key_of(Slot.CHECKS, first),
        TaskKind.INSPECT,
        f"Check before power: {said}",
        Ref("run_look", first),
        ThreePoint(LOOK.shortest * times, LOOK.likely * times, LOOK.longest * times),
    )
    for before, joint in joints.items():
        laying.tie(before, key, Holding.GATE, f"{joint.name}: {joint.state}", joint.id)
    for before in last:
        laying.tie(before, key, Holding.CHAIN, f"{laying.nodes[before].title} first")
    for step_id in powered:
        if laying.is_open(step_id):
            laying.tie(key, step_id, Holding.GATE, f"{Gate.POWER.value}: {said}", first)


def _last_before(laying: Laying, powered: Sequence[int]) -> list[int]:
    """Open work that nothing open waits for but what needs power, and that comes after no power itself."""
    left = {key for key, node in laying.nodes.items() if not node.settled and node.state not in CLOSED}
    beside = laying.beside_links()
    if powered:
        left -= _reached(laying, beside, powered)
    # By place, not by name, and the typed links by what comes after each: there are ten thousand of them.
    waited_for = {edge[0] for edge in beside if edge[1] in left}
    after, nothing_else = laying.after, left.isdisjoint
    last = {key for key in left - waited_for if key not in after or nothing_else(after[key])}
    return [key for key in laying.nodes if key in last and not said_elsewhere(laying.nodes[key])]


def _reached(laying: Laying, beside: Sequence[Edge], keys: Sequence[int]) -> set[int]:
    """The keys given and all that comes after them: by the typed links, and by what was laid ``beside`` them."""
    seen = set(laying.behind(keys))
    while fresh := {edge[1] for edge in beside if edge[0] in seen} - seen:
        seen |= laying.behind(sorted(fresh))
    return seen


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
