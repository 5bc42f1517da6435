"""The gate before power, and what each open step and speed is held by: one answer for every page and the plan."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, Row, or_, select

from rebuild.model.tables.run_in import RunLooks
from rebuild.model.tables.steps import TaskCautions, Tasks
from rebuild.trade.results.cautions import caution
from rebuild.trade.run_in.power_need import POWER_WORDS, PowerNeed, power_need
from rebuild.words.counted import counted
from rebuild.words.gates import Gate
from rebuild.words.joints import Tightness
from rebuild.words.run_in import LookWhen, RunState
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.controls import rows as controls
from rebuild.work.controls.rows import not_proved
from rebuild.work.joints import rows as joints
from rebuild.work.joints.rows import JointRow, not_final
from rebuild.work.lubrication import rows as lubrication
from rebuild.work.lubrication.rows import oil_card
from rebuild.work.power import rows_fit_verdict, rows_parts
from rebuild.work.power.rows_fit_verdict import fits_of_steps
from rebuild.work.power.rows_parts import not_there
from rebuild.work.power.rows_speeds import rungs, stands_before

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "concession", "control", "fastener", "feature", "fit", "instrument", "joint", "machine", "making_sheet",
    "oil_point", "part", "photo", "reading", "refit_step", "removal", "removal_part", "run_look", "run_reading",
    "run_step", "station", "subassembly", "task", "task_caution", "waiting",
})  # fmt: skip
#: Those of them ``power_gates`` asks, and ``fit_gates``.
POWER_READ = frozenset().union(
    {"run_look", "task"}, controls.READS, joints.READS, lubrication.READS, rows_parts.READS
)
FITS_READ = rows_fit_verdict.READS
_OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)
_TABLES = {"joint": "joint", "oil": "oil_point", "part": "part", "control": "control", "check": "run_look"}
NOT_SET_UP = "The list of checks before power is not set up"
#: What matters to a motor run alone with its belt off: the electrics, and that the lock was on.
_ELECTRICAL = ("lockout", "mains", "capacitor")
#: What shakes loose beside it, or flies off: its own screws, its pulley's, and a guard's. Common practice, no source.
_BESIDE_IT = re.compile(r"\b(motors?|guards?|pulleys?|belt cover|fan)\b", re.I)
_HELD_BY_LITTLE = (Tightness.LOOSE, Tightness.FINGER)


#: Of each check before power its id, words, topic, when it was done, and whether it is left to licensed hands.
Looks = Sequence[Row[int, str, str, dt.datetime | None, bool]]


@dataclass(frozen=True, slots=True)
class Stands:
    """Something that stands before power: what sort, in words, where to go, and its id there."""

    sort: str
    text: str
    page: str
    target: int

    @property
    def table(self) -> str:
        """The table of its row; empty where the whole list is missing."""
        return _TABLES.get(self.sort, "")

    @property
    def key(self) -> str:
        """What a going on all the same names it by."""
        return f"{self.sort} {self.target}"


@dataclass(frozen=True, slots=True)
class Hold:
    """One thing that holds a step or a run-in step at its gate: in words, and the row to go to.

    One of ``task_id`` and ``run_step_id`` is given; ``page`` and ``target`` name the very row.
    """

    gate: Gate
    task_id: int | None
    run_step_id: int | None
    text: str
    page: str
    target: int


def before_power(connection: Connection, machine_id: int, *, motor_alone: bool = False) -> list[Stands]:
    """Everything not proved and not final: joints, oil, parts not there, controls, what was not checked.

    An empty list is the gate open; a machine without a list of checks has that standing before power. With
    ``motor_alone`` (its belt off) only the electrical checks stand, and what was left loose or finger tight on the
    motor, its pulley and the guards.
    """
    looks, unsure = _looks(connection, machine_id), not_final(connection, machine_id)
    return (
        _motor_alone(machine_id, looks, unsure)
        if motor_alone
        else _whole(connection, machine_id, looks, unsure)
    )


def _looks(connection: Connection, machine_id: int) -> Looks:
    return connection.execute(
        select(RunLooks.id, RunLooks.text, RunLooks.topic, RunLooks.done_at, RunLooks.licensed)
        .where(RunLooks.machine_id == machine_id, RunLooks.due == LookWhen.BEFORE_POWER)
        .order_by(RunLooks.position, RunLooks.id)
    ).all()


def _whole(connection: Connection, machine_id: int, looks: Looks, unsure: Sequence[JointRow]) -> list[Stands]:
    found = _on_the_machine(connection, machine_id, unsure)
    return found + _unchecked(machine_id, looks, [row for row in looks if row.done_at is None])


def _motor_alone(machine_id: int, looks: Looks, unsure: Sequence[JointRow]) -> list[Stands]:
    beside = [row for row in unsure if row.tight in _HELD_BY_LITTLE and _BESIDE_IT.search(row.name)]
    electrical = [row for row in looks if row.licensed or row.topic in _ELECTRICAL]
    return _joints(beside) + _unchecked(machine_id, looks, [row for row in electrical if row.done_at is None])


def _unchecked(machine_id: int, looks: Looks, wanting: Looks) -> list[Stands]:
    """The checks not done; where there is no list of them, that."""
    found = [] if looks else [Stands("list", NOT_SET_UP, "run-in", machine_id)]
    return found + [Stands("check", row.text, "run-in", row.id) for row in wanting]


def _on_the_machine(connection: Connection, machine_id: int, unsure: Sequence[JointRow]) -> list[Stands]:
    found = _joints(unsure)
    found += [
        Stands("oil", f"{row.called}: {row.flow}", "lubrication", row.id)
        for row in oil_card(connection, machine_id).not_proved
    ]
    found += [
        Stands("part", f"{row.called}: {row.why}", "bench", row.part_id)
        for row in not_there(connection, machine_id)
    ]
    return found + [
        Stands("control", f"{row.name}: {row.stands}", "controls", row.id)
        for row in not_proved(connection, machine_id, LookWhen.BEFORE_POWER)
    ]


def _joints(unsure: Sequence[JointRow]) -> list[Stands]:
    return [Stands("joint", f"{row.name}: {row.lacks or row.state}", "joints", row.id) for row in unsure]


def counted_words(standing: Sequence[Stands]) -> str:
    """How many stand before power, as every page says it."""
    return f"{counted(len(standing), 'thing')} {'stands' if len(standing) == 1 else 'stand'} before power"


def holds(connection: Connection, machine_id: int) -> list[Hold]:
    """What holds every open step and every run-in step of a machine at its gate, step by step.

    In a fixed number of statements. A reason one act went on with lifts nothing off the next.
    """
    rows = _open_steps(connection, machine_id)
    running = [key for key, need in _needs(rows).items() if need is not PowerNeed.NONE]
    final = [row.id for row in rows if row.irreversible]
    return [
        *_of_steps(connection, machine_id, rows),
        *_unread(connection, [*running, *final], set(final)),
        *_of_speeds(connection, machine_id),
    ]


#: A step, its gate, how many things stand there, and the first of them.
StepGate = tuple[int, Gate, int, Stands]


def power_gates(connection: Connection, machine_id: int) -> list[StepGate]:
    """What the work graph asks: each open step at the gate before power; what stands there is listed once for all.

    As ``holds`` less cautions, which are read when a step is done.
    """
    standing = _before_power_of(connection, machine_id, _open_steps(connection, machine_id, runs=True))
    return [(key, Gate.POWER, len(found), found[0]) for key, found in standing if found]


def fit_gates(connection: Connection, machine_id: int) -> list[StepGate]:
    """As ``power_gates``: each open step that cannot be undone while a fit of its parts may not be closed."""
    steps = [row.id for row in _open_steps(connection, machine_id, final=True)]
    return [
        (key, Gate.IRREVERSIBLE, len(fits), Stands("fit", fits[0].words, "fits", fits[0].id))
        for key, fits in fits_of_steps(connection, steps).items()
    ]


def _open_steps(
    connection: Connection, machine_id: int, *, runs: bool = False, final: bool = False
) -> Sequence[Row[int, str, TaskKind, bool]]:
    """The open steps in order; of them those that may run something, or those that cannot be undone."""
    query = (
        select(Tasks.id, Tasks.title, Tasks.kind, Tasks.irreversible)
        .where(Tasks.machine_id == machine_id, Tasks.state.in_(_OPEN))
        .order_by(Tasks.position, Tasks.id)
    )
    if runs:
        said = (Tasks.title.icontains(word) for word in POWER_WORDS)
        query = query.where(or_(Tasks.kind == TaskKind.COMMISSION, *said))
    if final:
        query = query.where(Tasks.irreversible)
    return connection.execute(query).all()


def _needs(rows: Sequence[Row[int, str, TaskKind, bool]]) -> dict[int, PowerNeed]:
    return {row.id: power_need(row.title, row.kind) for row in rows}


def _of_steps(
    connection: Connection, machine_id: int, rows: Sequence[Row[int, str, TaskKind, bool]]
) -> list[Hold]:
    final = [row.id for row in rows if row.irreversible]
    found: list[Hold] = []
    for key, standing in _before_power_of(connection, machine_id, rows):
        found += [Hold(Gate.POWER, key, None, one.text, one.page, one.target) for one in standing]
    for key, fits in fits_of_steps(connection, final).items():
        found += [Hold(Gate.IRREVERSIBLE, key, None, fit.words, "fits", fit.id) for fit in fits]
    return found


def _before_power_of(
    connection: Connection, machine_id: int, rows: Sequence[Row[int, str, TaskKind, bool]]
) -> list[tuple[int, list[Stands]]]:
    """Each open step that runs the machine or its motor, with what stands before it."""
    needs = {key: need for key, need in _needs(rows).items() if need is not PowerNeed.NONE}
    if not needs:
        return []
    looks, unsure = _looks(connection, machine_id), not_final(connection, machine_id)
    asked = frozenset(needs.values())
    alone = _motor_alone(machine_id, looks, unsure) if PowerNeed.MOTOR_ALONE in asked else []
    whole = _whole(connection, machine_id, looks, unsure) if asked - {PowerNeed.MOTOR_ALONE} else []
    return [(key, alone if need is PowerNeed.MOTOR_ALONE else whole) for key, need in needs.items()]


def _unread(connection: Connection, task_ids: Iterable[int], final: set[int]) -> list[Hold]:
    keys = list(dict.fromkeys(task_ids))
    return [
        Hold(
            Gate.IRREVERSIBLE if key in final else Gate.POWER,
            key,
            None,
            f"not read yet: {', '.join(titles)}",
            "bench",
            key,
        )
        for key, titles in unread_cautions(connection, keys).items()
    ]


def unread_cautions(connection: Connection, task_ids: list[int]) -> dict[int, list[str]]:
    """The titles of the cautions on these steps that nobody has said he read."""
    if not task_ids:
        return {}
    found: dict[int, list[str]] = {}
    rows = connection.execute(
        select(TaskCautions.task_id, TaskCautions.topic)
        .where(TaskCautions.task_id.in_(task_ids), TaskCautions.read_at.is_(None))
        .order_by(TaskCautions.id)
    )
    for row in rows:
        found.setdefault(row.task_id, []).append(caution(row.topic).title)
    return found


def _of_speeds(connection: Connection, machine_id: int) -> list[Hold]:
    every = rungs(connection, machine_id)
    waiting = [rung for rung in every if rung.state is not RunState.RUN]
    if not waiting:
        return []
    power = before_power(connection, machine_id)
    found: list[Hold] = []
    for rung in waiting:
        found += [Hold(Gate.POWER, None, rung.id, one.text, one.page, one.target) for one in power]
        found += [
            Hold(Gate.SPEED, None, rung.id, before.words, "run-in", before.id)
            for before in stands_before(every, rung)
        ]
    return found
