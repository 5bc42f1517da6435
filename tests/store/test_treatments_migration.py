"""Migration 0016 on a filled file: steps and parts stay as they were, and can say their treatment and finish then."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import text

from rebuild.store import schema
from rebuild.store.store import Store
from rebuild.work.editing.acts import edit
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.conftest import Shop


def told(path: Path) -> list[tuple[object, ...]]:
    raw = sqlite3.connect(path)
    found = raw.execute("SELECT id, title, kind, state FROM task").fetchall()
    found += raw.execute("SELECT id, code, name, condition FROM part").fetchall()
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0016(shop: Shop) -> None:
    shop.store.close()
    came_after = as_before(shop.path, "0016")
    before = told(shop.path)
    assert schema.revision_of(shop.path) == came_after
    store = Store.open(shop.path)
    assert told(shop.path) == before
    assert len(before) > 4
    edit(store, "task", [shop.strip], {"treatment": "degrease"})
    edit(store, "part", [shop.cap], {"finish": "grey enamel"})
    asked = text("SELECT (SELECT treatment FROM task WHERE id = :t), (SELECT finish FROM part WHERE id = :p)")
    with store.read() as connection:
        row = connection.execute(asked, {"t": shop.strip, "p": shop.cap}).one()
    assert tuple(row) == ("degrease", "grey enamel")
    store.undo()
    store.undo()
    with store.read() as connection:
        assert tuple(connection.execute(asked, {"t": shop.strip, "p": shop.cap}).one()) == (None, None)
    store.close()
