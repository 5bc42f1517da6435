"""Migration 0017 on a filled file: photos and their marks stay, and manuals, boxes and named marks go in afterwards."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image

from rebuild.store.store import Store
from rebuild.words.photos import MarkKind
from rebuild.work.boxes.acts import add_thing
from rebuild.work.boxes.rows import things
from rebuild.work.photos.acts import mark_photo, name_mark
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import marks
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.conftest import Shop


def kept(path: Path) -> tuple[list[tuple[object, ...]], ...]:
    raw = sqlite3.connect(path)
    asked = (
        "SELECT * FROM photo",
        "SELECT * FROM photo_mark",
        "SELECT * FROM part",
        "SELECT * FROM question",
    )
    found = tuple(raw.execute(question).fetchall() for question in asked)
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0017(shop: Shop, tmp_path: Path) -> None:
    picture = tmp_path / "head.png"
    Image.new("RGB", (40, 30), (90, 80, 70)).save(picture)
    photo = take_in(shop.store, shop.machine, [picture]).added[0]
    mark = mark_photo(shop.store, photo, MarkKind.LABEL, (0.1, 0.1), (0.1, 0.1), "1-1")
    shop.store.close()
    assert as_before(shop.path, "0017") == "0016"
    before = kept(shop.path)
    assert [len(rows) for rows in before] == [1, 1, 2, 1]
    store = Store.open(shop.path)
    assert store.upgraded_from is not None
    assert kept(shop.path) == before
    name_mark(store, mark, shop.cap)
    add_thing(store, shop.machine, "bronze ring", "box 2", "bore 24.98")
    with store.read() as connection:
        assert [row.said for row in marks(connection, photo)] == ["1-1 HS-02 bearing cap"]
        assert [row.came_in for row in things(connection)] == ["box 2"]
    store.undo()
    store.undo()
    store.undo()
    assert [len(rows) for rows in kept(shop.path)] == [1, 0, 2, 1], (
        "an act from before is taken back after it"
    )
    store.close()
