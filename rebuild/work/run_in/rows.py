"""The first run as rows: steps with their bearing courses, checks, and what stands before power."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.run_in import RunLooks, RunReadings, RunSteps
from rebuild.trade.results.working import Worked
from rebuild.trade.run_in.warming import Heated, heated
from rebuild.words.charts import LimitStatus
from rebuild.words.run_in import LookWhen, RunState
from rebuild.work.controls.rows import not_proved
from rebuild.work.joints.rows import after_run_in, not_final
from rebuild.work.lubrication.rows import oil_card

#: The tables the lookups here ask.
READS = frozenset({
    "control", "joint", "machine", "oil_point", "part", "photo", "run_look", "run_reading",
    "run_step", "subassembly", "task",
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

    @property
    def highest(self) -> Course | None:
        """The hottest bearing of the step."""
        read = [course for course in self.courses if course.celsius]
        return max(read, key=lambda course: max(course.celsius), default=None)


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
            RunState(row.state),
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
    """One check; ``topic`` is the caution that sits on it."""

    id: int
    due: LookWhen
    text: str
    topic: str
    licensed: bool
    done_at: dt.datetime | None
    done_by: str
    note: str


def checks(connection: Connection, machine_id: int) -> list[CheckRow]:
    """What is checked before power, at first power and after, in order."""
    rows = connection.execute(
        select(*RunLooks.columns())
        .where(RunLooks.machine_id == machine_id)
        .order_by(RunLooks.position, RunLooks.id)
    )
    found = [
        CheckRow(
            row.id, LookWhen(row.due), row.text, row.topic, row.licensed, row.done_at, row.done_by, row.note
        )
        for row in rows
    ]
    return sorted(found, key=lambda row: tuple(LookWhen).index(row.due))


@dataclass(frozen=True, slots=True)
class Stands:
    """Something that stands before power: what sort, in words, where to go, and its id there."""

    sort: str
    text: str
    page: str
    target: int


def before_power(connection: Connection, machine_id: int) -> list[Stands]:
    """Everything not proved and not final: joints, oil, and what was not checked. An empty list is the gate open."""
    found = [
        Stands("joint", f"{row.name}: {row.lacks or row.state}", "joints", row.id)
        for row in not_final(connection, machine_id)
    ]
    found += [
        Stands("oil", f"{row.called}: {row.flow}", "lubrication", row.id)
        for row in oil_card(connection, machine_id).not_proved
    ]
    found += [
        Stands("check", row.text, "run-in", row.id)
        for row in checks(connection, machine_id)
        if row.due is LookWhen.BEFORE_POWER and row.done_at is None
    ]
    found += [
        Stands("control", f"{row.name}: {row.stands}", "controls", row.id)
        for row in not_proved(connection, machine_id, LookWhen.BEFORE_POWER)
    ]
    return found


def to_torque_again(connection: Connection, machine_id: int) -> list[Stands]:
    """The joints to check again once it has run, in walking order."""
    return [
        Stands(
            "joint", f"{row.name}{f', {row.torque_wanted}' if row.torque_wanted else ''}", "joints", row.id
        )
        for row in after_run_in(connection, machine_id)
    ]
