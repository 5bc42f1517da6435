"""What must hold of a geometry test, an oil point and the first run as a whole."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.charts import ChartLine, ChartTest
from rebuild.model.records.lubrication import OilPoint
from rebuild.model.records.run_in import CutTest, RunLook
from rebuild.store.tx import Tx
from rebuild.trade.charts.order import ring_in
from rebuild.trade.charts.set_up_sketches import sketch_names
from rebuild.trade.lubrication.duties import duty
from rebuild.trade.results.cautions import caution
from rebuild.trade.run_in.cut_tests import facing, two_collars
from rebuild.words.charts import LimitSign, LimitStatus
from rebuild.words.lubrication import FlowProof
from rebuild.words.run_in import CutKind


def chart_test(tx: Tx, row: ChartTest) -> None:
    """The test before it is of the same machine and waits not for it; its sketch is ours. Raises BadEntry."""
    if row.sketch and row.sketch not in sketch_names():
        raise BadEntry(
            "is not a sketch.", where="Sketch", value=row.sketch, way_out=f"Choose {', '.join(sketch_names())}."
        )  # fmt: skip
    if row.after_id is None:
        return
    before = tx.get(ChartTest, row.after_id, "geometry test")
    if before.machine_id != row.machine_id:
        raise BadEntry(
            "is of another machine.",
            where="Only after",
            value=before.name,
            way_out="Choose one of this chart.",
        )
    after = {
        found.id: found.after_id
        for found in tx.session.execute(
            select(ChartTest.id, ChartTest.after_id).where(ChartTest.machine_id == row.machine_id)
        )
    }
    if row.id is not None and ring_in(after, row.id, row.after_id):
        raise BadEntry(
            "already waits for this test.", where="Only after", value=f"{before.number} {before.name}".strip(),
            way_out="A test cannot come after itself; choose another.",
        )  # fmt: skip


def chart_line(row: ChartLine, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """A limit is not negative; a changed limit is the owner's own until said otherwise. Raises BadEntry."""
    for value, where in ((row.allowed_mm, "Allowed"), (row.per_mm, "Per length")):
        if value is not None and (value < 0 or (where == "Per length" and value == 0)):
            what = "is not a size above zero." if where == "Per length" else "is less than nothing."
            raise BadEntry(
                what, where=where, value=typed.get("allowed", typed.get("per", "")),
                way_out="The sign belongs to the position, not to the limit.",
            )  # fmt: skip
    if row.sign is LimitSign.PLUS_ONLY and not (row.plus_means or "").strip():
        raise BadEntry(
            "is empty.",
            where="Plus means",
            way_out="Say which way is allowed, e.g. hollow, high, toward the tool.",
        )
    changed = {"allowed", "per", "along", "sign"} & typed.keys()
    if (
        changed
        and before
        and any(before.get(f"{name}_mm", before.get(name)) != _now(row, name) for name in changed)
    ):
        if "status" not in typed:
            row.status = LimitStatus.OWN
        if "origin" not in typed:
            row.origin = ""


def _now(row: ChartLine, name: str) -> object:
    return getattr(row, f"{name}_mm", None) if name in ("allowed", "per") else getattr(row, name)


def oil_point(tx: Tx, row: OilPoint) -> None:
    """One number a machine, a known duty, no ring in the lines, a day for every proof. Raises BadEntry."""
    if row.duty:
        duty(row.duty)
    same = select(OilPoint.feeds).where(
        OilPoint.machine_id == row.machine_id, OilPoint.number == row.number, OilPoint.id.is_not(row.id)
    )
    with tx.session.no_autoflush:
        taken = tx.session.scalar(same.limit(1))
        if taken is not None:
            raise BadEntry(
                f"is already the number of “{taken}”.", where="No.", value=row.number,
                way_out="A number on the map must name one point.",
            )  # fmt: skip
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
            "is itself fed through this one.", where="Fed through", value=f"{above.number} {above.feeds}",
            way_out="Oil flows one way; choose what comes before it.",
        )  # fmt: skip


def cut_test(row: CutTest) -> None:
    """Whole enough to be worked out. Raises BadEntry naming what is missing or wrong."""
    names = {
        CutKind.TWO_COLLAR: ("Collar near the spindle", "Collar at the free end", "Length between"),
        CutKind.FACING: ("Hollow", "", "Diameter faced"),
    }[row.kind]
    for name, value in zip(names, (row.first_mm, row.second_mm, row.apart_mm), strict=True):
        if name and value is None:
            raise BadEntry(
                "is not given.", where=name, way_out="Measure it; without it the test says nothing."
            )
    if row.kind is CutKind.FACING:
        facing(row.first_mm or 0.0, row.apart_mm or 0.0)
    else:
        two_collars(row.first_mm or 0.0, row.second_mm or 0.0, row.apart_mm or 0.0)


def run_look(row: RunLook) -> None:
    """Its caution is one there is. Raises BadEntry."""
    if row.topic:
        caution(row.topic)
