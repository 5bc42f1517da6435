"""A second teardown against the last refit: missed constraints as proposals, and what differs part by part."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.model.tables.journal import Changes
from rebuild.model.tables.refit import LinkProposals, RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import Attempts, RemovalParts
from rebuild.trade.teardown.second_teardown import compare
from rebuild.words.steps import LinkAnswer, TaskState
from rebuild.work.teardown.rows_removals import AttemptRow, RemovalRow, attempts, removals

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "change", "fastener", "link_proposal", "machine", "part", "place", "refit_step", "removal",
    "removal_part", "shim_leaf", "shim_pack", "subassembly", "task",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Proposal:
    """A link that was never written down: ``before`` must go on before ``after`` (removals of this attempt)."""

    before_id: int
    after_id: int
    before: str
    after: str
    reason: str
    answer: LinkAnswer | None


@dataclass(frozen=True, slots=True)
class Difference:
    """Something that is not as it was: the part, what, before and now."""

    part: str
    what: str
    before: str
    now: str


@dataclass(frozen=True, slots=True)
class SecondTeardown:
    """What a second teardown teaches. ``missing`` were put on and did not come off; ``new`` the other way."""

    attempt: AttemptRow
    last: AttemptRow
    proposals: tuple[Proposal, ...]
    missing: tuple[str, ...]
    new: tuple[str, ...]
    differences: tuple[Difference, ...]


def second_teardown(connection: Connection, attempt_id: int) -> SecondTeardown | None:
    """Compare an attempt's log with the attempt before it; None when it is the first."""
    machine_id = connection.execute(select(Attempts.machine_id).where(Attempts.id == attempt_id)).scalar()
    listed = attempts(connection, machine_id or 0)
    this = next((row for row in listed if row.id == attempt_id), None)
    if this is None:
        return None
    earlier = [
        row for row in listed if row.subassembly_id == this.subassembly_id and row.number < this.number
    ]
    if not earlier:
        return None
    last = max(earlier, key=lambda row: row.number)
    now, before = removals(connection, this.id), removals(connection, last.id)
    return SecondTeardown(
        this, last, *_orders(connection, last, now, before), differences=_differences(before, now)
    )


def _orders(
    connection: Connection, last: AttemptRow, now: Sequence[RemovalRow], before: Sequence[RemovalRow]
) -> tuple[tuple[Proposal, ...], tuple[str, ...], tuple[str, ...]]:
    of_part = {part: row.id for row in now for part in row.part_ids}
    words = {
        part: name for row in (*before, *now) for part, name in zip(row.part_ids, row.parts, strict=True)
    }
    rows = {row.id: row for row in now}
    refitted: list[Hashable] = [of_part.get(part, f"part {part}") for part in put_on(connection, last.id)]
    named = {f"part {part}": name for part, name in words.items()}
    found = compare(refitted, [row.id for row in now if row.part_ids])
    answers = _answers(connection, list(rows))
    proposals = tuple(
        Proposal(
            first,
            then,
            rows[first].called,
            rows[then].called,
            f"attempt {last.number} put {rows[then].called} on first, and it had to come off first",
            answers.get((first, then)),
        )
        for first, then in found.missed
        if isinstance(first, int) and isinstance(then, int)
    )
    missing = tuple(named[key] for key in found.missing if isinstance(key, str) and key in named)
    new = tuple(rows[key].called for key in found.new if isinstance(key, int))
    return proposals, missing, new


def put_on(connection: Connection, attempt_id: int) -> list[int]:
    """The parts an attempt's refit put on, in the order they were ticked (within one second: as journaled)."""
    journaled = (
        select(func.max(Changes.id))
        .where(Changes.tbl == "task", Changes.row_id == Tasks.id)
        .scalar_subquery()
    )
    rows = connection.execute(
        select(RemovalParts.part_id)
        .join(RefitSteps, RefitSteps.removal_id == RemovalParts.removal_id)
        .join(Tasks, Tasks.id == RefitSteps.task_id)
        .where(RefitSteps.attempt_id == attempt_id, Tasks.state == TaskState.DONE)
        .order_by(Tasks.done_at, journaled, Tasks.id)
    )
    return list(rows.scalars())


def _answers(connection: Connection, ids: Sequence[int]) -> dict[tuple[int, int], LinkAnswer]:
    rows = connection.execute(
        select(LinkProposals.before_id, LinkProposals.after_id, LinkProposals.answer)
        .where(LinkProposals.before_id.in_(ids))
        .order_by(LinkProposals.id)
    )
    return {(row.before_id, row.after_id): row.answer for row in rows}


def _differences(before: Sequence[RemovalRow], now: Sequence[RemovalRow]) -> tuple[Difference, ...]:
    was = {part: row for row in before for part in row.part_ids}
    found: list[Difference] = []
    for row in now:
        old = next((was[part] for part in row.part_ids if part in was), None)
        if old is not None:
            found += _of_one(old, row)
    return tuple(found)


def _of_one(old: RemovalRow, row: RemovalRow) -> list[Difference]:
    pairs = (
        ("how it came off", old.way, row.way),
        (
            "fasteners",
            "; ".join(one.words for one in old.fasteners),
            "; ".join(one.words for one in row.fasteners),
        ),
        ("shims", "; ".join(one.words for one in old.shims), "; ".join(one.words for one in row.shims)),
        ("which way it sat", old.orientation, row.orientation),
        ("match marks", old.match_mark, row.match_mark),
    )
    return [
        Difference(row.called, what, first, then) for what, first, then in pairs if then and first != then
    ]
