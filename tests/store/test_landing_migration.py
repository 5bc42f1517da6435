"""Migration 0009 on a filled file: readings and instruments stay; values without a row are journaled afterwards."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.store import schema
from rebuild.store.store import Store
from rebuild.work.editing.acts import edit
from rebuild.work.landings.acts import keep_unplaced
from rebuild.work.landings.rows import unplaced
from rebuild.work.readings.acts import Entry, record_reading
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.conftest import Shop


def kept(path: Path) -> tuple[list[tuple[object, ...]], ...]:
    raw = sqlite3.connect(path)
    asked = (
        "SELECT id, feature_id, typed, unit, value_mm, repeats, taken_at FROM reading",
        "SELECT id, name, kind, unit, resolution_mm, mpe_mm FROM instrument",
    )
    found = tuple(raw.execute(question).fetchall() for question in asked)
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0009(shop: Shop) -> None:
    record_reading(shop.store, "59.985", Entry(shop.journal, shop.near, instrument_id=shop.micrometer))
    shop.store.close()
    before_it = as_before(shop.path, "0009")
    before = kept(shop.path)
    assert [len(rows) for rows in before] == [1, 1]
    assert schema.revision_of(shop.path) == before_it == "0008"
    store = Store.open(shop.path)
    assert store.upgraded_from is not None
    assert kept(shop.path) == before
    keep_unplaced(store, "24.98", "fits")
    edit(store, "instrument", [shop.micrometer], {"least": "50", "most": "75", "measures": "outside"})
    store.undo()
    store.undo()
    with store.read() as connection:
        assert unplaced(connection) == []
        row = connection.exec_driver_sql("SELECT least_mm, most_mm, measures FROM instrument").one()
    assert tuple(row) == (None, None, None)
    store.redo()
    with store.read() as connection:
        assert [one.typed for one in unplaced(connection)] == ["24.98"]
    store.close()
