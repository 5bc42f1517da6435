"""A step that hides an oil point may not be closed before oil was seen to arrive there."""

from __future__ import annotations

from sqlalchemy import or_, select

from rebuild.model.records.lubrication import OilPoint
from rebuild.model.records.steps import Task
from rebuild.store.tx import Tx
from rebuild.words.lubrication import FlowProof
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.records.ways_out import Way, WayKind


def called(row: OilPoint) -> str:
    """Number and what it feeds."""
    return f"{row.number} {row.feeds}".strip()


def unproved_flow(tx: Tx, task: Task) -> list[Obstacle]:
    """A step that hides oil points where no oil was seen to arrive."""
    rows = tx.session.scalars(
        select(OilPoint)
        .where(
            OilPoint.task_id == task.id,
            or_(OilPoint.proof == FlowProof.NOT_PROVED, OilPoint.proof == FlowProof.BLOCKED),
        )
        .order_by(OilPoint.position, OilPoint.id)
    ).all()
    if not rows:
        return []
    named = ", ".join(
        f"{called(row)}{' (blocked)' if row.proof is FlowProof.BLOCKED else ''}" for row in rows[:4]
    )
    more = f" and {len(rows) - 4} more" if len(rows) > 4 else ""
    first = rows[0]
    return [
        Obstacle(
            f"“{task.title}” hides an oil point where no oil was seen to arrive: {named}{more}.",
            way_out="Prove the flow first; afterwards it cannot be seen.",
            ways=(Way(WayKind.FLOW_SEEN, f"Oil was seen at {called(first)}", first.id),),
        )
    ]
