"""Where was I: all one needs to read before touching a machine again, on one page."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.log import Questions
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.trade.refit.words import beyond_place
from rebuild.trade.results.cautions import caution, stored_caution, suggest
from rebuild.trade.schedule.graph import Node, Ref
from rebuild.trade.schedule.plan import finish_of
from rebuild.trade.schedule.plan_input import PlanInput
from rebuild.trade.waiting.clock import ago, show_when
from rebuild.words.decisions import Decision
from rebuild.words.joints import Tightness
from rebuild.words.log import QuestionState
from rebuild.words.places import PlaceKind, lying_words
from rebuild.words.steps import TaskState
from rebuild.work.gates.rows import GoneOnRow, gone_on
from rebuild.work.joints.rows import JointRow, not_final
from rebuild.work.landings import rows as rows_landings
from rebuild.work.landings.rows import unplaced
from rebuild.work.landings.stored import UnplacedRow
from rebuild.work.log.rows import LAST_SESSIONS, LogRow, log
from rebuild.work.plan import rows_graph
from rebuild.work.plan.laying import draws_up, orders
from rebuild.work.plan.next_up import next_up, own_next, what_drives, why
from rebuild.work.plan.rows_graph import Work, work_graph
from rebuild.work.plan.rows_input import planned
from rebuild.work.plan.rows_tonight import Tonight, not_tonight, offers
from rebuild.work.plan.rows_what_next import undecided
from rebuild.work.power.rows_speeds import Rung
from rebuild.work.steps.rows import TaskRow, tasks
from rebuild.work.teardown.rows_attempts import AttemptRow, attempts
from rebuild.work.waiting.rows import Stand, WaitingRow, waiting
from rebuild.work.waiting.rows_clocks import BathRow, ClockRow, clocks, in_baths
from rebuild.work.where_was_i import rows_away, rows_before, rows_taken_off
from rebuild.work.where_was_i.rows_away import AwayRow, away
from rebuild.work.where_was_i.rows_before import running, told_before
from rebuild.work.where_was_i.rows_taken_off import OffRow, taken_off

#: The tables the lookups here ask.
READS = (
    rows_graph.READS
    | rows_landings.READS
    | rows_away.READS
    | rows_before.READS
    | rows_taken_off.READS
    | {"attempt", "joint", "log_entry", "machine", "override", "removal", "task_caution"}
)

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
    """Work that can be begun now, with where, what it wants, its cautions in full, and what else is noted.

    ``draws_up``: it is to draw up a making sheet its part has not got yet; ``orders``: to order its part.
    """

    ref: Ref
    part_id: int | None
    subassembly_id: int | None
    title: str
    place: str
    tools: str
    wants: tuple[str, ...]
    lies_in: str
    cautions: tuple[str, ...]
    note: str
    why: str
    draws_up: bool = False
    orders: bool = False


@dataclass(frozen=True, slots=True)
class ReEntry:
    """One machine as it was left; ``running`` are speeds begun and not ended, ``gone_on`` is still to be closed.

    ``offered`` is how much work can be begun now, whether it fits the evening or not.
    """

    machine: str
    now: dt.datetime
    last_seen: str
    sessions: tuple[LogRow, ...]
    left_on_bench: str
    bench: tuple[BenchRow, ...]
    half_done: tuple[AttemptRow, ...]
    not_final: tuple[JointRow, ...]
    apart: tuple[JointRow, ...]
    baths: tuple[BathRow, ...]
    clocks: tuple[ClockRow, ...]
    orders: tuple[WaitingRow, ...]
    away: tuple[AwayRow, ...]
    values: tuple[UnplacedRow, ...]
    questions: tuple[tuple[int, str], ...]
    undecided: tuple[tuple[int, str], ...]
    to_decide: int
    next_actions: tuple[NextAction, ...]
    offered: int
    own_next: str
    drives: tuple[tuple[Ref, str, str], ...]
    finish: dt.datetime | None
    cautions: tuple[str, ...]
    running: tuple[Rung, ...] = ()
    gone_on: tuple[GoneOnRow, ...] = ()
    off: tuple[OffRow, ...] = ()


def drives(connection: Connection, machine_id: int, now: dt.datetime) -> tuple[tuple[Ref, str, str], ...]:
    """What drives the finish: (row, words, in how many of the schedules drawn)."""
    return what_drives(work_graph(connection, machine_id, now))


def where_was_i(
    connection: Connection,
    machine_id: int,
    now: dt.datetime,
    *,
    drawn: bool = True,
    tonight: Tonight | None = None,
) -> ReEntry:
    """All of it, as of ``now``; what comes next is the work graph's answer.

    ``tonight`` leaves only what fits the evening, and says which part of longer work.
    ``drawn=False`` leaves out what drives the finish, which rests on schedules drawn (``drives``): the first page of
    a start does not wait for the library that draws them.
    """
    sessions = tuple(log(connection, machine_id)[:LAST_SESSIONS])
    joints = not_final(connection, machine_id)
    work = work_graph(connection, machine_id, now)
    own, said = own_next(work, next((row.next_step for row in sessions if row.next_step), ""))
    given = planned(work)
    ready = next_up(work, own)
    takes = _takes(given, tonight, own)
    chosen = tuple(node for node in ready if takes is None or node.key in takes)[:NEXT_ACTIONS]
    reasons = {node.key: why(work, node, own) for node in chosen}
    if takes is not None:
        reasons = {key: f"{takes[key]} tonight; {words}" for key, words in reasons.items()}
    typed = tasks(connection, machine_id, ids=[node.key for node in chosen if not node.derived], now=now)
    actions = _next_actions(connection, typed, chosen, reasons)
    orders_open = tuple(row for row in waiting(connection, machine_id, now) if row.stand is not Stand.CLOSED)
    return ReEntry(
        machine=connection.execute(select(Machines.name).where(Machines.id == machine_id)).scalar() or "",
        now=now,
        last_seen=f"{show_when(sessions[0].at, now)}, {ago(sessions[0].at, now)} ago" if sessions else "",
        sessions=sessions,
        left_on_bench=next((row.left_on_bench for row in sessions if row.left_on_bench), ""),
        bench=_bench(connection, machine_id, work, now),
        half_done=tuple(row for row in attempts(connection, machine_id) if 0 < row.refitted < row.removals),
        not_final=tuple(row for row in joints if row.tight is not Tightness.APART),
        apart=tuple(row for row in joints if row.tight is Tightness.APART),
        baths=tuple(in_baths(connection, machine_id, now)),
        clocks=tuple(clocks(connection, machine_id, now)),
        orders=orders_open,
        away=away(connection, machine_id, now, orders_open),
        values=tuple(unplaced(connection)),
        questions=_questions(connection, machine_id),
        undecided=undecided(work),
        to_decide=sum(part.decision is Decision.OPEN for part in work.facts.parts),
        next_actions=actions,
        offered=len(ready),
        own_next=said or (not_tonight(own, takes) if takes is not None else ""),
        drives=what_drives(work) if drawn else (),
        finish=finish_of(given, now) if given.steps else None,
        cautions=told_before(sessions, (words for action in actions for words in action.cautions), joints),
        running=running(connection, machine_id),
        gone_on=tuple(gone_on(connection, machine_id, open_only=True)),
        off=taken_off(connection, machine_id),
    )


def _takes(given: PlanInput, tonight: Tonight | None, own: Node | None) -> dict[int, str] | None:
    """How long of each the evening takes, of what fits it; None when nothing was said of the evening."""
    if tonight is None:
        return None
    first = own.key if own is not None else None
    return {offer.node.key: offer.takes for offer in offers(given, tonight, first)}


def _bench(connection: Connection, machine_id: int, work: Work, now: dt.datetime) -> tuple[BenchRow, ...]:
    steps: dict[int, str] = {}
    # In the order of the list of steps: those of the machine itself, then of each subassembly.
    for step in sorted(work.facts.steps, key=lambda one: one.subassembly_id or 0):
        if step.part_id is not None and step.state in (TaskState.OPEN, TaskState.UNDER_WAY):
            steps.setdefault(step.part_id, step.title)
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


def _next_actions(
    connection: Connection, every: Sequence[TaskRow], chosen: Sequence[Node], reasons: Mapping[int, str]
) -> tuple[NextAction, ...]:
    places = _places(connection, [node.part_id for node in chosen if node.part_id is not None])
    typed = {row.id: row for row in every}
    return tuple(
        _action(node, typed.get(node.key), places.get(node.part_id or 0, ""), reasons[node.key])
        for node in chosen
    )


def _places(connection: Connection, part_ids: Sequence[int]) -> dict[int, str]:
    rows = connection.execute(
        select(Parts.id, Places.kind, Places.name)
        .select_from(Parts)
        .join(Places, Places.id == Parts.place_id)
        .where(Parts.id.in_(part_ids))
    )
    return {row.id: lying_words(row.kind, row.name) for row in rows}


def _action(node: Node, row: TaskRow | None, lies_in: str, reason: str) -> NextAction:
    if row is None:
        cautions = tuple(caution(topic).line() for topic in suggest(node.title))
        return NextAction(
            node.ref,
            node.part_id,
            node.subassembly_id,
            node.title,
            "",
            "",
            (),
            lies_in,
            cautions,
            "",
            reason,
            draws_up(node),
            orders(node),
        )
    wants = [f"{kind.value}{f': {detail}' if detail else ''}" for kind, detail in row.constraints]
    if row.torque_wanted:
        wants.append(f"torque {row.torque_wanted}")
    if row.irreversible:
        wants.append("cannot be undone")
    topics = tuple(dict.fromkeys((*row.cautions, *suggest(row.title))))
    named = not row.part_code or row.part_code in row.title
    return NextAction(
        node.ref,
        row.part_id,
        row.subassembly_id,
        row.title if named else f"{row.title} [{row.part_code}]",
        row.place,
        row.tools,
        tuple(wants),
        lies_in,
        tuple(stored_caution(topic).line() for topic in topics),
        beyond_place(row.note),
        reason,
    )
