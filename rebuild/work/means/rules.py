"""A step that names something the shop has not got is held until it is made, bought, borrowed or back."""

from __future__ import annotations

from rebuild.model.records.steps import Task
from rebuild.store.tx import Tx
from rebuild.work.means.rows import lacking
from rebuild.work.records.obstacle import Obstacle


def not_here(tx: Tx, task: Task) -> list[Obstacle]:
    """What ``task`` lacks, each with the ways to come by it."""
    tx.session.flush()
    return [
        Obstacle(
            f"“{task.title}” {one.sentence}.",
            way_out="Come by it first, or tick this one all the same.",
            ways=one.ways,
        )
        for one in lacking(tx.connection, task.machine_id).get(task.id, ())
    ]
