"""Details of a part to be made: added with their sizes, ticked as made with what they came out to."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from sqlalchemy import func, select

from rebuild.model.records.making import MakingDetail
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.making_details import DetailKind
from rebuild.work.making.rows_details import read_detail
from rebuild.work.making.rules import called, open_sheet
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now


def add_detail(
    store: Store, sheet_id: int, kind: DetailKind, name: str, typed: Mapping[str, str] | None = None
) -> int:
    """A hole, flat, groove or the like on a sheet's part; returns its id.

    Raises:
        BadEntry, Ambiguous, OutOfRange: a size cannot be read, or the sheet is settled.
    """
    columns = read_typed("making_detail", {"name": name, **(typed or {})}, comma=decimal_comma(store))
    with store.act(Act.CHANGE_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        last = tx.session.scalar(
            select(func.max(MakingDetail.position)).where(MakingDetail.sheet_id == sheet_id)
        )
        row = MakingDetail(sheet_id=sheet_id, kind=kind, position=0 if last is None else last + 1)
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        read_detail(row, sheet.unit)
        tx.subject = f"of {called(tx, sheet)}: {row.name}, {kind}"
        return row.id


def tick_detail(
    store: Store, detail_id: int, came_out: str = "", *, done: bool = True, at: dt.datetime | None = None
) -> None:
    """Say that a detail is made, and what it came out to; or that it is not.

    Raises:
        BadEntry, Ambiguous: what it came out to is no size, or the sheet is settled.
    """
    columns = read_typed("making_detail", {"came_out": came_out}, comma=decimal_comma(store))
    with store.act(Act.TICK if done else Act.UNTICK, "") as tx:
        row = tx.get(MakingDetail, detail_id, "detail")
        sheet = open_sheet(tx, row.sheet_id)
        row.done_at = (at or now()) if done else None
        set_columns(row, columns if done else {"came_out": ""})
        tx.session.flush()
        read_detail(row, sheet.unit)
        tx.subject = f"{row.name} of {called(tx, sheet)}" + (f": {row.came_out}" if row.came_out else "")


def details_in(tx: Tx, sheet_id: int) -> list[MakingDetail]:
    """The details of a sheet in their order."""
    tx.session.flush()
    query = select(MakingDetail).where(MakingDetail.sheet_id == sheet_id)
    return list(tx.session.scalars(query.order_by(MakingDetail.position, MakingDetail.id)))
