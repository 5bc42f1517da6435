"""Migration 0011 on a filled file: every put-in and place is carried over as a stay, and what is away is waited for."""

from __future__ import annotations

import datetime as dt
import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.store import schema
from rebuild.store.store import Store
from rebuild.words.places import PlaceKind
from rebuild.words.waiting import WaitingKind
from rebuild.work.checks.check import check
from rebuild.work.machines.acts import add_part, add_place, put
from rebuild.work.places.rows import stays
from rebuild.work.teardown.acts import Off, log_removal
from rebuild.work.waiting.rows import waiting
from tests.store.as_before import as_before as made_before

if TYPE_CHECKING:
    from tests.conftest import Shop

DAY = dt.datetime(2026, 3, 2, 9, 0)
LATER = dt.datetime(2026, 4, 11, 9, 0)


def as_before(path: Path, *meddling: str) -> None:
    """The file as the program made it at 0010, after what a file of that time could hold."""
    made_before(path, "0011")
    raw = sqlite3.connect(path)
    for statement in meddling:
        raw.execute(statement)
    raw.commit()
    raw.close()


def told(path: Path, question: str) -> list[tuple[object, ...]]:
    raw = sqlite3.connect(path)
    found = raw.execute(question).fetchall()
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0011(shop: Shop) -> None:
    bag = add_place(shop.store, "3", PlaceKind.BAG)
    shelf = add_place(shop.store, "B1", PlaceKind.SHELF)
    grinder = add_place(shop.store, "grinding shop", PlaceKind.AT_A_SHOP)
    cover = add_part(shop.store, shop.machine, None, "cover")
    belt = add_part(shop.store, shop.machine, None, "belt", typed={"place_id": str(shelf)})
    log_removal(shop.store, shop.machine, shop.headstock, Off((shop.spindle, shop.cap), place_id=bag, at=DAY))
    put(shop.store, [shop.spindle], shelf, at=LATER)
    put(shop.store, [cover], shelf, at=LATER)
    shop.store.close()
    as_before(
        shop.path,
        f"UPDATE part SET place_id = {grinder} WHERE id = {cover}",
        f"UPDATE part SET place_id = NULL, placed_at = NULL WHERE id = {shop.cap}",
        f"UPDATE part SET placed_at = NULL WHERE id = {belt}",
    )
    asked = "SELECT id, place_id, placed_at FROM part ORDER BY id", "SELECT id, place_id FROM removal"
    before = [told(shop.path, question) for question in asked]
    assert schema.revision_of(shop.path) == "0010"
    store = Store.open(shop.path)
    assert store.upgraded_from is not None
    assert [told(shop.path, question) for question in asked] == before
    with store.read() as connection:
        lain = {key: [(row.place, row.words) for row in stays(connection, key)]
                for key in (shop.spindle, shop.cap, cover, belt)}  # fmt: skip
        (line,) = waiting(connection, shop.machine, LATER)
    assert lain == {
        shop.spindle: [("shelf B1", "since 11 Apr 2026"), ("bag 3", "2 Mar 2026 to 11 Apr 2026")],
        shop.cap: [("nobody noted where", "since not noted when"), ("bag 3", "2 Mar 2026 to 2 Mar 2026")],
        cover: [("grinding shop", "since 11 Apr 2026")],
        belt: [("shelf B1", "since not noted when")],
    }
    assert (line.kind, line.what, line.who, line.ordered_at, line.part_id) == (
        WaitingKind.SENT_OUT, "cover", "grinding shop", LATER, cover,
    )  # fmt: skip
    assert store.undo_label() is None, "an act of before would move a part without its stay"
    put(store, [cover], bag, at=LATER + dt.timedelta(days=1))
    with store.read() as connection:
        (line,) = waiting(connection, shop.machine, LATER)
    assert line.arrived_at == LATER + dt.timedelta(days=1)
    store.undo()
    store.close()
    assert check(shop.path) == []


def test_an_empty_file_is_brought_to_0011(empty_template: Path, tmp_path: Path) -> None:
    path = tmp_path / "empty.rebuild"
    path.write_bytes(empty_template.read_bytes())
    as_before(path)
    store = Store.open(path)
    assert add_place(store, "first")
    store.close()
    assert check(path) == []
    assert told(path, "SELECT count(*) FROM stay") == [(0,)]
