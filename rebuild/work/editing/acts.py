"""Edit, and remove, any record's fields from typed text; two windows on one field are told apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sqlalchemy import Connection, inspect, select

from rebuild.errors import BadEntry, Clash, NotThere
from rebuild.model.records.journal import ActRow, Change
from rebuild.model.records.record import Record
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.work.records.acts_settings import decimal_comma
from rebuild.work.records.field import Columns
from rebuild.work.records.fields import RECORDS, called, field_of
from rebuild.work.records.rules import make_sound


def edit(
    store: Store,
    record: str,
    ids: Sequence[int],
    typed: Mapping[str, str],
    *,
    seen: Mapping[str, str] | None = None,
) -> None:
    """Set fields of one or several records of a kind, in one act.

    Args:
        record: the table's name, a key of ``FIELDS``.
        typed: field name to typed text.
        seen: for one record: the texts the user saw when he began to type. If another window has
            changed one of them since, that window wins and what was typed here is kept.

    Raises:
        BadEntry, Ambiguous: a text cannot be taken; nothing is stored.
        Clash: another window was first; nothing is stored, every typed text is in the kept entries.
        NotThere: the record was removed; with ``seen`` what was typed is in the kept entries.
    """
    if not ids:
        return
    clash: Clash | None = None
    found = False
    comma = decimal_comma(store)
    labels = ", ".join(field_of(record, name).label.lower() for name in typed)
    try:
        with store.act(Act.EDIT, "") as tx:
            rows = [tx.get(RECORDS[record], key, called(record)) for key in dict.fromkeys(ids)]
            found = True
            if seen is not None and len(rows) == 1:
                clash = _clash(tx, record, rows[0], typed, seen)
            if clash is None:
                for row in rows:
                    _set_typed(tx, record, row, typed, comma)
            tx.subject = f"of {labels} on {title(rows[0])}" + (
                f" and {len(rows) - 1} more" if len(rows) > 1 else ""
            )
    except NotThere as gone:
        if found or seen is None:
            raise
        _keep(store, record, f"{called(record)} no. {ids[0]}", typed, gone.what)
        raise NotThere(gone.what, way_out="What you typed is in the kept entries.") from gone
    if clash is not None:
        _keep(store, record, clash.where.rsplit(", ", 1)[0], typed, clash.what)
        raise clash


def _set_typed(tx: Tx, record: str, row: Record, typed: Mapping[str, str], comma: bool | None) -> None:
    """Put typed texts on a row; a text that is just what the field shows already is no change."""
    before = columns_of(row)
    changed = {
        name: text for name, text in typed.items() if field_of(record, name).show(before) != text.strip()
    }
    with tx.session.no_autoflush:
        set_columns(row, read_typed(record, changed, unit_of(tx, row), comma=comma))
        make_sound(tx, row, before, changed)
    tx.session.flush()


def _keep(store: Store, record: str, on: str, typed: Mapping[str, str], why: str) -> None:
    """Nothing typed is lost: every field of an edit that found no place is kept."""
    for name, text in typed.items():
        store.keep_entry(f"{on}, {field_of(record, name).label.lower()}", text, why)


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


def _clash(
    tx: Tx, record: str, row: Record, typed: Mapping[str, str], seen: Mapping[str, str]
) -> Clash | None:
    now = columns_of(row)
    for name, text in typed.items():
        field = field_of(record, name)
        current = field.show(now)
        if name in seen and current not in (seen[name], text.strip()):
            when = _last_changed(tx.connection, record, getattr(row, "id", 0))
            return Clash(
                f"was typed here, but another window set it to “{current}” first{when}; the first one stands.",
                where=f"{title(row)}, {field.label.lower()}",
                value=text,
                way_out="What you typed is in the kept entries; type it again to put it in place.",
            )
    return None


def _last_changed(connection: Connection, record: str, row_id: int) -> str:
    at = connection.execute(
        select(ActRow.at)
        .join(Change, Change.act_id == ActRow.id)
        .where(Change.tbl == record, Change.row_id == row_id)
        .order_by(Change.id.desc())
        .limit(1)
    ).scalar()
    return f" at {at:%H:%M}" if at else ""


def remove(store: Store, record: str, ids: Sequence[int]) -> None:
    """Remove records with all that hangs on them, in one act (undo brings everything back).

    Raises:
        NotThere: one of them is gone already.
    """
    if not ids:
        return
    with store.act(Act.REMOVE, "") as tx:
        rows = [tx.get(RECORDS[record], key, called(record)) for key in dict.fromkeys(ids)]
        more = f" and {len(rows) - 1} more" if len(rows) > 1 else ""
        tx.subject = f"of {called(record)} {title(rows[0])}{more}"
        table = RECORDS[record].table
        # In the database itself: a group may hold another one of those removed, which then goes with it.
        tx.connection.execute(table.delete().where(table.c.id.in_(ids)))
