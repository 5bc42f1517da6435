"""An undecided part holds what puts it on: what cannot be undone always, the rest once it was measured or fits."""

from __future__ import annotations

from rebuild.trade.schedule.graph import Ref
from rebuild.trade.schedule.usual import DECIDE
from rebuild.words.decisions import Decision
from rebuild.words.steps import TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.plan.facts import PartFact, StepFact
from rebuild.work.plan.laying import Laying, Slot, key_of


def lay_undecided(laying: Laying) -> None:
    """The decision comes before the step, which may still go on all the same with a reason."""
    fitted = {side.part_id for fit in laying.facts.fits for side in fit.sides}
    for part in laying.facts.parts:
        if part.decision is not Decision.OPEN:
            continue
        asked = part.id in fitted or part.id in laying.measured
        steps = [step for step in _of(laying, part) if step.irreversible or asked]
        for step in steps:
            laying.tie(
                _decision(laying, part, step),
                step.id,
                Holding.UNDECIDED,
                f"{part.called} is still to be decided",
                part.id,
            )


def _of(laying: Laying, part: PartFact) -> list[StepFact]:
    """The open steps that put a part on, or that are of it and cannot be undone."""
    own = [step for step in laying.open_of_part.get(part.id, ()) if step.irreversible]
    puts_on = laying.put_on_by.get(part.id, ())
    if not own and not puts_on:
        return []
    found = {step.id: step for step in (*puts_on, *own)}
    return [step for step in found.values() if laying.is_open(step.id) and step.kind is not TaskKind.DECIDE]


def _decision(laying: Laying, part: PartFact, step: StepFact) -> int:
    typed = laying.step_of(part.id, TaskKind.DECIDE, (step.id,))
    if typed is not None:
        return typed
    words = f"Decide what becomes of {part.called}"
    return laying.add(
        key_of(Slot.DECIDE, part.id), TaskKind.DECIDE, words, Ref("part", part.id), DECIDE, part=part
    )
