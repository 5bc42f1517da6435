"""Migration 0013 on a filled file: the log and the readings stay, and the file is searched whole afterwards."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.store.store import Store
from rebuild.work.editing.acts import edit
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.teardown.acts_line import say_removal
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.conftest import Shop


def kept(path: Path) -> tuple[list[tuple[object, ...]], ...]:
    raw = sqlite3.connect(path)
    asked = (
        "SELECT * FROM reading",
        "SELECT id, how, from_end, found, note FROM removal",
        "SELECT * FROM place",
    )
    found = tuple(raw.execute(question).fetchall() for question in asked)
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0013(shop: Shop) -> None:
    record_reading(shop.store, "59.985", Entry(shop.journal, shop.near, instrument_id=shop.micrometer))
    removal = say_removal(
        shop.store, shop.machine, shop.headstock, "cap l, found a swarf nest, > bag 7", make=True
    )
    shop.store.close()
    as_before(shop.path, "0013")
    before = kept(shop.path)
    assert [len(rows) for rows in before] == [1, 1, 1]
    store = Store.open(shop.path)
    assert store.upgraded_from is not None
    assert kept(shop.path) == before
    edit(store, "removal", [removal], {"broke": "one ear"})
    store.undo()
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT broke FROM removal").scalar_one() is None
    store.redo()
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT broke FROM removal").scalar_one() == "one ear"
    store.close()
