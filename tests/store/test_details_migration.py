"""Migration 0019 on a filled file: making sheets stay, and details and fits at assembly can be asked for afterwards."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.words.fitting import FittingKind
from rebuild.words.making_details import DetailKind
from rebuild.work.decisions import acts as decide
from rebuild.work.making import acts as making
from rebuild.work.making.acts_details import add_detail
from rebuild.work.making.acts_fittings import add_fitting
from rebuild.work.making.rows_fittings import fittings
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.work.teardown.apron import Apron


TABLES = ("making_sheet", "making_dimension", "making_step", "part")


def columns(path: Path) -> dict[str, str]:
    """The columns of each table, as a file has them."""
    raw = sqlite3.connect(path)
    named = {table: raw.execute(f"PRAGMA table_info({table})").fetchall() for table in TABLES}
    raw.close()
    return {table: ", ".join(f'"{row[1]}"' for row in rows) for table, rows in named.items()}


def kept(path: Path, of: dict[str, str]) -> tuple[list[tuple[object, ...]], ...]:
    """What these columns hold."""
    raw = sqlite3.connect(path)
    found = tuple(raw.execute(f"SELECT {of[table]} FROM {table} ORDER BY id").fetchall() for table in TABLES)
    raw.close()
    return found


def test_a_filled_file_is_brought_to_0019(small_apron: Apron) -> None:
    shop, path = small_apron, small_apron.store.path
    decide.decide(shop.store, [shop.parts["AP-12"]], Decision.REMAKE, reason="worn oval")
    sheet = making.start_sheet(shop.store, shop.parts["AP-12"])
    shop.store.close()
    as_before(path, "0019")
    its = columns(path)
    before = kept(path, its)
    assert all(before)
    store = Store.open(path)
    assert store.upgraded_from is not None
    assert kept(path, its) == before
    add_detail(store, sheet, DetailKind.CROSS_HOLE, "oil hole", {"place": "0.5", "size": "0.125"})
    add_fitting(store, shop.parts["AP-12"], FittingKind.REAM, "bore", {"condition": "the shaft turns"})
    store.undo()
    store.redo()
    with store.read() as connection:
        assert [row.what for row in fittings(connection, shop.parts["AP-12"])] == ["bore"]
        assert connection.exec_driver_sql("SELECT name FROM making_detail").scalar_one() == "oil hole"
    store.close()
