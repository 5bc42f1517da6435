"""Typed texts to a record's columns and back: what every act does before its own rules speak."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import inspect

from rebuild.errors import BadEntry
from rebuild.model.records.record import Record
from rebuild.store.tx import Tx
from rebuild.work.records.field import Columns, Field
from rebuild.work.records.fields import RECORDS, called, field_of


def read_typed(
    record: str, typed: Mapping[str, str], unit: str = "mm", *, comma: bool | None = None
) -> Columns:
    """Column values of typed fields. Raises BadEntry or Ambiguous."""
    columns: Columns = {}
    for name, text in typed.items():
        field = field_of(record, name)
        read = field.read(text, unit, decimal_comma=comma)
        _refuse_nothing(record, field, read)
        columns |= read
        if name == "unit" and columns["unit"] not in ("mm", "in"):
            raise BadEntry(
                "is not a unit the grid shows.", where="Unit", value=text, way_out="Type mm or in."
            )
    return columns


def _refuse_nothing(record: str, field: Field, read: Columns) -> None:
    """A column that must hold something is not emptied."""
    held = RECORDS[record].table.c
    if any(value is None and name in held and not held[name].nullable for name, value in read.items()):
        raise BadEntry("is empty.", where=field.label, way_out=field.help or "Type a number.")


def set_columns(row: Record, columns: Columns) -> None:
    """Put column values on a mapped record; nothing typed into what was never filled in is no change."""
    for name, value in columns.items():
        current = getattr(row, name)
        if current != value and not (current is None and value == ""):
            setattr(row, name, value)


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
    return f"{called(row.table_name)} no. {getattr(row, 'id', '?')}"
