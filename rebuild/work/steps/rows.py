"""A subassembly's steps, what each waits for, and what can be done now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.parts import Parts
from rebuild.model.tables.steps import Links, TaskCautions, TaskConstraints, Tasks
from rebuild.trade.schedule.graph import Hold
from rebuild.words.steps import ConstraintKind, TaskKind, TaskState
from rebuild.work.plan import rows_graph
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.waiting.rows_clocks import words_by_step

#: The tables the lookups here ask.
READS = rows_graph.READS | {"joint", "task_caution"}


@dataclass(frozen=True, slots=True)
class TaskRow:
    """One step as the list shows it; ``holds`` is the graph's answer, ``settled`` what met its purpose unticked."""

    id: int
    subassembly_id: int | None
    part_id: int | None
    part_code: str
    title: str
    kind: TaskKind
    state: TaskState
    low_min: float | None
    likely_min: float | None
    high_min: float | None
    irreversible: bool
    place: str
    torque_wanted: str
    done_at: dt.datetime | None
    done_measured: str
    done_torque: str
    done_note: str
    note: str
    holds: tuple[Hold, ...]
    cautions: tuple[str, ...]
    constraints: tuple[tuple[ConstraintKind, str], ...]
    clocks: tuple[str, ...] = ()
    tools: str = ""
    settled: str = ""

    @property
    def waits_for(self) -> tuple[tuple[int, str], ...]:
        """The work that must come first: its key in the graph, and its title."""
        return tuple((hold.key, hold.title) for hold in self.holds)


def tasks(
    connection: Connection,
    machine_id: int,
    subassembly_ids: Collection[int | None] | None = None,
    part_ids: Collection[int] | None = None,
    *,
    ids: Collection[int] | None = None,
    now: dt.datetime | None = None,
) -> list[TaskRow]:
    """Steps of a machine (or of some subassemblies or parts; None among them: of the machine itself; or some ``ids``).

    With ``now`` each step carries how its clocks stand at that moment.
    """
    query = (
        select(
            Tasks.id,
            Tasks.subassembly_id,
            Tasks.part_id,
            Parts.code.label("part_code"),
            Tasks.title,
            Tasks.kind,
            Tasks.state,
            Tasks.low_min,
            Tasks.likely_min,
            Tasks.high_min,
            Tasks.irreversible,
            Tasks.place,
            Tasks.torque_wanted,
            Tasks.done_at,
            Tasks.done_measured,
            Tasks.done_torque,
            Tasks.done_note,
            Tasks.note,
            Tasks.tools,
        )
        .select_from(Tasks)
        .outerjoin(Parts, Parts.id == Tasks.part_id)
        .where(Tasks.machine_id == machine_id)
        .order_by(Tasks.subassembly_id, Tasks.position, Tasks.id)
    )
    if subassembly_ids is not None:
        known = [key for key in subassembly_ids if key is not None]
        inside = Tasks.subassembly_id.in_(known)
        query = query.where(inside | Tasks.subassembly_id.is_(None) if None in subassembly_ids else inside)
    if part_ids is not None:
        query = query.where(Tasks.part_id.in_(part_ids))
    if ids is not None:
        query = query.where(Tasks.id.in_(ids))
    listed = connection.execute(query).all()
    graph = work_graph(connection, machine_id, now).graph
    cautions = _cautions(connection, machine_id)
    constraints = _constraints(connection, machine_id)
    ticking = words_by_step(connection, machine_id, now) if now is not None else {}
    return [
        TaskRow(
            row.id,
            row.subassembly_id,
            row.part_id,
            row.part_code or "",
            row.title,
            row.kind,
            row.state,
            row.low_min,
            row.likely_min,
            row.high_min,
            row.irreversible,
            row.place,
            row.torque_wanted,
            row.done_at,
            row.done_measured,
            row.done_torque,
            row.done_note,
            row.note,
            graph.held_by(row.id),
            tuple(cautions.get(row.id, ())),
            tuple(constraints.get(row.id, ())),
            ticking.get(row.id, ()),
            row.tools,
            node.settled if (node := graph.node(row.id)) is not None else "",
        )
        for row in listed
    ]


def _cautions(connection: Connection, machine_id: int) -> dict[int, list[str]]:
    rows = connection.execute(
        select(TaskCautions.task_id, TaskCautions.topic)
        .select_from(TaskCautions)
        .join(Tasks, Tasks.id == TaskCautions.task_id)
        .where(Tasks.machine_id == machine_id)
        .order_by(TaskCautions.id)
    )
    found: dict[int, list[str]] = {}
    for row in rows:
        found.setdefault(row.task_id, []).append(row.topic)
    return found


def _constraints(connection: Connection, machine_id: int) -> dict[int, list[tuple[ConstraintKind, str]]]:
    rows = connection.execute(
        select(TaskConstraints.task_id, TaskConstraints.kind, TaskConstraints.detail)
        .select_from(TaskConstraints)
        .join(Tasks, Tasks.id == TaskConstraints.task_id)
        .where(Tasks.machine_id == machine_id)
        .order_by(TaskConstraints.id)
    )
    found: dict[int, list[tuple[ConstraintKind, str]]] = {}
    for row in rows:
        found.setdefault(row.task_id, []).append((row.kind, row.detail))
    return found


def links(connection: Connection, machine_id: int) -> list[tuple[int, int, int]]:
    """The machine's links as (link id, before, after)."""
    rows = connection.execute(
        select(Links.id, Links.before_id, Links.after_id)
        .select_from(Links)
        .join(Tasks, Tasks.id == Links.after_id)
        .where(Tasks.machine_id == machine_id)
    )
    return [(row.id, row.before_id, row.after_id) for row in rows]
