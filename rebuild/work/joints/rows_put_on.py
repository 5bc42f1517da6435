"""Which parts a refit step puts on."""

from __future__ import annotations

from sqlalchemy import select

from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import RemovalParts
from rebuild.store.tx import Tx
from rebuild.words.steps import TaskKind

#: The tables the lookups here ask.
READS = frozenset({"refit_step", "removal_part"})


def parts_put_on(tx: Tx, task: Tasks) -> set[int]:
    """The parts a refit step puts on: its own, and all that came off in the removal it was drafted from."""
    if task.kind is not TaskKind.REFIT:
        return set()
    drafted = tx.session.scalars(
        select(RemovalParts.part_id)
        .join(RefitSteps, RefitSteps.removal_id == RemovalParts.removal_id)
        .where(RefitSteps.task_id == task.id)
    )
    return set(drafted) | ({task.part_id} if task.part_id is not None else set())
