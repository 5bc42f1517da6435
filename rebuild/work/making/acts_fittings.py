"""What is brought to size at assembly: asked for with its start, allowance and condition, and what came out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.fitting import Fitting
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.words.fitting import FittingKind
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now


def add_fitting(
    store: Store, part_id: int, kind: FittingKind, what: str, typed: Mapping[str, str] | None = None
) -> int:
    """Something of a part that is fitted at assembly; returns its id.

    Raises:
        BadEntry: without a condition nobody knows when to stop; or a size cannot be read.
    """
    columns = read_typed("fitting", {"what": what, **(typed or {})}, comma=decimal_comma(store))
    if not columns.get("condition"):
        raise BadEntry(
            "is empty.", where="Until", way_out="Say what must hold then, as turns by hand without shake."
        )
    with store.act(Act.ADD_FITTING, "") as tx:
        part = tx.get(Part, part_id, "part")
        last = tx.session.scalar(select(func.max(Fitting.position)).where(Fitting.part_id == part_id))
        row = Fitting(part_id=part_id, kind=kind, position=0 if last is None else last + 1)
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"{title(part)}: {row.what}, {kind}"
        return row.id


def finish_fitting(store: Store, fitting_id: int, came_out: str, *, at: dt.datetime | None = None) -> None:
    """Say that its condition holds, and what it came out to.

    Raises:
        BadEntry: nothing is said of what came out.
    """
    columns = read_typed("fitting", {"came_out": came_out}, comma=decimal_comma(store))
    if not columns["came_out"]:
        raise BadEntry(
            "is empty.",
            where="Came out",
            way_out="Type the size it has now, or what was found with the mate.",
        )
    with store.act(Act.TICK, "") as tx:
        row = tx.get(Fitting, fitting_id, "fit at assembly")
        set_columns(row, columns)
        row.done_at = at or now()
        tx.subject = f"{row.what}: {row.came_out}"
