"""Typed texts to a record's columns and back: what every act does before its own rules speak."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import inspect

from rebuild.errors import BadEntry
from rebuild.model.records.record import Record
from rebuild.store.tx import Tx
from rebuild.work.records.field import Columns
from rebuild.work.records.fields import FIELDS, RECORDS, called, field_of


def read_typed(
    record: str, typed: Mapping[str, str], unit: str = "mm", *, comma: bool | None = None
) -> Columns:
    """Column values of typed fields. Raises BadEntry or Ambiguous."""
    columns: Columns = {}
    for name, text in typed.items():
        columns |= field_of(record, name).read(text, unit, decimal_comma=comma)
        if name == "unit" and columns["unit"] not in ("mm", "in"):
            raise BadEntry(
                "is not a unit the grid shows.", where="Unit", value=text, way_out="Type mm or in."
            )
    return columns


def set_columns(row: Record, columns: Columns) -> None:
    """Put column values on a mapped record; nothing typed into what was never filled in is no change.

    Raises:
        BadEntry: a number that a record always has was cleared.
    """
    for name, value in columns.items():
        current = getattr(row, name)
        if current != value and not (current is None and value == ""):
            if value is None:
                _refuse_cleared(row, name, current)
            setattr(row, name, value)


def _refuse_cleared(row: Record, name: str, current: object) -> None:
    """A new record may leave out what has a usual value; one that stands keeps what it has until another is typed."""
    column = inspect(type(row)).columns.get(name)
    if column is None or column.nullable or (column.default is not None and not inspect(row).persistent):
        return
    field = next((one for one in FIELDS[row.table_name] if name in one.columns()), None)
    if field is None:
        return
    stands = f" {field.show({name: current})} stays until then." if current is not None else ""
    raise BadEntry("is empty.", where=field.label, way_out=f"Type a number.{stands}")


def columns_of(row: Record) -> dict[str, object]:
    """All column values of a mapped record by name."""
    return {attribute.key: getattr(row, attribute.key) for attribute in inspect(type(row)).column_attrs}


def unit_of(tx: Tx, row: Record) -> str:
    """The unit a bare number typed into this record is in."""
    own = getattr(row, "unit", None)
    if own is not None:
        return str(own)
    feature_id = getattr(row, "feature_id", None)
    if feature_id is not None:
        feature = tx.session.get(RECORDS["feature"], feature_id)
        return str(getattr(feature, "unit", "mm"))
    return "mm"


def title(row: Record) -> str:
    """What a record is called in the history: code and name, or its text."""
    code = getattr(row, "code", "")
    for name in ("name", "title", "text", "topic", "did", "reason", "detail", "typed"):
        value = getattr(row, name, None)
        if value:
            short = str(value) if len(str(value)) <= 60 else f"{str(value)[:57]}…"
            return f"{code} {short}".strip()
    place = getattr(row, "position", None) if row.table_name == "removal" else None
    return f"{called(row.table_name)} no. {getattr(row, 'id', '?') if place is None else place + 1}"
