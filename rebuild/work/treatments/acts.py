"""Into the bath together and out of it, and a coat on many parts at once: each one act, its clocks started."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.model.records.steps import Task
from rebuild.model.records.waiting import Clock
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.trade.schedule.graph import WorkGraph
from rebuild.trade.sizes.amounts import parse_minutes, show_minutes
from rebuild.trade.treatments.together import NOT_BAKED, Window, metal_of, window_of
from rebuild.words.counted import counted
from rebuild.words.steps import TaskState
from rebuild.words.treatments import COATED, Treatment
from rebuild.words.waiting import ClockKind
from rebuild.words.work_graph import Standing
from rebuild.work.places.acts_follow import into_bath, out_of_bath
from rebuild.work.plan.laying import Slot, key_of
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.treatments_in_work import kind_of, row_of
from rebuild.work.records.columns import title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now
from rebuild.work.records.ways_out import Refused, Way, WayKind

ASSUMED = "assumed: usual, no tin read"
_CLOCKS = {Treatment.PRIME: ClockKind.RECOAT, Treatment.PAINT: ClockKind.CURE}


@dataclass(frozen=True, slots=True)
class Times:
    """What is typed of a batch: the soonest and the latest, else the usual; the bath or paint; baked or not."""

    soonest: str = ""
    latest: str = ""
    product: str = ""
    baked: bool = False


def begin(
    store: Store,
    machine_id: int,
    treatment: Treatment,
    part_ids: Sequence[int],
    times: Times | None = None,
    *,
    at: dt.datetime | None = None,
) -> list[int]:
    """Put parts in a bath together, or coat them together; returns the ids of their steps.

    What only followed from their condition becomes a step of each. A bath makes it under way and starts its clock; a
    coat makes it done and starts its recoat or cure clock.

    Raises:
        BadEntry: no part, a time that cannot be read or falls, or one that must not be baked.
        Refused: one of the parts has no such work that can be begun: it is named with what holds it.
    """
    said, moment = times or Times(), at or now()
    window, source = _window(store, treatment, said)
    if not part_ids:
        raise BadEntry("is none.", where="Parts", way_out="Choose those that go together.")
    with store.act(Act.BEGIN_BATCH, "") as tx:
        tx.get(Machine, machine_id, "machine")
        graph = work_graph(tx.connection, machine_id, moment).graph
        parts = [tx.get(Part, key, "part") for key in dict.fromkeys(part_ids)]
        for part in parts:
            refuse_other_machine(tx, machine_id, part=part.id)
        _refuse_baking(parts, baked=said.baked)
        steps = [_step(tx, graph, part, treatment) for part in parts]
        for part, step in zip(parts, steps, strict=True):
            _treat(tx, part, step, treatment, moment, said.product)
            _start(tx, step, treatment, window, moment, source, said.product)
        tx.subject = f"{treatment.value}: {counted(len(parts), 'part')}"
        return [step.id for step in steps]


def finish(
    store: Store,
    task_ids: Sequence[int],
    note: str = "",
    *,
    reason: str = "",
    at: dt.datetime | None = None,
) -> None:
    """Take parts out of the bath together: their clocks end, their steps are done.

    Raises:
        BadEntry: none is named, or one is no cleaning that is under way.
        Refused: its least time has not passed; a ``reason`` takes them out all the same and is kept with them.
    """
    moment = at or now()
    if not task_ids:
        raise BadEntry("is none.", where="Parts", way_out="Choose what comes out.")
    with store.act(Act.END_BATCH, "") as tx:
        steps = [tx.get(Task, key, "step") for key in dict.fromkeys(task_ids)]
        for step in steps:
            if step.treatment is None or step.treatment in COATED or step.state is not TaskState.UNDER_WAY:
                raise BadEntry(
                    "lies in no bath.", where="Step", value=step.title, way_out="Choose one that does."
                )
            said = "; ".join(filter(None, (note.strip(), reason.strip())))
            _refuse_too_early(tx, step, moment, reason)
            _close_clocks(tx, [step.id], moment, said)
            step.state, step.done_at, step.done_note = TaskState.DONE, moment, said
        tx.subject = f"{steps[0].treatment}: {counted(len(steps), 'part')} out"


def _refuse_too_early(tx: Tx, step: Task, at: dt.datetime, reason: str) -> None:
    """Raise Refused while a bath has not worked for its least time and no reason is given."""
    running = select(Clock).where(Clock.task_id == step.id, Clock.closed_at.is_(None))
    for clock in tx.session.scalars(running) if not reason.strip() else ():
        left = clock.low_min - (at - clock.started_at).total_seconds() / 60 if clock.low_min else 0.0
        if left > 0:
            raise Refused(
                f"“{step.title}” has not lain for its least time: {show_minutes(left)} are left.",
                way_out="Let it lie, or take it out with a reason.",
                ways=(Way(WayKind.ALL_THE_SAME, "Take it out all the same, and say why", step.id),),
            )


def _window(store: Store, treatment: Treatment, said: Times) -> tuple[Window, str]:
    usual = window_of(treatment, baked=said.baked)
    comma = decimal_comma(store)
    soonest = (
        parse_minutes(said.soonest, "Soonest after", decimal_comma=comma) if said.soonest.strip() else None
    )
    latest = parse_minutes(said.latest, "Latest after", decimal_comma=comma) if said.latest.strip() else None
    typed = soonest is not None or latest is not None
    low = usual.soonest if soonest is None else soonest
    high = latest if typed else usual.latest
    if high is not None and high < low:
        raise BadEntry(
            "is before the soonest.", where="Latest after", value=said.latest, way_out="Type a longer time."
        )
    return Window(low, high, usual.words), "as typed" if typed else ASSUMED


def _refuse_baking(parts: Sequence[Part], *, baked: bool) -> None:
    spoilt = [part for part in parts if baked and metal_of(part.material) in NOT_BAKED]
    if spoilt:
        raise BadEntry(
            f"must not be baked: {metal_of(spoilt[0].material).value}.",
            where="Part",
            value=title(spoilt[0]),
            way_out="Leave it out of the oven, or note its material first.",
        )


def _step(tx: Tx, graph: WorkGraph, part: Part, treatment: Treatment) -> Task:
    """The step of a part's treatment that can be begun now: its own, or one made of what followed."""
    own = tx.session.scalars(
        select(Task)
        .where(Task.part_id == part.id, Task.treatment == treatment, Task.state == TaskState.OPEN)
        .order_by(Task.id)
    ).first()
    key = own.id if own is not None else key_of(Slot.TREAT, row_of(part.id, treatment))
    node = graph.node(key)
    if node is None or graph.standing(key) is not Standing.READY:
        holds = graph.held_by(key) if node is not None else ()
        why = holds[0].sentence if holds else f"nothing says that it wants “{treatment.value}” now"
        raise Refused(
            f"{title(part)} cannot go with them: {why}.",
            way_out="See to that first, or leave it out; its condition and finish say what it wants.",
        )
    if own is not None:
        return own
    last = tx.session.scalar(
        select(func.max(Task.position)).where(
            Task.machine_id == part.machine_id, Task.subassembly_id.is_(part.subassembly_id)
        )
    )
    made = Task(
        machine_id=part.machine_id,
        subassembly_id=part.subassembly_id,
        part_id=part.id,
        title=node.title,
        kind=kind_of(treatment),
        treatment=treatment,
        position=0 if last is None else last + 1,
    )
    tx.session.add(made)
    tx.session.flush()
    return made


def _treat(tx: Tx, part: Part, step: Task, treatment: Treatment, at: dt.datetime, product: str) -> None:
    if treatment not in COATED:
        step.state = TaskState.UNDER_WAY
        return
    step.state, step.done_at, step.done_note = TaskState.DONE, at, product.strip()
    earlier = select(Task.id).where(Task.part_id == part.id, Task.treatment.in_(COATED), Task.id != step.id)
    _close_clocks(tx, list(tx.session.scalars(earlier)), at, f"{treatment.value}: coated over")


def _start(
    tx: Tx, step: Task, treatment: Treatment, window: Window, at: dt.datetime, source: str, product: str
) -> None:
    clock = Clock(
        machine_id=step.machine_id,
        subassembly_id=step.subassembly_id,
        part_id=step.part_id,
        task_id=step.id,
        kind=_CLOCKS.get(treatment, ClockKind.BATH),
        what=product.strip() or step.title,
        started_at=at,
        low_min=window.soonest,
        high_min=window.latest,
        source=source,
    )
    tx.session.add(clock)
    tx.session.flush()
    into_bath(tx, clock)


def _close_clocks(tx: Tx, task_ids: Sequence[int], at: dt.datetime, note: str) -> None:
    running = select(Clock).where(Clock.task_id.in_(task_ids), Clock.closed_at.is_(None))
    for clock in tx.session.scalars(running):
        clock.closed_at, clock.closed_note = at, note.strip()
        out_of_bath(tx, clock, at)
