"""Each constraint of the schema that an act can meet: said of record and field, nothing stored, the store goes on.

The schema has references (FOREIGN KEY), fields that must be there (NOT NULL) and keys; tests below hold that it has no
others, so that a new kind is not met raw one day.
"""

from __future__ import annotations

import datetime as dt
import sqlite3
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import CheckConstraint, Column, Table, UniqueConstraint, delete, insert, update

from rebuild.errors import BadEntry, Bug, NotThere, RebuildError
from rebuild.model.stored import Moment
from rebuild.model.tables.every import whole
from rebuild.store.act import Act

if TYPE_CHECKING:
    from rebuild.store.store import Store
    from tests.conftest import Shop

NOWHERE = 987_654


def journaled() -> list[Table]:
    """The tables an act writes."""
    return [
        table
        for table in whole().sorted_tables
        if "id" in table.columns and table.name not in ("act", "change")
    ]


REFERENCES = [(table.name, c.name) for table in journaled() for c in table.columns if c.foreign_keys]
NEEDED = [
    (table.name, c.name)
    for table in journaled()
    for c in table.columns
    if not c.nullable and not c.primary_key and not c.foreign_keys
]


def row_of(table: Table) -> dict[str, object]:
    """Something for each column that must hold something; references are checked when the transaction ends."""
    return {c.name: _something(c) for c in table.columns if not c.nullable and not c.primary_key}


def _something(column: Column[object]) -> object:
    if column.foreign_keys:
        return 1
    kind = column.type
    words = getattr(kind, "enum_class", None)
    if words is not None:
        return next(iter(words))
    day = dt.datetime(2024, 5, 1)
    if isinstance(kind, Moment):
        return day
    plain = {int: 1, float: 1.0, bool: True, bytes: b"x", dt.datetime: day, dt.date: day.date()}
    return plain.get(kind.python_type, "x")


def refused(store: Store, statement: object) -> RebuildError:
    """What an act with this statement says; nothing of it is stored."""
    before = store.undo_label()
    with pytest.raises(RebuildError) as trouble, store.act(Act.EDIT, "x") as tx:
        tx.session.execute(statement)  # type: ignore[call-overload]
    assert store.undo_label() == before
    said = str(trouble.value)
    assert "SQL" not in said
    assert "failed" not in said
    assert trouble.value.way_out
    return trouble.value


def test_a_reference_to_what_is_gone_names_record_and_field(shop: Shop) -> None:
    """Every reference of the schema; other references of the row hold nothing, or a row that is there."""
    assert len(REFERENCES) > 100
    for name, column in REFERENCES:
        table = whole().tables[name]
        trouble = refused(shop.store, insert(table).values({**row_of(table), column: NOWHERE}))
        assert isinstance(trouble, NotThere)
        assert f"{_shown(name)}, " in trouble.where
        fields = {_field(c.name) for c in table.columns if c.foreign_keys and not c.nullable} | {
            _field(column)
        }
        assert trouble.where.partition(", ")[2] in fields
        assert "no longer there" in str(trouble)


def test_a_field_that_must_be_filled_in_is_named(shop: Shop) -> None:
    assert len(NEEDED) > 80
    for name, column in NEEDED:
        table = whole().tables[name]
        trouble = refused(shop.store, insert(table).values({**row_of(table), column: None}))
        assert isinstance(trouble, BadEntry), (name, column)
        assert trouble.where == f"{_shown(name)}, {_field(column)}"
        assert "must be filled in" in str(trouble)


def _shown(table: str) -> str:
    return table.replace("_", " ").capitalize()


def _field(column: str) -> str:
    return column.removesuffix("_id").replace("_", " ")


def test_emptying_a_needed_field_of_a_row_that_stands_is_named(shop: Shop) -> None:
    part = whole().tables["part"]
    trouble = refused(shop.store, update(part).where(part.c.id == shop.cap).values(name=None))
    assert trouble.where == "Part, name"
    with shop.store.read() as connection:
        assert connection.exec_driver_sql("SELECT name FROM part WHERE id = ?", (shop.cap,)).scalar()


def test_pointing_a_row_that_stands_at_what_is_gone_is_named(shop: Shop) -> None:
    part = whole().tables["part"]
    trouble = refused(shop.store, update(part).where(part.c.id == shop.cap).values(place_id=NOWHERE))
    assert str(trouble).startswith("Part, place: refers to no. 987654, which is no longer there.")


def test_a_key_that_is_there_already_is_named(shop: Shop) -> None:
    part = whole().tables["part"]
    values = {**row_of(part), "machine_id": shop.machine, "id": shop.cap}
    trouble = refused(shop.store, insert(part).values(values))
    assert isinstance(trouble, BadEntry)
    assert trouble.where == "Part, id"
    assert "is there already" in str(trouble)


def test_a_record_removed_elsewhere_while_it_is_entered_is_named(shop: Shop) -> None:
    """The way an act meets it: the machine goes in another window between reading and writing."""
    part, machine = whole().tables["part"], whole().tables["machine"]
    with shop.store.act(Act.EDIT, "gone") as tx:
        tx.session.execute(delete(machine).where(machine.c.id == shop.machine))
    trouble = refused(shop.store, insert(part).values({**row_of(part), "machine_id": shop.machine}))
    assert trouble.where == "Part, machine"


def test_the_schema_holds_no_constraint_that_is_not_tried_here() -> None:
    for table in whole().tables.values():
        for one in table.constraints:
            assert not isinstance(one, CheckConstraint | UniqueConstraint), one
        assert not any(index.unique for index in table.indexes), table.name


def test_a_constraint_no_act_should_meet_is_a_bug(shop: Shop) -> None:
    """A trigger of the file that refuses is none of ours."""
    store = shop.store
    raw = sqlite3.connect(shop.path, isolation_level=None)
    raw.execute("CREATE TRIGGER no BEFORE INSERT ON place BEGIN SELECT RAISE(ABORT, 'no'); END")
    raw.close()
    place = whole().tables["place"]
    with pytest.raises(Bug, match="SQLITE_CONSTRAINT_TRIGGER"), store.act(Act.EDIT, "x") as tx:
        tx.session.execute(insert(place).values(row_of(place)))


def test_a_write_outside_an_act_is_a_bug(shop: Shop) -> None:
    from rebuild.store.sqlite_words import explained

    place = whole().tables["place"]
    with (
        pytest.raises(Bug, match="SQLITE_CONSTRAINT_NOTNULL"),
        explained(shop.path),
        shop.store._writer.begin() as raw,
    ):
        raw.execute(insert(place).values(row_of(place)))
