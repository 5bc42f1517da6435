"""A part that is off and decided goes back on: work of the graph although its refit was never drafted."""

from __future__ import annotations

from itertools import groupby, pairwise

from rebuild.trade.schedule.graph import Ref
from rebuild.trade.schedule.usual import of_kind
from rebuild.words.decisions import Decision
from rebuild.words.steps import TaskKind, TaskState
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import OffFact, PartFact, StepFact
from rebuild.work.plan.laying import Laying, Slot, key_of


def lay_putting_back(laying: Laying) -> None:
    """Each removal whose parts no open step puts back, once one of them is decided; the log backwards is the order.

    Laid before what holds a part, so that a making, a decision, a bath or a fit holds this as it holds a drafted
    step. It leads to the log, whose draft takes its place.
    """
    for attempt_id, rows in groupby(laying.facts.off, key=lambda one: one.attempt_id):
        laid: list[int] = []
        for removal_id, off in groupby(rows, key=lambda one: one.removal_id):
            parts = _to_put_back(laying, list(off))
            if parts:
                laid.append(_lay(laying, removal_id, attempt_id, parts))
        for before, after in pairwise(reversed(laid)):
            words = f"{laying.nodes[before].title} first: it came off after"
            laying.tie(before, after, Holding.CHAIN, words)


def _to_put_back(laying: Laying, off: list[OffFact]) -> list[PartFact]:
    """The parts of a removal that nothing open puts on; none of them while none is decided."""
    parts = [
        laying.parts[one.part_id]
        for one in off
        if one.part_id in laying.parts
        and not any(laying.is_open(step.id) for step in laying.put_on_by.get(one.part_id, ()))
    ]
    return parts if any(part.decision is not Decision.OPEN for part in parts) else []


def _lay(laying: Laying, removal_id: int, attempt_id: int, parts: list[PartFact]) -> int:
    first = parts[0]
    called = ", ".join(part.called for part in parts)
    key = laying.add(
        key_of(Slot.PUT_BACK, removal_id),
        TaskKind.REFIT,
        f"Put back on: {called}",
        Ref("attempt", attempt_id),
        of_kind(TaskKind.REFIT),
        part=first,
    )
    stands = StepFact(
        key, first.subassembly_id, first.id, f"Put back on: {called}", TaskKind.REFIT, TaskState.OPEN
    )
    for part in parts:
        laying.put_on_by[part.id].append(stands)
    return key
