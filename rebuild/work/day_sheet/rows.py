"""The steps of one evening with what is wanted at each: part and where it lies, sizes, photo, how it came off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection

from rebuild.trade.limits.verdict import Rule
from rebuild.trade.schedule.graph import Node
from rebuild.work.log.rows import next_said
from rebuild.work.machines.rows_tree import parts
from rebuild.work.photos import rows as photo_rows
from rebuild.work.photos.rows import PhotoRow, Which, photos
from rebuild.work.plan import rows_input as plan
from rebuild.work.plan.next_up import own_next
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.plan.rows_input import planned
from rebuild.work.plan.rows_tonight import Tonight, offers, together
from rebuild.work.readings import rows_grid
from rebuild.work.readings.rows_grid import GridRow
from rebuild.work.readings.rows_grid_keys import Asked
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.steps import rows as steps
from rebuild.work.steps.rows import TaskRow, tasks
from rebuild.work.teardown import rows_removals as off
from rebuild.work.teardown.rows_removals import RemovalRow, attempts, removals

#: The tables the lookups here ask.
READS = (
    plan.READS
    | (photo_rows.READS - {"mark_part", "photo_mark"})
    | rows_grid.READS
    | steps.READS
    | off.READS
    | {"instrument", "log_entry", "place"}
)


@dataclass(frozen=True, slots=True)
class DayStep:
    """One piece of work with all that is wanted at it; ``step`` is None for work that follows from what is known."""

    title: str
    minutes: float | None
    where: str
    step: TaskRow | None
    part: str
    lies: str
    sizes: tuple[GridRow, ...]
    off: RemovalRow | None
    photo: PhotoRow | None
    why: str = ""


def day_steps(
    connection: Connection, machine_id: int, tonight: Tonight, now: dt.datetime, rule: Rule
) -> list[DayStep]:
    """All work for an evening that can start, typed or not: what together fits its minutes, best first."""
    listed = {row.id: row for row in tasks(connection, machine_id, now=now)}
    work = work_graph(connection, machine_id, now)
    own, _not_yet = own_next(work, next_said(connection, machine_id))
    taken = together(offers(planned(work), tonight, own.key if own else None), tonight.minutes)
    chosen = [offer.node for offer in taken]
    why = {offer.node.key: offer.why for offer in taken}
    ids = tuple({row.part_id for row in chosen if row.part_id is not None})
    named = {row.id: row for row in parts(connection, machine_id, ids)}
    logged = {
        row.refit_id: row for one in attempts(connection, machine_id) for row in removals(connection, one.id)
    }
    sizes = _sizes(connection, machine_id, ids, rule)
    found = []
    for row in chosen:
        part, step = named.get(row.part_id or 0), listed.get(row.key)
        found.append(
            DayStep(
                row.title,
                step.likely_min if step is not None else row.points.likely,
                step.place if step is not None else row.place,
                step,
                f"{part.code} {part.name}".strip() if part else "",
                part.place if part else "",
                tuple(one for one in sizes if one.part_id == row.part_id),
                logged.get(row.key),
                _photo(connection, machine_id, row),
                why[row.key],
            )
        )
    return found


def _sizes(connection: Connection, machine_id: int, ids: Sequence[int], rule: Rule) -> list[GridRow]:
    limits = instrument_limits(connection)
    keys = rows_grid.keys(connection, Asked(machine_id, part_ids=frozenset(ids)), rule, limits)
    return [row for row in rows_grid.rows(connection, keys, rule, limits) if row.spec_text or row.speaking]


def _photo(connection: Connection, machine_id: int, row: Node) -> PhotoRow | None:
    """The newest photo of the step, else of its part."""
    own = () if row.derived else photos(connection, machine_id, Which.CHOSEN, task_ids=(row.key,))
    found = list(own)
    if not found and row.part_id is not None:
        found = photos(connection, machine_id, Which.CHOSEN, part_ids=(row.part_id,))
    return found[0] if found else None
