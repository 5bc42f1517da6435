"""The fits that a step which cannot be undone closes for good, and whether each may be closed."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.decisions import Concessions
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import RemovalParts
from rebuild.trade.limits.verdict import Rule
from rebuild.words.fits import FitKind
from rebuild.work.fits.rows import FitRow, FitState, of_parts, rows

#: The tables the lookups here ask.
READS = frozenset({
    "concession", "feature", "fit", "instrument", "part", "reading", "refit_step", "removal_part", "station", "task",
})  # fmt: skip
#: Fits that are closed by pressing, shrinking or pinning; where a part has such, its running fits come later.
_FOR_GOOD = (FitKind.PRESS, FitKind.SHRINK, FitKind.TAPER)


@dataclass(frozen=True, slots=True)
class NotConforming:
    """A fit that neither conforms nor was conceded, and what it says."""

    id: int
    words: str


def fits_of_steps(
    connection: Connection, task_ids: Collection[int], rule: Rule = Rule.CONFORMANCE_95
) -> dict[int, list[NotConforming]]:
    """For each step the fits of its parts that may not be closed yet; steps without any are left out."""
    parts = _parts_of(connection, task_ids)
    every = sorted(set().union(*parts.values())) if parts else []
    if not every:
        return {}
    fits = rows(connection, of_parts(connection, every), rule)
    conceded = _conceded(connection, sorted({side.part_id for fit in fits for side in fit.sides}))
    found = {key: _held(fits, of_step, conceded) for key, of_step in parts.items()}
    return {key: held for key, held in found.items() if held}


def _held(
    fits: list[FitRow], parts: set[int], conceded: Mapping[int, set[int | None]]
) -> list[NotConforming]:
    mine = [fit for fit in fits if any(side.part_id in parts for side in fit.sides)]
    closing = [fit for fit in mine if fit.kind in _FOR_GOOD] or mine
    return [
        NotConforming(fit.id, f"{fit.title}: {fit.state.value}{' and stale' if fit.stale else ''}")
        for fit in closing
        if (fit.state is not FitState.CONFORMS or fit.stale) and not _is_conceded(fit, conceded)
    ]


def _is_conceded(fit: FitRow, conceded: Mapping[int, set[int | None]]) -> bool:
    return any(
        None in conceded.get(side.part_id, ()) or side.feature_id in conceded.get(side.part_id, ())
        for side in fit.sides
    )


def _conceded(connection: Connection, part_ids: list[int]) -> dict[int, set[int | None]]:
    found: dict[int, set[int | None]] = {}
    rows_ = connection.execute(
        select(Concessions.part_id, Concessions.feature_id).where(Concessions.part_id.in_(part_ids))
    )
    for row in rows_:
        found.setdefault(row.part_id, set()).add(row.feature_id)
    return found


def _parts_of(connection: Connection, task_ids: Collection[int]) -> dict[int, set[int]]:
    keys = list(task_ids)
    if not keys:
        return {}
    found: dict[int, set[int]] = {}
    own = select(Tasks.id, Tasks.part_id).where(Tasks.id.in_(keys), Tasks.part_id.is_not(None))
    drafted = (
        select(RefitSteps.task_id, RemovalParts.part_id)
        .join(RemovalParts, RemovalParts.removal_id == RefitSteps.removal_id)
        .where(RefitSteps.task_id.in_(keys))
    )
    for task_id, part_id in [*connection.execute(own), *connection.execute(drafted)]:
        found.setdefault(task_id, set()).add(part_id)
    return found
