"""Edit, and remove, any record's fields from typed text; two windows on one field are told apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from sqlalchemy import Connection, select

from rebuild.errors import Clash, NotThere
from rebuild.model.records.journal import ActRow, Change
from rebuild.model.records.machines import Machine
from rebuild.model.records.record import Record
from rebuild.model.records.steps import Task
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.work.editing.rules import make_sound
from rebuild.work.gates.acts_checks import follow_kind
from rebuild.work.places.acts_follow import follow_place
from rebuild.work.records.columns import columns_of, read_typed, set_columns, title, unit_of
from rebuild.work.records.fields import RECORDS, called, field_of
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.steps.acts_finish import follow_done
from rebuild.work.waiting.acts_clocks import follow_state


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
        _keep(store, record, clash.on, typed, clash.what)
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
        if isinstance(row, Task):
            follow_state(tx, row, before.get("state"))
            follow_done(tx, row, before.get("state"))
        if isinstance(row, Machine):
            follow_kind(tx, row, before.get("kind"))
        follow_place(tx, row, before, changed)
    tx.session.flush()


def _keep(store: Store, record: str, on: str, typed: Mapping[str, str], why: str) -> None:
    """Nothing typed is lost: every field of an edit that found no place is kept."""
    for name, text in typed.items():
        store.keep_entry(f"{on}, {field_of(record, name).label.lower()}", text, why)


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
                on=title(row),
                field=field.label,
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
        words, kind = title(rows[0]), called(record)
        tx.subject = f"of {words if words.startswith(f'{kind} no. ') else f'{kind} {words}'}{more}"
        table = RECORDS[record].table
        # In the database itself: a group may hold another one of those removed, which then goes with it.
        tx.connection.execute(table.delete().where(table.c.id.in_(ids)))
