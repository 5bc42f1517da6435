"""What the fits ask of the work: master before follower, a measurement to take, a choice, a fit to look at again."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.trade.schedule.graph import Ref
from rebuild.trade.schedule.usual import DECIDE, LOOK, MEASURE
from rebuild.words.decisions import Decision
from rebuild.words.readings import STAGES
from rebuild.words.steps import TaskKind
from rebuild.words.work_graph import Holding
from rebuild.work.fits.rows_sides import Wait
from rebuild.work.plan.facts import FitFact, SideFact
from rebuild.work.plan.laying import Laying, Slot, key_of
from rebuild.work.plan.making_of_parts import TO_MAKE

#: Kinds of making that shape a part, and so must know its mate; a typed order of its bar need not wait.
_SHAPING = (TaskKind.MAKE, TaskKind.REWORK)


def lay_fits(laying: Laying) -> None:
    """Tie the making of followers to their masters, and lay what each fit is waiting for."""
    for fit in laying.facts.fits:
        if fit.changed:
            _look_again(laying, fit)
        if fit.promised is not None:
            _promise(laying, fit, *fit.promised)
        if fit.master is None:
            _choose(laying, fit)
        else:
            _follow(laying, fit, fit.sides[fit.master], fit.sides[1 - fit.master])
        if fit.wrong and not any(side.part_id in laying.making for side in fit.sides):
            laying.add(
                key_of(Slot.WRONG, fit.id),
                TaskKind.DECIDE,
                f"Decide what becomes of {fit.title}: {fit.wrong}",
                Ref("fit", fit.id),
                DECIDE,
                part=laying.parts.get(fit.sides[0].part_id),
            )


def _promise(laying: Laying, fit: FitFact, part_id: int, mate: str) -> None:
    """The mate a part was made for is still to come: it stays open until it is made and measured with it."""
    key = laying.add(
        key_of(Slot.PROMISE, fit.id),
        TaskKind.MEASURE,
        f"Measure {mate} with {fit.title}: promised to fit it later",
        Ref("fit", fit.id),
        MEASURE,
        part=laying.parts.get(part_id),
    )
    for before in _shaped(laying, part_id):
        laying.tie(before, key, Holding.MAKING, f"{mate} is not made yet", part_id)


def _choose(laying: Laying, fit: FitFact) -> None:
    for side in fit.sides:
        heads = _heads(laying, side.part_id)
        if side.wait is None or not heads:
            continue
        key = laying.add(
            key_of(Slot.CHOOSE, fit.id),
            TaskKind.DECIDE,
            f"Choose the master of {fit.title}",
            Ref("fit", fit.id),
            DECIDE,
            part=laying.parts.get(side.part_id),
        )
        for head in heads:
            laying.tie(key, head, Holding.CHOOSE, f"choose which side of {fit.title} is the master", fit.id)


def _follow(laying: Laying, fit: FitFact, master: SideFact, follower: SideFact) -> None:
    heads = _heads(laying, follower.part_id)
    if not heads or master.part_id == follower.part_id or follower.wait is None:
        return
    if master.wait is not None:
        key = known_by(laying, master.part_id, master.wait, heads)
        for head in heads:
            laying.tie(key, head, Holding.MASTER, master.wait.sentence, fit.id)


def _look_again(laying: Laying, fit: FitFact) -> None:
    """A fit that has changed is looked at before a step that cannot be undone puts one of its parts on."""
    key = laying.add(
        key_of(Slot.LOOK, fit.id),
        TaskKind.INSPECT,
        f"Look again at {fit.title}: {fit.changed}",
        Ref("fit", fit.id),
        LOOK,
        part=laying.parts.get(fit.sides[1].part_id),
    )
    steps = {step.id: step for side in fit.sides for step in laying.put_on_by.get(side.part_id, ())}
    for step in steps.values():
        if step.irreversible:
            laying.tie(key, step.id, Holding.LOOK, f"{fit.title} has changed since it was looked at", fit.id)


def known_by(laying: Laying, part_id: int, wait: Wait, heads: Sequence[int]) -> int:
    """The work after which a master is known: a measurement at a stage, or a decision."""
    part = laying.parts.get(part_id)
    kind = TaskKind.DECIDE if wait.stage is None else TaskKind.MEASURE
    typed = laying.step_of(part_id, kind, heads)
    if wait.stage is None:
        words = f"Decide what becomes of {part.called if part is not None else wait.title}"
        if typed is not None:
            return typed
        return laying.add(key_of(Slot.DECIDE, part_id), kind, words, Ref("part", part_id), DECIDE, part=part)
    made = part is not None and part.decision in TO_MAKE
    if typed is not None and not made:
        return typed
    key = laying.add(
        key_of(Slot.MEASURE, wait.feature_id * 16 + STAGES.index(wait.stage)),
        kind,
        f"Measure {wait.title}, {wait.stage.value}",
        Ref("feature", wait.feature_id),
        MEASURE,
        part=part,
        stage=wait.stage,
    )
    if part is not None:
        for before in _shaped(laying, part_id):
            laying.tie(
                before, key, Holding.MAKING, f"{part.called} is not {_done(part.decision)} yet", part.id
            )
    return key


def _done(decision: Decision) -> str:
    return {Decision.BUY: "bought", Decision.REWORK: "reworked"}.get(decision, "made")


def _heads(laying: Laying, part_id: int) -> list[int]:
    """The first open nodes of a part's making that must know its mate."""
    own = laying.making.get(part_id, ())
    derived = [key for key in own if key < 0 and not laying.nodes[key].elapsed]
    typed = [key for key in own if key > 0 and laying.nodes[key].kind in _SHAPING]
    if typed:
        return typed
    bought = [key for key in own if key > 0]
    return bought or derived[:1]


def _shaped(laying: Laying, part_id: int) -> list[int]:
    """The last node that shapes a part, after which it can be measured as made."""
    own = [key for key in laying.making.get(part_id, ()) if laying.nodes[key].kind is not TaskKind.INSPECT]
    typed = [key for key in own if key > 0]
    return typed or own[-1:]


def lay_decisions(laying: Laying) -> None:
    """A part that was measured and still to be decided is to be decided."""
    for part in laying.facts.parts:
        undecided = part.decision is Decision.OPEN and part.id in laying.measured
        if undecided and laying.step_of(part.id, TaskKind.DECIDE) is None:
            laying.add(
                key_of(Slot.DECIDE, part.id),
                TaskKind.DECIDE,
                f"Decide what becomes of {part.called}",
                Ref("part", part.id),
                DECIDE,
                part=part,
            )
