"""Undo of a great many rows: in time that grows with the rows, told by kind, stopped whole."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import Stopped
from rebuild.store import take_back as replay
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from rebuild.work.editing import acts as edit

if TYPE_CHECKING:
    from tests.conftest import Shop
    from tests.support import Contents


def fill(store: Store, part: int, count: int) -> None:
    """One act that adds ``count`` parts like ``part``."""
    with store.act(Act.IMPORT, f"{count} parts") as tx:
        names = [row[1] for row in tx.connection.exec_driver_sql("PRAGMA table_info(part)") if row[1] != "id"]
        listed = ", ".join(f'"{name}"' for name in names)
        tx.connection.exec_driver_sql(
            f"WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {count}) "
            f"INSERT INTO part ({listed}) SELECT {listed} FROM part, n WHERE part.id = {part}"
        )


def steps_of_undo(shop: Shop, count: int, monkeypatch: pytest.MonkeyPatch) -> int:
    """How often SQLite gave the word while it took back the removal of ``count`` parts: its own measure of work."""
    monkeypatch.setattr(replay, "_STEPS", 1_000)
    fill(shop.store, shop.spindle, count)
    edit.remove(shop.store, "machine", [shop.machine])
    told: list[float] = []
    shop.store.undo(lambda share, _words: bool(told.append(share)) or True)
    assert told == sorted(told)
    assert told[-1] < 1.0
    return len(told)


def test_the_work_grows_with_the_rows_and_not_with_their_square(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    small = steps_of_undo(shop, 300, monkeypatch)
    large = steps_of_undo(shop, 2_700, monkeypatch)  # 3,000 with the first ones
    assert large < 20 * small  # ten times the rows; the square would be a hundred


def test_the_last_look_uses_the_index(shop: Shop) -> None:
    store = shop.store
    with store.act(Act.EDIT, "") as tx:
        tx.connection.exec_driver_sql(replay._NET)
        tx.connection.exec_driver_sql(replay._FILL.replace(":act", "1"))
        plan = [row[3] for row in tx.connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {replay._MORE}")]
        tx.connection.exec_driver_sql("DROP TABLE net_change")
    assert any("SEARCH n USING PRIMARY KEY (tbl=? AND row_id=?)" in line for line in plan), plan
    assert not any("SCAN" in line for line in plan if "current_act" not in line), plan


def test_it_tells_the_rows_by_kind(shop: Shop) -> None:
    fill(shop.store, shop.spindle, 50)
    assert shop.store.rows_touched(undo=True) == {"part": 50}
    edit.remove(shop.store, "machine", [shop.machine])
    touched = shop.store.rows_touched(undo=True)
    assert touched["part"] == 52
    assert list(touched.values()) == sorted(touched.values(), reverse=True)
    assert shop.store.rows_touched(undo=False) == {}


@pytest.mark.parametrize("after", [1, 3, 12, 40])
def test_stopped_anywhere_nothing_was_changed(
    shop: Shop, contents: Callable[[Path], Contents], monkeypatch: pytest.MonkeyPatch, after: int
) -> None:
    monkeypatch.setattr(replay, "_STEPS", 2_000)
    fill(shop.store, shop.spindle, 400)
    edit.remove(shop.store, "machine", [shop.machine])
    before = contents(shop.path)
    heard = 0

    def tell(_share: float, _words: str) -> bool:
        nonlocal heard
        heard += 1
        return heard < after

    with pytest.raises(Stopped, match="nothing was changed"):
        shop.store.undo(tell)
    assert heard == after
    assert contents(shop.path) == before
    assert check(shop.path) == []
    assert shop.store.undo() is not None
    with shop.store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM part").scalar() == 402
