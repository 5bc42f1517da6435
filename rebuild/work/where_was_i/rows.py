"""Where was I: all one needs to read before touching a machine again, on one page."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, exists, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.log import Questions
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.readings import Readings
from rebuild.trade.refit.words import beyond_place
from rebuild.trade.results.cautions import caution, suggest
from rebuild.trade.waiting.clock import ago, show_when
from rebuild.words.decisions import Decision
from rebuild.words.joints import Tightness
from rebuild.words.log import QuestionState
from rebuild.words.places import PlaceKind
from rebuild.words.steps import TaskState
from rebuild.work.joints.rows import JointRow, not_final
from rebuild.work.log.rows import LogRow, log
from rebuild.work.machines.rows_tree import order_of_subassemblies, subassemblies
from rebuild.work.steps.rows import TaskRow, links, tasks
from rebuild.work.teardown.rows_attempts import AttemptRow, attempts
from rebuild.work.waiting.rows import Stand, WaitingRow, waiting
from rebuild.work.waiting.rows_clocks import BathRow, ClockRow, clocks, holds, in_baths

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "clock", "feature", "joint", "link", "log_entry", "machine", "part", "place", "question",
    "reading", "refit_step", "removal", "subassembly", "task", "task_caution", "task_constraint", "waiting",
})  # fmt: skip

LAST_SESSIONS = 3
NEXT_ACTIONS = 3


@dataclass(frozen=True, slots=True)
class BenchRow:
    """A part that lies out on a bench: where, since when, what was decided, and its next step."""

    part_id: int
    part: str
    place: str
    since: str
    decision: Decision
    condition: str
    next_step: str


@dataclass(frozen=True, slots=True)
class NextAction:
    """A step that can be done now, with where, what it wants, its cautions in full, and what else is noted."""

    task_id: int
    subassembly_id: int | None
    title: str
    place: str
    tools: str
    wants: tuple[str, ...]
    lies_in: str
    cautions: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True)
class ReEntry:
    """One machine as it was left."""

    machine: str
    now: dt.datetime
    last_seen: str
    sessions: tuple[LogRow, ...]
    left_on_bench: str
    bench: tuple[BenchRow, ...]
    half_done: tuple[AttemptRow, ...]
    not_final: tuple[JointRow, ...]
    apart: int
    baths: tuple[BathRow, ...]
    clocks: tuple[ClockRow, ...]
    orders: tuple[WaitingRow, ...]
    questions: tuple[tuple[int, str], ...]
    undecided: tuple[tuple[int, str], ...]
    next_actions: tuple[NextAction, ...]
    cautions: tuple[str, ...]


def where_was_i(
    connection: Connection, machine_id: int, now: dt.datetime, ranked: Sequence[int] = ()
) -> ReEntry:
    """All of it, as of ``now``. ``ranked`` are step ids in the plan's order of use; without it, the tree's."""
    sessions = tuple(log(connection, machine_id)[:LAST_SESSIONS])
    joints = not_final(connection, machine_id)
    every = tasks(connection, machine_id, now=now)
    actions = _next_actions(connection, machine_id, every, now, ranked)
    return ReEntry(
        machine=connection.execute(select(Machines.name).where(Machines.id == machine_id)).scalar() or "",
        now=now,
        last_seen=f"{show_when(sessions[0].at, now)}, {ago(sessions[0].at, now)} ago" if sessions else "",
        sessions=sessions,
        left_on_bench=next((row.left_on_bench for row in sessions if row.left_on_bench), ""),
        bench=_bench(connection, machine_id, every, now),
        half_done=tuple(row for row in attempts(connection, machine_id) if 0 < row.refitted < row.removals),
        not_final=tuple(row for row in joints if row.tight is not Tightness.APART),
        apart=sum(row.tight is Tightness.APART for row in joints),
        baths=tuple(in_baths(connection, machine_id, now)),
        clocks=tuple(clocks(connection, machine_id, now)),
        orders=tuple(row for row in waiting(connection, machine_id, now) if row.stand is not Stand.CLOSED),
        questions=_questions(connection, machine_id),
        undecided=_undecided(connection, machine_id),
        next_actions=actions,
        cautions=_cautions(sessions, actions, joints),
    )


def _bench(
    connection: Connection, machine_id: int, every: Sequence[TaskRow], now: dt.datetime
) -> tuple[BenchRow, ...]:
    steps: dict[int, str] = {}
    for row in every:
        if row.part_id is not None and row.state in (TaskState.OPEN, TaskState.UNDER_WAY):
            steps.setdefault(row.part_id, row.title)
    rows = connection.execute(
        select(
            Parts.id,
            Parts.code,
            Parts.name,
            Parts.decision,
            Parts.condition,
            Parts.placed_at,
            Places.name.label("place"),
        )
        .select_from(Parts)
        .join(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id, Places.kind == PlaceKind.BENCH)
        .order_by(Places.name, Parts.code)
    )
    return tuple(
        BenchRow(
            row.id,
            f"{row.code} {row.name}".strip(),
            row.place,
            show_when(row.placed_at, now) if row.placed_at else "",
            row.decision,
            row.condition,
            steps.get(row.id, ""),
        )
        for row in rows
    )


def _questions(connection: Connection, machine_id: int) -> tuple[tuple[int, str], ...]:
    rows = connection.execute(
        select(Questions.id, Questions.text)
        .where(Questions.machine_id == machine_id, Questions.state == QuestionState.OPEN)
        .order_by(Questions.task_id.is_(None), Questions.id.desc())
    )
    return tuple((row.id, row.text) for row in rows)


def _undecided(connection: Connection, machine_id: int) -> tuple[tuple[int, str], ...]:
    """Parts with readings and no decision yet."""
    read = (
        select(Features.id)
        .select_from(Features)
        .join(Readings, Readings.feature_id == Features.id)
        .where(Features.part_id == Parts.id, Readings.struck.is_(None))
    )
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name)
        .where(Parts.machine_id == machine_id, Parts.decision == Decision.OPEN, exists(read))
        .order_by(Parts.code, Parts.id)
    )
    return tuple((row.id, f"{row.code} {row.name}".strip()) for row in rows)


def _next_actions(
    connection: Connection, machine_id: int, every: Sequence[TaskRow], now: dt.datetime, ranked: Sequence[int]
) -> tuple[NextAction, ...]:
    resting = {hold.task_id for hold in holds(connection, machine_id, now)}
    blocked = {after for _, before, after in links(connection, machine_id) if before in resting}
    asked = set(
        connection.execute(
            select(Questions.task_id).where(
                Questions.machine_id == machine_id,
                Questions.state == QuestionState.OPEN,
                Questions.task_id.is_not(None),
            )
        ).scalars()
    )
    tree = {
        key: place for place, key in enumerate(order_of_subassemblies(subassemblies(connection, machine_id)))
    }
    rank = {key: place for place, key in enumerate(ranked)}
    can_start = [
        row
        for row in every
        if row.state in (TaskState.OPEN, TaskState.UNDER_WAY)
        and not row.waits_for
        and row.id not in blocked
        and row.id not in asked
    ]
    can_start.sort(
        key=lambda row: (
            row.state is not TaskState.UNDER_WAY,
            rank.get(row.id, len(rank)),
            tree.get(row.subassembly_id or 0, 999),
        )
    )
    chosen = can_start[:NEXT_ACTIONS]
    places = _places(connection, [row.part_id for row in chosen if row.part_id is not None])
    return tuple(_action(row, places.get(row.part_id or 0, "")) for row in chosen)


def _places(connection: Connection, part_ids: Sequence[int]) -> dict[int, str]:
    rows = connection.execute(
        select(Parts.id, Places.kind, Places.name)
        .select_from(Parts)
        .join(Places, Places.id == Parts.place_id)
        .where(Parts.id.in_(part_ids))
    )
    return {row.id: f"{row.kind.value} {row.name}" for row in rows}


def _action(row: TaskRow, lies_in: str) -> NextAction:
    wants = [f"{kind.value}{f': {detail}' if detail else ''}" for kind, detail in row.constraints]
    if row.torque_wanted:
        wants.append(f"torque {row.torque_wanted}")
    if row.irreversible:
        wants.append("cannot be undone")
    topics = tuple(dict.fromkeys((*row.cautions, *suggest(row.title))))
    named = not row.part_code or row.part_code in row.title
    return NextAction(
        row.id,
        row.subassembly_id,
        row.title if named else f"{row.title} [{row.part_code}]",
        row.place,
        row.tools,
        tuple(wants),
        lies_in,
        tuple(caution(topic).line() for topic in topics),
        beyond_place(row.note),
    )


def _cautions(
    sessions: Sequence[LogRow], actions: Sequence[NextAction], joints: Sequence[JointRow]
) -> tuple[str, ...]:
    """What to know before touching anything: what was not to be forgotten, joints not final, the usual cautions."""
    found = [f"Do not forget: {row.do_not_forget}" for row in sessions if row.do_not_forget]
    loose = [row for row in joints if row.tight in (Tightness.LOOSE, Tightness.FINGER)]
    if loose:
        words = "; ".join(f"{row.name} ({row.tight.value})" for row in loose[:4])
        more = f" and {len(loose) - 4} more" if len(loose) > 4 else ""
        found.append(f"Do not lift, turn or power it: not tight are {words}{more}.")
    for action in actions:
        found += action.cautions
    return tuple(dict.fromkeys(found))
