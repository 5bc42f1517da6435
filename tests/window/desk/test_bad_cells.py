"""A cell that cannot be read is set right in the window: what lies there, what may stand there, one act, undo."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from rebuild.errors import BadEntry, Stale
from rebuild.store.store import Store
from rebuild.window.desk.bad_cells import NONE, show_bad_cells
from rebuild.window.desk.desk import Desk
from rebuild.words.readings import Stage
from rebuild.work.checks.acts_cells import set_right
from rebuild.work.checks.bad_cells import may_stand
from rebuild.work.checks.check import check
from rebuild.work.readings.acts import Entry, record_reading
from tests.conftest import Shop
from tests.store.test_unreadable import spoil

SPOILT = {
    ("task", "state", "'zeppelin'"): ("one of these words.", "open", "done"),
    ("part", "name", "CAST(x'5370c3' AS TEXT)"): ("a text.", "spindle", "spindle, new"),
    ("part", "quantity", "'many'"): ("a whole number.", "1", "2"),
    ("reading", "taken_at", "'yesterday'"): ("a date, or date and time", "", "14.3.2026 19:30"),
    ("reading", "value_mm", "9e999"): ("a number in mm.", "59.98", "59.98"),
    ("feature", "part_id", "99"): ("the number of one of these", "1", "1  spindle"),
    ("part", "place_id", "99"): ("the number of one of these, or nothing. It may be empty.", "", ""),
}


@pytest.fixture
def measured(shop: Shop) -> Shop:
    record_reading(shop.store, "59.98", Entry(shop.journal, shop.near, Stage.AS_FOUND, shop.micrometer))
    shop.close()
    return shop


def test_every_kind_of_cell_is_set_right_and_checks_clean(measured: Shop) -> None:
    whole = measured.path.read_bytes()
    for (table, column, value), (told, known, typed) in SPOILT.items():
        measured.path.write_bytes(whole)
        spoil(measured.path, f'UPDATE "{table}" SET "{column}" = {value} WHERE id = 1')
        store = Store.open(measured.path)
        (cell,) = store.unreadable
        with store.read() as connection:
            stands = may_stand(connection, cell)
        assert stands.told.startswith(told)
        if table != "reading" or column != "taken_at":
            assert stands.known == known
        set_right(store, cell, typed)
        assert store.unreadable == ()
        assert check(measured.path) == [], (table, column)
        with store.read() as connection:
            assert connection.exec_driver_sql(f'SELECT 1 FROM "{table}" WHERE id = 1').scalar() == 1
        if cell.dangles:
            assert "reference set right" not in (store.undo_label() or "")
            store.undo()  # goes on before it
            assert store.unreadable == ()
            store.close()
            assert check(measured.path) == []
            continue
        assert store.undo() == f"cell set right {table} no. 1, {column}"
        assert store.unreadable == (cell,), "undo brings back what lay there"
        store.redo()
        assert store.unreadable == ()
        store.close()


def test_what_may_not_stand_there_is_refused_and_nothing_stored(measured: Shop) -> None:
    spoil(
        measured.path,
        "UPDATE task SET state = 'zeppelin' WHERE id = 1",
        "UPDATE feature SET part_id = 99 WHERE id = 1",
        "UPDATE reading SET value_mm = 'abc', taken_at = 'then'",
    )
    store = Store.open(measured.path)
    cells = {(cell.table, cell.column): cell for cell in store.unreadable}
    label = store.undo_label()
    for where, typed, said in (
        (("task", "state"), "airship", "“airship” is not one of the words. Use open"),
        (("feature", "part_id"), "77", "“77” cannot stand there: it would be the number of no part"),
        (("reading", "value_mm"), "1e999", "reading no. 1, value_mm"),
        (("reading", "taken_at"), "0001-01-01", "is of the year 1"),
    ):
        with pytest.raises(BadEntry) as refused:
            set_right(store, cells[where], typed)
        assert said in str(refused.value)
    assert store.undo_label() == label
    spoil(measured.path, "UPDATE task SET state = 'balloon' WHERE id = 1")
    with pytest.raises(Stale):
        set_right(store, cells["task", "state"], "open")
    store.close()


def test_the_window_lists_names_and_mends_them(measured: Shop, qapp: QApplication, tmp_path: Path) -> None:
    spoil(
        measured.path,
        "UPDATE task SET state = 'zeppelin' WHERE id = 1",
        "UPDATE part SET quantity = 'many' WHERE id = 1",
    )
    desk = Desk()
    desk.open(measured.path)
    dialog = show_bad_cells(desk, None)
    rows = [dialog.table.plain.text(place) for place in range(2)]
    assert {(row[0], row[2]) for row in rows} == {("Part no. 1", "many"), ("Task no. 1", "zeppelin")}
    assert "The history of the file has “1” there" in dialog.told.text()
    dialog.value.setEditText("several")
    dialog.set_right.click()
    assert "several" in dialog.trouble.text()
    dialog.value.setEditText("1")
    assert dialog.trouble.text() == ""
    dialog.set_right.click()
    assert [dialog.table.plain.text(0)[0], len(dialog.table.plain.ids)] == ["Task no. 1", 1]
    assert dialog.value.findText("open") >= 0
    dialog.set_right.click()
    assert (dialog.empty.isHidden(), dialog.empty.text()) == (False, NONE)
    desk.undo()
    assert len(dialog.table.plain.ids) == 1, "undo shows it again"
    dialog.close()
    desk.close()
    desk.deleteLater()
