"""The first run as rows: steps with their bearing courses, checks, and what is looked at again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.machines import Machines
from rebuild.model.tables.run_in import RunLooks, RunReadings, RunSteps
from rebuild.trade.results.working import Worked
from rebuild.trade.run_in.checks import where_from
from rebuild.trade.run_in.warming import Heated, heated
from rebuild.words.charts import LimitStatus
from rebuild.words.run_in import LookWhen, RunState, run_state
from rebuild.work.gates.rows import gone_on
from rebuild.work.joints.rows import after_run_in
from rebuild.work.power.rows import Stands

#: The tables the lookups here ask.
READS = frozenset({
    "fastener", "joint", "machine", "override", "run_look", "run_reading", "run_step", "subassembly", "task",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Course:
    """The temperature of one bearing through one step."""

    bearing: str
    ids: tuple[int, ...]
    minutes: tuple[float, ...]
    celsius: tuple[float, ...]
    heated: Worked[Heated]


@dataclass(frozen=True, slots=True)
class RunRow:
    """One step of the run-in."""

    id: int
    name: str
    speed_rpm: float | None
    planned_min: float | None
    limit_c: float | None
    limit_origin: str
    limit_status: LimitStatus
    state: RunState
    ambient_c: float | None
    started_at: dt.datetime | None
    noise: str
    oil_seen: str
    note: str
    courses: tuple[Course, ...]
    #: What was gone on with all the same in it and is not closed yet, in words.
    gone_on: tuple[str, ...] = ()

    @property
    def now(self) -> str:
        """Its state in a word."""
        return f"{self.state.value}, all the same" if self.gone_on else self.state.value

    @property
    def highest(self) -> Course | None:
        """The hottest bearing of the step."""
        read = [course for course in self.courses if course.celsius]
        return max(read, key=lambda course: max(course.celsius), default=None)


def kind_of(connection: Connection, machine_id: int) -> str:
    """What kind of machine it is: what its speeds are counted in, and which bearings are felt."""
    return connection.execute(select(Machines.kind).where(Machines.id == machine_id)).scalar() or ""


def run_steps(connection: Connection, machine_id: int) -> list[RunRow]:
    """The run-in of a machine, in order."""
    readings = connection.execute(
        select(*RunReadings.columns())
        .join(RunSteps, RunSteps.id == RunReadings.step_id)
        .where(RunSteps.machine_id == machine_id)
        .order_by(RunReadings.step_id, RunReadings.minute, RunReadings.id)
    ).all()
    by_step: dict[int, dict[str, list[tuple[int, float, float]]]] = {}
    for row in readings:
        by_step.setdefault(row.step_id, {}).setdefault(row.bearing, []).append(
            (row.id, row.minute, row.celsius)
        )
    told: dict[int | None, list[str]] = {}
    for gone in gone_on(connection, machine_id, open_only=True):
        told.setdefault(gone.run_step_id, []).append(gone.words)
    steps = connection.execute(
        select(*RunSteps.columns())
        .where(RunSteps.machine_id == machine_id)
        .order_by(RunSteps.position, RunSteps.id)
    )
    return [
        RunRow(
            row.id,
            row.name,
            row.speed_rpm,
            row.planned_min,
            row.limit_c,
            row.limit_origin,
            LimitStatus(row.limit_status),
            run_state(row.state, begun=row.started_at is not None),
            row.ambient_c,
            row.started_at,
            row.noise,
            row.oil_seen,
            row.note,
            tuple(
                _course(
                    bearing, taken, row.limit_c, f"{row.limit_origin} ({LimitStatus(row.limit_status).value})"
                )
                for bearing, taken in by_step.get(row.id, {}).items()
            ),
            tuple(told.get(row.id, ())),
        )
        for row in steps
    ]


def _course(
    bearing: str, taken: Sequence[tuple[int, float, float]], limit: float | None, origin: str
) -> Course:
    ids, minutes, celsius = (tuple(column) for column in zip(*taken, strict=True))
    return Course(
        bearing, tuple(int(key) for key in ids), minutes, celsius, heated(minutes, celsius, limit, origin)
    )


@dataclass(frozen=True, slots=True)
class CheckRow:
    """One check; ``topic`` is the caution that sits on it, ``source`` where it comes from (empty: the owner's own)."""

    id: int
    due: LookWhen
    text: str
    topic: str
    licensed: bool
    done_at: dt.datetime | None
    done_by: str
    note: str
    source: str = ""


def checks(connection: Connection, machine_id: int) -> list[CheckRow]:
    """What is checked before power, at first power and after, in order."""
    rows = connection.execute(
        select(*RunLooks.columns())
        .where(RunLooks.machine_id == machine_id)
        .order_by(RunLooks.position, RunLooks.id)
    )
    found = [
        CheckRow(
            row.id,
            LookWhen(row.due),
            row.text,
            row.topic,
            row.licensed,
            row.done_at,
            row.done_by,
            row.note,
            where_from(row.text),
        )
        for row in rows
    ]
    return sorted(found, key=lambda row: tuple(LookWhen).index(row.due))


def last_by(connection: Connection, machine_id: int) -> str:
    """Who did the check that was done last, licensed hands left out; empty where nobody was named."""
    named = connection.execute(
        select(RunLooks.done_by)
        .where(RunLooks.machine_id == machine_id, RunLooks.done_at.is_not(None), RunLooks.done_by != "")
        .where(RunLooks.licensed.is_(False))
        .order_by(RunLooks.done_at.desc(), RunLooks.id.desc())
        .limit(1)
    )
    return named.scalar() or ""


def to_torque_again(connection: Connection, machine_id: int) -> list[Stands]:
    """The joints to check again once it has run, in walking order."""
    return [
        Stands(
            "joint", f"{row.name}{f', {row.torque_wanted}' if row.torque_wanted else ''}", "joints", row.id
        )
        for row in after_run_in(connection, machine_id)
    ]
