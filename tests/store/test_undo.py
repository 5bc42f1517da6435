"""Undo and redo by journal: exact, named, over cascades, after reopening, and refused whole when stale."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text

from rebuild.errors import Stale
from rebuild.model.records.machines import Machine
from rebuild.store.act import Act
from rebuild.store.changed import Changed
from rebuild.store.store import Store
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure

if TYPE_CHECKING:
    from tests.conftest import Shop
    from tests.support import Contents

Read = Callable[[Path], "Contents"]


def test_undo_and_redo_name_the_act(shop: Shop) -> None:
    measure.record_reading(shop.store, "59.975", measure.Entry(shop.journal, shop.near))
    words = "reading 59.975 mm on HS-01 spindle, front journal, near, as found"
    assert shop.store.undo_label() == words
    assert shop.store.redo_label() is None
    assert shop.store.undo() == words
    assert shop.store.redo_label() == words
    assert shop.store.redo() == words
    assert shop.store.redo() is None


def test_nothing_to_undo_in_an_empty_file(store: Store) -> None:
    assert (store.undo_label(), store.undo(), store.redo_label(), store.redo()) == (None, None, None, None)


def test_undo_all_and_redo_all(shop: Shop, contents: Read) -> None:
    end = contents(shop.path)
    undone = 0
    while shop.store.undo():
        undone += 1
    assert undone > 12
    assert not any(contents(shop.path).values())
    while shop.store.redo():
        undone -= 1
    assert undone == 0
    assert contents(shop.path) == end


def test_undo_brings_back_everything_that_hung_on_a_machine(shop: Shop, contents: Read) -> None:
    measure.record_reading(shop.store, "59.98; 59.97", measure.Entry(shop.journal, shop.near))
    place = identify.add_place(shop.store, "top shelf")
    identify.put(shop.store, [shop.spindle, shop.cap], place)
    before = contents(shop.path)
    edit.remove(shop.store, "machine", [shop.machine])
    gone = contents(shop.path)
    assert not gone["reading"]
    assert not gone["task"]
    shop.store.undo()
    assert contents(shop.path) == before
    shop.store.redo()
    assert contents(shop.path) == gone


def test_undo_restores_what_was_set_null(shop: Shop, contents: Read) -> None:
    place = identify.add_place(shop.store, "bag 3")
    identify.put(shop.store, [shop.spindle], place)
    before = contents(shop.path)
    edit.remove(shop.store, "place", [place])
    with shop.store.read() as connection:
        assert connection.execute(text("SELECT COUNT(*) FROM part WHERE place_id IS NOT NULL")).scalar() == 0
    shop.store.undo()
    assert contents(shop.path) == before


def test_removing_a_group_inside_a_group_at_once(shop: Shop, contents: Read) -> None:
    inner = identify.add_subassembly(shop.store, shop.machine, "Spindle bearings", parent_id=shop.headstock)
    identify.add_part(shop.store, shop.machine, inner, "shell", "HS-10")
    before = contents(shop.path)
    edit.remove(shop.store, "subassembly", [shop.headstock, inner])
    shop.store.undo()
    assert contents(shop.path) == before


def test_undo_tells_which_rows_came_back(shop: Shop) -> None:
    told: list[Changed] = []
    edit.remove(shop.store, "part", [shop.spindle])
    shop.store.observe(told.append)
    shop.store.undo()
    (changed,) = told
    assert changed.label == "undo removal of part HS-01 spindle"
    assert changed.rows("part").added == {shop.spindle}
    assert changed.rows("station").added == {shop.near, shop.far}


def test_undo_survives_closing_the_file(shop: Shop, contents: Read) -> None:
    before = contents(shop.path)
    edit.remove(shop.store, "part", [shop.spindle])
    shop.store.close()
    again = Store.open(shop.path)
    assert again.undo() == "removal of part HS-01 spindle"
    again.close()
    assert contents(shop.path) == before
    third = Store.open(shop.path)
    assert third.redo() == "removal of part HS-01 spindle"
    third.close()


def test_what_was_taken_back_before_a_new_act_is_never_redone(store: Store) -> None:
    """Undo B, do C, undo C and A: redo goes A, C; the branch with B is history only."""
    identify.add_machine(store, "A")
    identify.add_machine(store, "B")
    store.undo()
    identify.add_machine(store, "C")
    assert store.redo_label() is None
    store.undo()
    store.undo()
    assert store.redo() == "new machine A"
    assert store.redo() == "new machine C"
    assert store.redo() is None
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT name FROM machine ORDER BY id").scalars().all() == [
            "A",
            "C",
        ]


def test_an_act_without_effect_in_the_end_can_still_be_passed_by_undo(store: Store) -> None:
    """Two changes that cancel each other are journaled; taking them back must not get stuck on them."""
    identify.add_machine(store, "A")
    with store.act(Act.EDIT, "there and back") as tx:
        tx.connection.execute(text("UPDATE machine SET name = 'B'"))
        tx.connection.execute(text("UPDATE machine SET name = 'A'"))
    assert store.undo() == "edit there and back"
    assert store.undo() == "new machine A"
    assert store.redo() == "new machine A"
    assert store.redo() == "edit there and back"
    assert store.redo() is None


def test_history_is_never_rewritten(shop: Shop) -> None:
    def rows() -> list[tuple[object, ...]]:
        with shop.store.read() as connection:
            return [tuple(row) for row in connection.exec_driver_sql("SELECT * FROM change ORDER BY id")]

    before = rows()
    shop.store.undo()
    shop.store.redo()
    edit.remove(shop.store, "machine", [shop.machine])
    assert rows()[: len(before)] == before


def test_sealed_acts_are_read_but_not_undone(shop: Shop) -> None:
    raw = sqlite3.connect(shop.path)
    raw.execute("UPDATE act SET sealed = 1")
    raw.commit()
    raw.close()
    assert shop.store.undo_label() is None
    assert shop.store.undo() is None
    identify.add_place(shop.store, "tote 1")
    assert shop.store.undo() == "new place tote 1"
    assert shop.store.undo() is None


@pytest.mark.parametrize(
    "meddling",
    [
        "UPDATE part SET name = 'meddled' WHERE id = 1",
        "DELETE FROM part WHERE id = 1",
    ],
)
def test_undo_of_a_row_changed_outside_is_refused_whole(store: Store, meddling: str) -> None:
    machine = identify.add_machine(store, "lathe")
    with store.act(Act.ADD_PART, "two") as tx:
        tx.connection.execute(
            text(
                "INSERT INTO part (machine_id, code, name, other_names, quantity, identity, suspects, origin, "
                "material, condition, decision, decision_reason, decision_criterion, decision_would_change, "
                "match_mark, orientation, figure_item, maker_number, stamped, handedness, note, position) "
                "SELECT :m, '', value, '', 1, 'confirmed', '', 'original', '', '', 'open', '', '', '', "
                "'', '', '', '', '', '', '', 0 FROM (SELECT 'a' AS value UNION SELECT 'b')"
            ),
            {"m": machine},
        )
    raw = sqlite3.connect(store.path)
    raw.execute(meddling)
    raw.commit()
    raw.close()
    with pytest.raises(Stale, match=r"part no\. 1 was changed outside"):
        store.undo()
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM part WHERE id = 2").scalar() == 1
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM act WHERE undone").scalar() == 0


def test_undo_that_would_take_a_stranger_along_is_refused(store: Store) -> None:
    """A row put in from outside hangs on what undo would remove: nothing goes."""
    identify.add_machine(store, "lathe")
    raw = sqlite3.connect(store.path)
    raw.execute("INSERT INTO matched_set (machine_id, name, note) VALUES (1, 'stranger', '')")
    raw.commit()
    raw.close()
    with pytest.raises(Stale, match=r"matched set no\. 1 hangs on"):
        store.undo()
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM machine").scalar() == 1


def test_redo_onto_an_occupied_row_is_refused(store: Store) -> None:
    identify.add_machine(store, "lathe")
    store.undo()
    raw = sqlite3.connect(store.path)
    columns = [
        row[1] for row in raw.execute("PRAGMA table_info(machine)") if row[1] not in ("id", "position")
    ]
    raw.execute(
        f"INSERT INTO machine (id, position, {', '.join(columns)}) VALUES (1, 0, {', '.join('?' * len(columns))})",
        ["x"] * len(columns),
    )
    raw.commit()
    raw.close()
    with pytest.raises(Stale):
        store.redo()


def test_a_stale_undo_leaves_the_store_usable(store: Store) -> None:
    identify.add_machine(store, "lathe")
    raw = sqlite3.connect(store.path)
    raw.execute("UPDATE machine SET name = 'meddled'")
    raw.commit()
    raw.close()
    with pytest.raises(Stale):
        store.undo()
    with store.act(Act.EDIT, "") as tx:
        tx.get(Machine, 1).name = "mended"
    assert store.undo() is not None
