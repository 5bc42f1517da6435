"""What must hold of a geometry test and its positions as a whole."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.charts import ChartLine, ChartTest
from rebuild.store.tx import Tx
from rebuild.trade.charts.order import ring_in
from rebuild.trade.charts.set_up_sketches import sketch_names
from rebuild.words.charts import LimitSign, LimitStatus


def chart_test(tx: Tx, row: ChartTest, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """The test before it is of the same machine and waits not for it; its sketch is ours. Raises BadEntry."""
    with tx.session.no_autoflush:
        _refuse_test(tx, row)


def _refuse_test(tx: Tx, row: ChartTest) -> None:
    if row.sketch and row.sketch not in sketch_names():
        raise BadEntry(
            "is not a sketch.",
            where="Sketch",
            value=row.sketch,
            way_out=f"Choose {', '.join(sketch_names())}.",
        )
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
            "already waits for this test.",
            where="Only after",
            value=f"{before.number} {before.name}".strip(),
            way_out="A test cannot come after itself; choose another.",
        )


def chart_line(_tx: Tx, row: ChartLine, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """A limit is not negative; a changed limit is the owner's own until said otherwise. Raises BadEntry."""
    for value, where in ((row.allowed_mm, "Limit"), (row.per_mm, "Per length")):
        if value is not None and (value < 0 or (where == "Per length" and value == 0)):
            what = "is not a size above zero." if where == "Per length" else "is less than nothing."
            raise BadEntry(
                what,
                where=where,
                value=typed.get("allowed", typed.get("per", "")),
                way_out="The sign belongs to the position, not to the limit.",
            )
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
