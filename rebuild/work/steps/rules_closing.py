"""What stands against putting something on: unproved oil, an opening still needed, a cure, a part not made."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import exists, select

from rebuild.model.records.features import Feature
from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place
from rebuild.model.records.readings import Reading
from rebuild.model.records.steps import ConstraintPart, Link, Task, TaskConstraint
from rebuild.model.records.waiting import Clock, Waiting
from rebuild.store.tx import Tx
from rebuild.trade.waiting.clock import Standing, read_clock
from rebuild.words.decisions import Decision
from rebuild.words.parts import Origin
from rebuild.words.places import PlaceKind
from rebuild.words.readings import Stage
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.words.waiting import ClockKind
from rebuild.work.joints.rows_put_on import parts_put_on
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.records.ways_out import Way, WayKind

_OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)
_TO_BE_MADE = (Decision.REMAKE, Decision.REWORK, Decision.BUY)
_MAKING = (TaskKind.MAKE, TaskKind.REWORK, TaskKind.BUY, TaskKind.SEND_OUT)
_MADE_STAGES = (Stage.REWORKED, Stage.AS_MADE, Stage.FITTED)
_AWAY = (PlaceKind.BATH, PlaceKind.AT_A_SHOP, PlaceKind.LENT)


def resting(tx: Tx, task: Task, at: dt.datetime) -> list[Obstacle]:
    """A step before this one still cures, or its recoat window is not open or is past."""
    rows = tx.session.execute(
        select(Clock, Task.title, Task.id)
        .join(Task, Task.id == Clock.task_id)
        .join(Link, Link.before_id == Task.id)
        .where(
            Link.after_id == task.id,
            Clock.closed_at.is_(None),
            Clock.kind.in_([ClockKind.CURE, ClockKind.RECOAT]),
        )
    )
    found: list[Obstacle] = []
    for clock, title, key in rows:
        reading = read_clock(clock.kind.value, clock.started_at, clock.low_min, clock.high_min, at)
        late = clock.kind is ClockKind.RECOAT and reading.standing is Standing.OVER
        if reading.standing is Standing.RUNNING or late:
            go = Way(WayKind.GO_TO, f"Go to “{title}”", key)
            found.append(
                Obstacle(f"“{title}” {reading.words}:", (title, task.title), "Let it be until then.", (go,))
            )
    return found


def unproved(tx: Tx, task: Task) -> list[Obstacle]:
    """Something must be proved before this closes it (oil seen flowing), and has not been."""
    own = select(TaskConstraint, Task.title).join(Task, Task.id == TaskConstraint.task_id)
    unproved_yet = (
        TaskConstraint.kind == ConstraintKind.PROVE_FIRST,
        TaskConstraint.proved_at.is_(None),
        Task.state != TaskState.LEFT_OUT,
    )
    named = exists().where(ConstraintPart.constraint_id == TaskConstraint.id)
    rows = list(tx.session.execute(own.where(*unproved_yet, TaskConstraint.task_id == task.id, ~named)))
    parts = parts_put_on(tx, task)
    if parts:
        closes = exists().where(
            ConstraintPart.constraint_id == TaskConstraint.id, ConstraintPart.part_id.in_(parts)
        )
        rows += list(tx.session.execute(own.where(*unproved_yet, closes)))
    return [
        Obstacle(
            f"This closes what has not been proved yet ({constraint.detail or 'must be proved before closing'}):",
            (title, task.title) if title != task.title else (title,),
            "Prove it first; afterwards it cannot be seen.",
            (Way(WayKind.PROVE, f"It was proved: {constraint.detail or 'seen'}", constraint.id),),
        )
        for constraint, title in rows
    ]


def closed_off(tx: Tx, task: Task) -> list[Obstacle]:
    """Putting these parts on closes the opening another open step is done through."""
    parts = parts_put_on(tx, task)
    if not parts:
        return []
    rows = tx.session.execute(
        select(Task.id, Task.title, TaskConstraint.detail, Part.code, Part.name)
        .join(TaskConstraint, TaskConstraint.task_id == Task.id)
        .join(ConstraintPart, ConstraintPart.constraint_id == TaskConstraint.id)
        .join(Part, Part.id == ConstraintPart.part_id)
        .where(
            TaskConstraint.kind == ConstraintKind.THROUGH_OPENING,
            ConstraintPart.part_id.in_(parts),
            Task.state.in_(_OPEN),
            Task.id != task.id,
        )
        .order_by(Task.position, Task.id)
    )
    return [
        Obstacle(
            f"{f'{row.code} {row.name}'.strip()} closes the opening that “{row.title}” is done through"
            f"{f' ({row.detail})' if row.detail else ''}, and that is still open:",
            (row.title, task.title),
            "Do it first, or take this off again for it later.",
            (Way(WayKind.GO_TO, f"Go to “{row.title[:34]}”", row.id),),
        )
        for row in rows
    ]


def not_ready(tx: Tx, task: Task) -> list[Obstacle]:
    """A part that is to be made and is not, is missing, or lies in a bath or at a shop, cannot be put on."""
    found: list[Obstacle] = []
    for key in sorted(parts_put_on(tx, task)):
        part = tx.session.get(Part, key)
        if part is None:
            continue
        called = f"{part.code} {part.name}".strip()
        place = tx.session.get(Place, part.place_id) if part.place_id is not None else None
        made = Way(WayKind.MADE, f"{part.code or part.name} is made", part.id)
        if part.origin is Origin.MISSING:
            found.append(
                Obstacle(f"{called} is missing:", (called, task.title), "Find or make it first.", (made,))
            )
        elif part.decision in _TO_BE_MADE and not _is_made(tx, part):
            what = f"{called} is decided {part.decision.value} and not made yet:"
            found.append(Obstacle(what, (*_making(tx, part), task.title), "Make it first.", (made,)))
        elif place is not None and place.kind in _AWAY:
            where = "at the shop" if place.kind is PlaceKind.AT_A_SHOP else f"in {place.kind.value}"
            what = f"{called} lies {where} {place.name}:"
            found.append(Obstacle(what, (called, task.title), "Fetch it first and say where it lies."))
    return found


def _making(tx: Tx, part: Part) -> tuple[str, ...]:
    rows = tx.session.scalars(
        select(Task.title)
        .where(Task.part_id == part.id, Task.kind.in_(_MAKING), Task.state.in_(_OPEN))
        .order_by(Task.position, Task.id)
    ).all()
    return tuple(rows) or (f"{part.decision.value} {part.code or part.name}",)


def _is_made(tx: Tx, part: Part) -> bool:
    """Anything that shows the part as decided is there: its origin, a done step, an as-made reading, an arrival."""
    if part.origin in (Origin.REMADE, Origin.BOUGHT, Origin.DONOR):
        return True
    step = select(Task.id).where(
        Task.part_id == part.id, Task.kind.in_(_MAKING), Task.state == TaskState.DONE
    )
    reading = (
        select(Reading.id)
        .join(Feature, Feature.id == Reading.feature_id)
        .where(Feature.part_id == part.id, Reading.stage.in_(_MADE_STAGES), Reading.struck.is_(None))
    )
    arrived = select(Waiting.id).where(Waiting.part_id == part.id, Waiting.arrived_at.is_not(None))
    return any(tx.session.scalar(query.limit(1)) is not None for query in (step, reading, arrived))
