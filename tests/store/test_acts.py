"""One act is one transaction and one journal entry, or no trace at all."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from sqlalchemy import text, update
from sqlalchemy.exc import IntegrityError

from rebuild.errors import BadEntry, FileTrouble, NotThere
from rebuild.model.records.features import Feature
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.store import connect
from rebuild.store.act import Act
from rebuild.store.changed import Changed, net
from rebuild.store.store import Store
from tests.conftest import SYNCHRONOUS


def journal(store: Store) -> list[tuple[object, ...]]:
    with store.read() as connection:
        return [
            tuple(row)
            for row in connection.exec_driver_sql(
                "SELECT a.kind, a.subject, c.tbl, c.row_id, c.op FROM act AS a "
                "JOIN change AS c ON c.act_id = a.id ORDER BY c.id"
            )
        ]


def acts(store: Store) -> int:
    with store.read() as connection:
        return int(connection.exec_driver_sql("SELECT COUNT(*) FROM act").scalar_one())


def add_machine(store: Store, name: str) -> int:
    with store.act(Act.ADD_MACHINE, name) as tx:
        machine = Machine(name=name)
        tx.session.add(machine)
        tx.session.flush()
        return machine.id


def add_half_a_machine(store: Store) -> None:
    with store.act(Act.ADD_MACHINE, "half") as tx:
        tx.session.add(Machine(name="half"))
        tx.session.flush()
        raise BadEntry("is wrong.")


def test_an_act_writes_one_entry_with_each_row_it_touched(store: Store) -> None:
    with store.act(Act.ADD_MACHINE, "two at once") as tx:
        tx.session.add_all([Machine(name="shaper"), Machine(name="lathe")])
    assert journal(store) == [
        ("ADD_MACHINE", "two at once", "machine", 1, "i"),
        ("ADD_MACHINE", "two at once", "machine", 2, "i"),
    ]


def test_the_journal_holds_the_row_before_and_after(store: Store) -> None:
    add_machine(store, "shaper")
    with store.act(Act.EDIT, "name") as tx:
        tx.get(Machine, 1).name = "crank shaper"
    with store.read() as connection:
        row = connection.exec_driver_sql(
            "SELECT b_name, a_name, b_id, a_id FROM j_machine ORDER BY change_id DESC LIMIT 1"
        ).one()
    assert tuple(row) == ("shaper", "crank shaper", 1, 1)


def test_orm_bulk_and_raw_statements_are_journaled_alike(store: Store) -> None:
    add_machine(store, "a")
    add_machine(store, "b")
    with store.act(Act.EDIT, "bulk") as tx:
        tx.session.execute(update(Machine).values(location="barn"))
    with store.act(Act.EDIT, "raw") as tx:
        tx.connection.execute(text("UPDATE machine SET location = 'shed' WHERE id = 2"))
    assert [entry[1:] for entry in journal(store)[2:]] == [
        ("bulk", "machine", 1, "u"),
        ("bulk", "machine", 2, "u"),
        ("raw", "machine", 2, "u"),
    ]


def test_an_act_that_changes_nothing_leaves_no_trace(store: Store) -> None:
    told: list[Changed] = []
    store.observe(told.append)
    with store.act(Act.EDIT, "nothing"):
        pass
    assert acts(store) == 0
    assert told == []


def test_writing_what_is_there_already_leaves_no_trace(store: Store) -> None:
    add_machine(store, "shaper")
    with store.act(Act.EDIT, "same") as tx:
        tx.connection.execute(text("UPDATE machine SET name = name, position = position"))
    assert acts(store) == 1


def test_adding_and_removing_in_one_act_leaves_no_trace(store: Store) -> None:
    with store.act(Act.EDIT, "there and back") as tx:
        tx.session.add(Machine(name="ghost"))
        tx.session.flush()
        tx.connection.execute(text("DELETE FROM machine"))
    assert acts(store) == 0


def test_a_write_outside_an_act_is_refused(store: Store) -> None:
    add_machine(store, "shaper")
    with pytest.raises(IntegrityError, match=r"change\.act_id"), store._writer.begin() as connection:
        connection.execute(text("UPDATE machine SET name = 'stolen'"))
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT name FROM machine").scalar() == "shaper"


def test_a_reading_connection_cannot_write(store: Store) -> None:
    with pytest.raises(FileTrouble, match="may not be written"), store.read() as connection:
        connection.exec_driver_sql("INSERT INTO setting (key, value) VALUES ('a', 'b')")
    assert store.setting("a", "unset") == "unset"


def test_a_failing_act_is_rolled_back_whole(store: Store) -> None:
    with pytest.raises(BadEntry):
        add_half_a_machine(store)
    assert acts(store) == 0
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM machine").scalar() == 0
    assert add_machine(store, "whole") == 1


def test_an_act_refers_only_to_what_is_there(store: Store) -> None:
    with pytest.raises(NotThere, match="no longer there"), store.act(Act.ADD_PART, "orphan") as tx:
        tx.session.add(Part(machine_id=77, name="orphan"))
    assert acts(store) == 0


def test_acts_do_not_nest(store: Store) -> None:
    with pytest.raises(RuntimeError, match="nest"), store.act(Act.EDIT), store.act(Act.EDIT):
        pass
    assert add_machine(store, "after") == 1


def test_observers_hear_once_after_the_commit(store: Store) -> None:
    told: list[tuple[Changed, int]] = []

    def hear(changed: Changed) -> None:
        with store.read() as connection:
            count = int(connection.exec_driver_sql("SELECT COUNT(*) FROM machine").scalar_one())
        told.append((changed, count))

    stop = store.observe(hear)
    add_machine(store, "shaper")
    ((changed, count),) = told
    assert count == 1
    assert changed.label == "new machine shaper"
    assert changed.rows("machine").added == {1}
    assert changed.touches("part", "machine")
    assert not changed.touches("part")
    assert not changed.elsewhere
    stop()
    add_machine(store, "lathe")
    assert len(told) == 1


def test_an_observer_may_act(store: Store) -> None:
    def hear(changed: Changed) -> None:
        if changed.rows("machine").added == {1}:
            add_machine(store, "its twin")

    store.observe(hear)
    add_machine(store, "first")
    assert acts(store) == 2


@pytest.mark.parametrize(
    "exact", [0.1 + 0.2, 25.4 / 3, 5e-324, 1.7976931348623157e308, 60.0 - 0.029, 1e-7, 3.0, 2.0**53 + 2]
)
def test_floats_come_back_to_the_last_bit(store: Store, exact: float) -> None:
    machine = add_machine(store, "lathe")
    with store.act(Act.ADD_FEATURE, "feature") as tx:
        part = Part(machine_id=machine, name="spindle")
        tx.session.add(part)
        tx.session.flush()
        tx.session.add(Feature(part_id=part.id, name="journal", nominal_mm=exact))
    with store.act(Act.EDIT, "other") as tx:
        tx.get(Feature, 1).nominal_mm = 1.0
    store.undo()
    store.undo()
    store.redo()
    with store.read() as connection:
        stored, shadow = connection.exec_driver_sql(
            "SELECT f.nominal_mm, j.a_nominal_mm FROM feature AS f JOIN j_feature AS j LIMIT 1"
        ).one()
    assert stored.hex() == exact.hex()
    assert float(shadow).hex() == exact.hex()


def test_a_freed_id_is_never_used_again(store: Store) -> None:
    first = add_machine(store, "first")
    with store.act(Act.REMOVE, "first") as tx:
        tx.connection.execute(text("DELETE FROM machine"))
    assert add_machine(store, "second") == first + 1


def test_an_act_is_on_disk_when_it_ends(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert SYNCHRONOUS == "FULL"
    monkeypatch.setattr(connect, "SYNCHRONOUS", SYNCHRONOUS)
    store = Store.open(project)
    add_machine(store, "shaper")
    other = sqlite3.connect(project)
    assert other.execute("SELECT name FROM machine").fetchall() == [("shaper",)]
    assert other.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    other.close()
    with store._writer.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    store.close()


def test_net_folds_a_row_to_what_became_of_it() -> None:
    rows = net(
        [
            ("part", 1, "i"), ("part", 1, "u"), ("part", 2, "u"), ("part", 2, "d"), ("part", 3, "d"),
            ("part", 3, "i"), ("part", 4, "i"), ("part", 4, "d"), ("task", 9, "i"), ("task", 9, "d"),
        ]
    )  # fmt: skip
    assert set(rows) == {"part"}
    assert rows["part"].added == {1}
    assert rows["part"].updated == {3}
    assert rows["part"].removed == {2}


def test_every_act_has_words_of_its_own() -> None:
    assert len({act.value for act in Act}) == len(Act)
