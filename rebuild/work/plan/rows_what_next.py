"""What next: steps that can be done now, what waits on what, which part to remake next and why."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.log import Questions
from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.steps import Tasks
from rebuild.trade.results.working import Sheet, Source, Status, Working
from rebuild.trade.schedule.network import freed_by, held_up_by
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.words.decisions import Decision
from rebuild.words.log import QuestionState
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.steps.rows import TaskRow, links, tasks

#: The tables the lookups here ask.
READS = frozenset({
    "feature", "link", "part", "question", "reading", "subassembly", "task", "task_caution",
    "task_constraint",
})  # fmt: skip

MAKING = (Decision.REMAKE, Decision.REWORK, Decision.BUY)
_RULE = Source(
    "rank by steps freed at once, then steps held up in all, then least work", status=Status.JUDGEMENT
)


@dataclass(frozen=True, slots=True)
class Candidate:
    """A part to remake, rework or buy next: what it frees at once and holds up in all."""

    part_id: int
    code: str
    name: str
    decision: Decision
    reason: str
    freed: tuple[str, ...]
    held_up: int
    minutes: float
    startable: bool
    waits_for: tuple[str, ...]
    working: Working


@dataclass(frozen=True, slots=True)
class WhatNext:
    """The state of the work of one machine."""

    now: tuple[TaskRow, ...]
    waiting: tuple[TaskRow, ...]
    candidates: tuple[Candidate, ...]
    undecided: tuple[tuple[int, str], ...]
    questions: tuple[tuple[int, str], ...]


def what_next(connection: Connection, machine_id: int) -> WhatNext:
    """Work it all out from steps, links and decisions."""
    every = tasks(connection, machine_id)
    still_open = [row for row in every if row.state in (TaskState.OPEN, TaskState.UNDER_WAY)]
    held = _questions_holding(connection, machine_id)
    now = tuple(row for row in still_open if not row.waits_for and row.id not in held)
    waiting = tuple(row for row in still_open if row.waits_for or row.id in held)
    return WhatNext(
        _in_tree_order(connection, machine_id, now),
        waiting,
        _candidates(connection, machine_id, still_open, held.keys()),
        _undecided(connection, machine_id),
        tuple(held.items()),
    )


def _in_tree_order(connection: Connection, machine_id: int, rows: tuple[TaskRow, ...]) -> tuple[TaskRow, ...]:
    places = {
        row.id: row.position
        for row in connection.execute(
            select(Subassemblies.id, Subassemblies.position).where(Subassemblies.machine_id == machine_id)
        )
    }
    return tuple(
        sorted(
            rows,
            key=lambda row: (
                row.state is not TaskState.UNDER_WAY,
                places.get(row.subassembly_id or 0, 999),
                row.id,
            ),
        )
    )


def _questions_holding(connection: Connection, machine_id: int) -> dict[int, str]:
    """Open questions that hold up an open step: task id to the question."""
    rows = connection.execute(
        select(Questions.task_id, Questions.text)
        .join(Tasks, Tasks.id == Questions.task_id)
        .where(
            Questions.machine_id == machine_id,
            Questions.state == QuestionState.OPEN,
            Tasks.state.in_([TaskState.OPEN, TaskState.UNDER_WAY]),
        )
    )
    return {row.task_id: row.text for row in rows}


class _ToMake(NamedTuple):
    """A part to be made, as it is decided."""

    id: int
    code: str
    name: str
    decision: Decision
    reason: str


def _candidates(
    connection: Connection, machine_id: int, still_open: list[TaskRow], held: Collection[int]
) -> tuple[Candidate, ...]:
    pairs = [(before, after) for _, before, after in links(connection, machine_id)]
    titles = {row.id: row.title for row in still_open}
    making = {
        row.id: _ToMake(*row)
        for row in connection.execute(
            select(Parts.id, Parts.code, Parts.name, Parts.decision, Parts.decision_reason).where(
                Parts.machine_id == machine_id, Parts.decision.in_(MAKING)
            )
        )
    }
    steps: dict[int, list[TaskRow]] = {}
    for row in still_open:
        if row.part_id in making and row.kind in (
            TaskKind.MAKE,
            TaskKind.BUY,
            TaskKind.REWORK,
            TaskKind.SEND_OUT,
        ):
            steps.setdefault(row.part_id or 0, []).append(row)
    found = [_candidate(making[part_id], own, titles, pairs, held) for part_id, own in steps.items()]
    return tuple(sorted(found, key=_rank))


def _rank(candidate: Candidate) -> tuple[bool, int, int, float, str]:
    return (
        not candidate.startable,
        -len(candidate.freed),
        -candidate.held_up,
        candidate.minutes,
        candidate.code,
    )


def _candidate(
    part: _ToMake,
    own: list[TaskRow],
    titles: Mapping[int, str],
    pairs: list[tuple[int, int]],
    held: Collection[int],
) -> Candidate:
    """``held`` are steps that an open question keeps from starting whatever is made."""
    done = {row.id for row in own}
    freed = freed_by(done, titles.keys(), pairs) - set(held)
    behind = held_up_by(done, pairs) & titles.keys()
    waits = tuple(title for row in own for key, title in row.waits_for if key not in done)
    minutes = sum(row.likely_min or 0.0 for row in own)
    sheet = Sheet(f"Why {part.code} {part.name} next")
    sheet.read("steps of this part still open", "; ".join(row.title for row in own))
    sheet.equation(
        "freed at once", f"{len(freed)}: " + ("; ".join(titles[key] for key in sorted(freed)) or "none")
    )
    sheet.equation("held up in all, directly or not", f"{len(behind)} steps")
    sheet.read("likely work", show_minutes(minutes))
    if waits:
        sheet.note("must itself wait for: " + "; ".join(waits))
    sheet.result("rank", f"{len(freed)} freed, {len(behind)} held up, {show_minutes(minutes)}", _RULE)
    return Candidate(
        part.id,
        part.code,
        part.name,
        part.decision,
        part.reason,
        tuple(titles[key] for key in sorted(freed)),
        len(behind),
        minutes,
        not waits,
        waits,
        sheet.close(),
    )


def _undecided(connection: Connection, machine_id: int) -> tuple[tuple[int, str], ...]:
    """Parts with readings and no decision yet."""
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name)
        .join(Features, Features.part_id == Parts.id)
        .join(Readings, Readings.feature_id == Features.id)
        .where(Parts.machine_id == machine_id, Parts.decision == Decision.OPEN)
        .group_by(Parts.id)
        .order_by(Parts.code)
    )
    return tuple((row.id, f"{row.code} {row.name}".strip()) for row in rows)
