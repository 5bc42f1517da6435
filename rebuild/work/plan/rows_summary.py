"""The state of a rebuild in one page: what is decided, measured and done, and what comes next."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.log import LogEntries, Questions
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Instruments
from rebuild.store.store import Store
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import Rule, Verdict
from rebuild.trade.schedule.graph import Node
from rebuild.words.decisions import Decision
from rebuild.words.log import QuestionState
from rebuild.words.steps import TaskState
from rebuild.work.machines import rows_tree as tree
from rebuild.work.plan import rows_what_next
from rebuild.work.plan.laying import said_elsewhere
from rebuild.work.plan.rows_graph import Work, work_once
from rebuild.work.plan.rows_what_next import Candidate, next_of
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.readings.rows_spoken import verdict_counts
from rebuild.work.records.field import show_day
from rebuild.work.records.rows_settings import verdict_rule

#: The tables the lookups here ask.
READS = rows_what_next.READS | {"act", "log_entry", "machine"}


@dataclass(frozen=True, slots=True)
class Steps:
    """How the steps of a machine stand."""

    done: int
    left_out: int
    under_way: int
    open: int
    can_be_done_now: tuple[str, ...]
    waiting: int


@dataclass(frozen=True, slots=True)
class MachineState:
    """How far one machine is."""

    name: str
    kind: str
    year: str
    scope: str
    subassemblies: int
    parts: int
    parts_by_decision: dict[str, int]
    features: int
    readings: int
    readings_by_verdict: dict[str, int]
    steps: Steps
    make_next: tuple[Candidate, ...]
    undecided: tuple[str, ...]
    questions: tuple[str, ...]
    last_log: str


@dataclass(frozen=True, slots=True)
class ShopState:
    """How far every machine of a file is."""

    file: str
    machines: tuple[MachineState, ...]
    instruments: int
    undo: str | None


def shop_state(store: Store, told: Mapping[int, MachineState] | None = None) -> ShopState:
    """The state of the whole file; of machines whose state is ``told`` nothing is asked again."""
    rule, known = verdict_rule(store), told or {}
    with store.read() as connection:
        limits = instrument_limits(connection)
        states = tuple(
            known.get(row.id) or _machine(connection, row, rule, limits) for row in tree.machines(connection)
        )
        instruments = int(connection.execute(select(func.count()).select_from(Instruments)).scalar_one())
    return ShopState(store.path.name, states, instruments, store.undo_label())


def machine_states(store: Store, machine_ids: Collection[int]) -> dict[int, MachineState]:
    """The state of some machines by their ids."""
    rule = verdict_rule(store)
    with store.read() as connection:
        limits = instrument_limits(connection)
        return {
            row.id: _machine(connection, row, rule, limits)
            for row in tree.machines(connection)
            if row.id in machine_ids
        }


def _machine(
    connection: Connection, row: tree.MachineRow, rule: Rule, limits: dict[int, InstrumentLimit]
) -> MachineState:
    work = work_once(connection, row.id)
    next_up = next_of(work)
    verdicts, readings = verdict_counts(connection, row.id, rule, limits)
    return MachineState(
        row.name,
        row.kind.value,
        row.year,
        row.scope.value,
        len(tree.subassemblies(connection, row.id)),
        row.parts,
        _by_decision(connection, row.id),
        _features(connection, row.id),
        readings,
        {verdict.value: verdicts[verdict] for verdict in Verdict if verdicts.get(verdict)},
        _steps(work, next_up.now),
        next_up.candidates,
        tuple(name for _, name in next_up.undecided),
        _questions(connection, row.id),
        _last_log(connection, row.id),
    )


def _by_decision(connection: Connection, machine_id: int) -> dict[str, int]:
    rows = connection.execute(
        select(Parts.decision, func.count()).where(Parts.machine_id == machine_id).group_by(Parts.decision)
    )
    counts = {row[0]: row[1] for row in rows}
    return {decision.value: counts[decision] for decision in Decision if decision in counts}


def _features(connection: Connection, machine_id: int) -> int:
    query = select(func.count()).select_from(Features).join(Parts, Parts.id == Features.part_id)
    return int(connection.execute(query.where(Parts.machine_id == machine_id)).scalar_one())


def _steps(work: Work, now: tuple[Node, ...]) -> Steps:
    """Typed steps by state; what can be done now and what waits count derived work too, decisions aside."""
    counts = Counter(step.state for step in work.facts.steps)
    still_open = sum(node.open and not said_elsewhere(node) for node in work.graph.nodes)
    return Steps(
        counts[TaskState.DONE],
        counts[TaskState.LEFT_OUT],
        counts[TaskState.UNDER_WAY],
        counts[TaskState.OPEN],
        tuple(node.title for node in now),
        still_open - len(now),
    )


def _questions(connection: Connection, machine_id: int) -> tuple[str, ...]:
    rows = connection.execute(
        select(Questions.text)
        .where(Questions.machine_id == machine_id, Questions.state == QuestionState.OPEN)
        .order_by(Questions.id)
    )
    return tuple(row.text for row in rows)


def _last_log(connection: Connection, machine_id: int) -> str:
    row = connection.execute(
        select(LogEntries.at, LogEntries.did, LogEntries.next_step)
        .where(LogEntries.machine_id == machine_id)
        .order_by(LogEntries.at.desc(), LogEntries.id.desc())
        .limit(1)
    ).first()
    if row is None:
        return ""
    next_step = f" Next: {row.next_step}" if row.next_step else ""
    return f"{show_day(row.at)}: {row.did}{next_step}"
