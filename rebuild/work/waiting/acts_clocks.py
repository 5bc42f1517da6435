"""Clocks: in the bath since, recoat between, cure until, re-torque and re-level after. They are shown, never rung."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.joints import Joint
from rebuild.model.records.machines import Machine
from rebuild.model.records.steps import Task, TaskConstraint
from rebuild.model.records.waiting import Clock
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.sizes.amounts import parse_minutes
from rebuild.words.steps import ConstraintKind, TaskState
from rebuild.words.waiting import ClockKind
from rebuild.work.places.acts_follow import into_bath, out_of_bath
from rebuild.work.records.columns import title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now

_NO_TIME: Sequence[float | None] = (None,)


@dataclass(frozen=True, slots=True)
class About:
    """What a clock belongs to; any of them may be left out."""

    subassembly_id: int | None = None
    part_id: int | None = None
    task_id: int | None = None
    joint_id: int | None = None


def start_clock(
    store: Store,
    machine_id: int,
    kind: ClockKind,
    what: str,
    *,
    after: Sequence[str] = (),
    latest: str = "",
    about: About | None = None,
    started: dt.datetime | None = None,
    source: str = "",
) -> list[int]:
    """Start a clock, now unless ``started`` is given; returns ids, one for each time in ``after``.

    Several times in ``after`` start several clocks: a bed is levelled again after hours, days and a month.

    Raises:
        BadEntry: a time cannot be read, or the latest is before the soonest.
    """
    comma = decimal_comma(store)
    lows = [parse_minutes(text, "Soonest after", decimal_comma=comma) for text in after if text.strip()]
    high = parse_minutes(latest, "Latest after", decimal_comma=comma) if latest.strip() else None
    _refuse_falling(lows, high, latest)
    belongs = about or About()
    with store.act(Act.ADD_CLOCK, ": ".join(filter(None, (kind.value, what.strip())))) as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(
            tx,
            machine_id,
            subassembly=belongs.subassembly_id,
            part=belongs.part_id,
            step=belongs.task_id,
        )
        if belongs.joint_id is not None:
            tx.get(Joint, belongs.joint_id, "joint")
        rows = [
            Clock(
                machine_id=machine_id,
                kind=kind,
                what=what.strip(),
                started_at=started or now(),
                low_min=low,
                high_min=high,
                source=source.strip(),
                subassembly_id=belongs.subassembly_id,
                part_id=belongs.part_id,
                task_id=belongs.task_id,
                joint_id=belongs.joint_id,
            )
            for low in (lows or _NO_TIME)
        ]
        tx.session.add_all(rows)
        tx.session.flush()
        into_bath(tx, rows[0])
        return [row.id for row in rows]


def _refuse_falling(lows: Sequence[float], high: float | None, latest: str) -> None:
    if high is not None and lows and max(lows) > high:
        raise BadEntry(
            "is before the soonest.", where="Latest after", value=latest, way_out="Type a longer time."
        )


def close_clock(
    store: Store, clock_ids: Sequence[int], note: str = "", *, at: dt.datetime | None = None
) -> None:
    """See to clocks: out of the bath, recoated, re-torqued. Closed ones stay in the history."""
    if not clock_ids:
        return
    with store.act(Act.CLOSE_CLOCK, "") as tx:
        rows = [tx.get(Clock, key, "clock") for key in dict.fromkeys(clock_ids)]
        for row in rows:
            row.closed_at = at or now()
            row.closed_note = note.strip()
            out_of_bath(tx, row, row.closed_at)
        more = f" and {len(rows) - 1} more" if len(rows) > 1 else ""
        tx.subject = f"{rows[0].kind.value} {rows[0].what}".strip() + more


def start_rest(tx: Tx, task: Task, at: dt.datetime) -> None:
    """Start the clock of a step that must cure or rest once it is done; a second tick starts it anew.

    What it lay in a bath for is over.
    """
    _out_of_its_bath(tx, task, at)
    wanted = tx.session.scalars(
        select(TaskConstraint).where(
            TaskConstraint.task_id == task.id,
            TaskConstraint.kind == ConstraintKind.CURE,
            TaskConstraint.rest_min > 0,
        )
    ).all()
    if wanted:
        _close_rest(tx, task, at, "started anew")
    for row in wanted:
        tx.session.add(
            Clock(
                machine_id=task.machine_id,
                subassembly_id=task.subassembly_id,
                part_id=task.part_id,
                task_id=task.id,
                kind=ClockKind.CURE,
                what=row.detail or title(task),
                started_at=at,
                low_min=row.rest_min,
            )
        )


def drop_rest(tx: Tx, task: Task, at: dt.datetime) -> None:
    """A step opened again has no cure running."""
    _close_rest(tx, task, at, "the step was opened again")


def follow_state(tx: Tx, task: Task, was: object) -> None:
    """A step made done as a field starts its cure as a tick does; ``was`` is the state before."""
    if task.state is TaskState.DONE and was is not TaskState.DONE:
        start_rest(tx, task, task.done_at or now())


def _out_of_its_bath(tx: Tx, task: Task, at: dt.datetime) -> None:
    """The bath clocks of a step that is done end, and its part lies in the bath no longer."""
    running = select(Clock).where(
        Clock.task_id == task.id, Clock.kind == ClockKind.BATH, Clock.closed_at.is_(None)
    )
    for row in tx.session.scalars(running):
        row.closed_at, row.closed_note = at, "its step was done"
        out_of_bath(tx, row, at)


def _close_rest(tx: Tx, task: Task, at: dt.datetime, why: str) -> None:
    running = select(Clock).where(
        Clock.task_id == task.id, Clock.kind == ClockKind.CURE, Clock.closed_at.is_(None)
    )
    for row in tx.session.scalars(running):
        row.closed_at, row.closed_note = at, why
