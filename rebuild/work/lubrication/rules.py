"""What must hold of an oil point as a whole: one number a machine, no ring in the lines, a day for every proof."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.lubrication import OilPoint
from rebuild.store.tx import Tx
from rebuild.trade.charts.order import ring_in
from rebuild.trade.lubrication.duties import duty
from rebuild.words.lubrication import FlowProof
from rebuild.work.records.rules import refuse_other_machine
from rebuild.work.records.wall_clock import now


def oil_point(tx: Tx, row: OilPoint, _before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """One number a machine, a known duty, no ring in the lines, a day for every proof. Raises BadEntry."""
    with tx.session.no_autoflush:
        refuse_other_machine(tx, row.machine_id, part=row.part_id, step=row.task_id)
        _refuse_as_a_whole(tx, row)
    if "proof" in typed and "proved_at" not in typed and row.proof in (FlowProof.PROVED, FlowProof.BLOCKED):
        row.proved_at = now()


def _refuse_as_a_whole(tx: Tx, row: OilPoint) -> None:
    if row.duty:
        duty(row.duty)
    same = select(OilPoint.feeds).where(
        OilPoint.machine_id == row.machine_id, OilPoint.number == row.number, OilPoint.id.is_not(row.id)
    )
    with tx.session.no_autoflush:
        taken = tx.session.scalar(same.limit(1))
        if taken is not None:
            raise BadEntry(
                f"is already the number of “{taken}”.",
                where="No.",
                value=row.number,
                way_out="A number on the map must name one point.",
            )
        if row.fed_by_id is not None:
            _refuse_ring(tx, row, row.fed_by_id)
    if row.proof in (FlowProof.NOT_PROVED, FlowProof.NOT_NEEDED):
        row.proved_at = None


def _refuse_ring(tx: Tx, row: OilPoint, fed_by_id: int) -> None:
    above = tx.get(OilPoint, fed_by_id, "oil point")
    if above.machine_id != row.machine_id:
        raise BadEntry(
            "is of another machine.",
            where="Fed through",
            value=above.number,
            way_out="Choose one of this card.",
        )
    fed = {
        found.id: found.fed_by_id
        for found in tx.session.execute(
            select(OilPoint.id, OilPoint.fed_by_id).where(OilPoint.machine_id == row.machine_id)
        )
    }
    if row.id is not None and ring_in(fed, row.id, fed_by_id):
        raise BadEntry(
            "is itself fed through this one.",
            where="Fed through",
            value=f"{above.number} {above.feeds}",
            way_out="Oil flows one way; choose what comes before it.",
        )
