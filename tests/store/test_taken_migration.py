"""Migration 0012 on a filled file: readings, fits and sheets stay, and say afterwards how they were taken."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import text

from rebuild.store import schema
from rebuild.store.store import Store
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.editing.acts import edit
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import add_feature
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.conftest import Shop


def readings(path: Path) -> list[tuple[object, ...]]:
    raw = sqlite3.connect(path)
    found = raw.execute(
        "SELECT id, feature_id, stage, typed, unit, value_mm, repeats, taken_at FROM reading"
    ).fetchall()
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0012(shop: Shop) -> None:
    screw = add_feature(
        shop.store, shop.spindle, "thread", FeatureKind.THREAD, unit="in", typed={"thread": "1-8 ACME"}
    )
    taken = record_reading(shop.store, "1.0064", Entry(screw, None, Stage.CLEANED), confirmed=True)
    shop.store.close()
    came_after = as_before(shop.path, "0012")
    before = readings(shop.path)
    assert schema.revision_of(shop.path) == came_after
    store = Store.open(shop.path)
    assert store.upgraded_from is not None
    assert readings(shop.path) == before
    assert len(before) == 1
    edit(store, "reading", [taken.reading_id], {"how": "over 0.0645 wires"})
    with store.read() as connection:
        row = connection.execute(text("SELECT how, thread, read_mm FROM reading")).one()
    assert tuple(row) == ("over 0.0645 in wires", "1-8 ACME", before[0][5])
    store.undo()
    store.undo()
    with store.read() as connection:
        assert connection.execute(text("SELECT count(*) FROM reading")).scalar() == 0
    store.redo()
    with store.read() as connection:
        assert connection.execute(text("SELECT read_mm, value_mm FROM reading")).one()[1] == before[0][5]
    store.close()
