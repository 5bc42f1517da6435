"""Type the sizes of a making sheet."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.making import MakingDimension, MakingSheet
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.spec_entry import parse_spec
from rebuild.trade.making.roles import role
from rebuild.trade.sizes.number import read_number
from rebuild.trade.sizes.quantity import Size
from rebuild.words.making import LimitsFrom, MakingProgress
from rebuild.work.making.acts_features import tell_features
from rebuild.work.making.acts_fill import follows_stock, refresh_rows
from rebuild.work.making.acts_issue import follows_issue
from rebuild.work.making.measures import measure_of, put_measure, put_size
from rebuild.work.making.rules import called, dimensions_of, open_sheet
from rebuild.work.readings.rules_plausible import TIMES, Expected, refuse_implausible
from rebuild.work.records.rows_settings import decimal_comma


def set_size(
    store: Store, dimension_id: int, text: str, *, confirmed: bool = False, at: dt.datetime | None = None
) -> None:
    """Type a size or its limits (``24.98-25.00``, ``40 ±0.3``, ``25 H7``); empty takes the worked-out ones again.

    ``confirmed`` takes a size that was held as implausible.

    Raises:
        BadEntry, Ambiguous, OutOfRange: the text cannot be taken, or is not above zero.
        Implausible: ten times or 25.4 times off what stood there.
    """
    comma = decimal_comma(store)
    with store.act(Act.CHANGE_SHEET, "") as tx:
        row = tx.get(MakingDimension, dimension_id, "size")
        sheet = open_sheet(tx, row.sheet_id)
        with follows_issue(tx, sheet, at), follows_stock(tx, sheet):
            if text.strip():
                read_size(row, sheet, text, comma, confirmed)
            else:
                put_measure(row, Measure(row.name), sheet.unit)
                row.limits_from = LimitsFrom.TABLE
            refresh_rows(tx, sheet, (LimitsFrom.TABLE,))
        if sheet.progress is not MakingProgress.DRAFT:
            tell_features(tx, sheet.part_id, [row])
        tx.subject = f"of {called(tx, sheet)}: {row.name} {row.size_text or 'worked out again'}"


def read_size(
    row: MakingDimension, sheet: MakingSheet, text: str, comma: bool | None, confirmed: bool
) -> None:
    """Put a typed size on a row. Raises as ``set_size``."""
    found = role(sheet.shape.value, row.role)
    if found is not None and not found.is_length:
        number = _number(text, row.name, comma)
        put_size(row, "nominal", Size(text.strip(), "mm", number))
        put_size(row, "low", None)
        put_size(row, "high", None)
    else:
        entry = parse_spec(text, sheet.unit, row.name, decimal_comma=comma)
        before = measure_of(row)
        sizes = [size for size in (entry.nominal, entry.low, entry.high) if size is not None]
        if any(size.mm <= 0 for size in sizes):
            raise BadEntry(
                "is not above zero.", where=row.name, value=text, way_out="Type a size, e.g. 25 ±0.1."
            )
        if before.given and not confirmed and not 1 / TIMES < sizes[-1].mm / before.at_mm < TIMES:
            expected = Expected(row.name, before.at_mm, None, None, None)
            refuse_implausible(sizes[-1].mm, expected, text.strip(), sheet.unit)
        put_size(row, "nominal", entry.nominal)
        put_size(row, "low", entry.low)
        put_size(row, "high", entry.high)
    row.size_text = text.strip()
    row.limits_from = LimitsFrom.OWN


def _number(text: str, name: str, comma: bool | None) -> float:
    number = read_number(text, name, "°", decimal_comma=comma, ways="Type it as 4, or 55.")
    if not 0 < number < 1000:
        raise BadEntry(
            "is not a number from 0 to 1000.", where=name, value=text, way_out="Type it as 4, or 55."
        )
    return number


def add_size(
    store: Store, sheet_id: int, name: str, text: str = "", *, measured_with: str = "", note: str = ""
) -> int:
    """One more size on a sheet: a size of its shape by its word, or any other by name; returns its id.

    ``note`` says where its limits come from; without one it is that of the shape's own size.

    Raises:
        BadEntry: it is on the sheet already; and as ``set_size``.
    """
    comma = decimal_comma(store)
    with store.act(Act.CHANGE_SHEET, "") as tx:
        sheet = open_sheet(tx, sheet_id)
        wanted = " ".join(name.split())
        if not wanted:
            raise BadEntry("is empty.", where="Size", way_out="Say what is measured.")
        if any(row.name == wanted for row in dimensions_of(tx, sheet_id)):
            raise BadEntry("is on the sheet already.", where="Size", value=wanted)
        found = role(sheet.shape.value, wanted.lower())
        row = MakingDimension(
            sheet_id=sheet_id,
            role=found.name if found else "",
            name=found.name if found else wanted,
            measured_with=measured_with or (found.measured_with if found else ""),
            note=note or (found.note if found else ""),
            limits_from=LimitsFrom.OWN,
            position=_next_position(tx, sheet_id),
            size_text="",
        )
        if text.strip():
            read_size(row, sheet, text, comma, confirmed=True)
        with follows_issue(tx, sheet):
            tx.session.add(row)
            tx.session.flush()
            refresh_rows(tx, sheet, (LimitsFrom.TABLE,))
        tx.subject = f"of {called(tx, sheet)}: {row.name} {row.size_text}".rstrip()
        return row.id


def _next_position(tx: Tx, sheet_id: int) -> int:
    last = tx.session.scalar(
        select(func.max(MakingDimension.position)).where(MakingDimension.sheet_id == sheet_id)
    )
    return 0 if last is None else last + 1
