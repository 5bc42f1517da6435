"""An export of a large file is written as it is read: no list is sorted or held, and how far it is rises to the end."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy.dialects import sqlite

from rebuild.errors import FileTrouble
from rebuild.exchange.folder import export_folder
from rebuild.exchange.whole_in import is_whole
from rebuild.work.lists import plain_rows, rows_lists
from rebuild.work.lists.rows_everything import everything
from tests.store.test_long_undo import fill

if TYPE_CHECKING:
    from pathlib import Path

    from tests.conftest import Shop


def test_the_long_lists_are_read_in_the_order_they_lie_in(shop: Shop) -> None:
    with shop.store.read() as connection:
        for query in (rows_lists._readings(), rows_lists._features()):
            asked = str(query.compile(dialect=sqlite.dialect()))
            plan = [row[3] for row in connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {asked}")]
            assert plan
            assert not [step for step in plan if "TEMP B-TREE" in step], plan


def test_rows_are_taken_by_the_chunk_while_one_walks(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    fill(shop.store, shop.spindle, 50)
    monkeypatch.setattr(plain_rows, "CHUNK", 10)
    with shop.store.read() as connection:
        parts = next(one for one in everything(connection) if one.name == "part")
        rows = iter(parts.rows)
        first = next(rows)
        assert len(first) == len(parts.heads)
        assert sum(1 for _row in rows) == 51


def test_how_far_it_is_rises_and_a_stop_leaves_no_whole_export(shop: Shop, tmp_path: Path) -> None:
    heard: list[float] = []
    export_folder(shop.path, tmp_path / "out", tell=lambda share, _words: bool(heard.append(share)) or True)
    assert heard == sorted(heard)
    assert 0.0 <= heard[0] < heard[-1] <= 1.0
    assert not (tmp_path / "out" / "everything.json.half").exists()
    stopped = tmp_path / "stopped"
    with pytest.raises(FileTrouble, match="was stopped"):
        export_folder(shop.path, stopped, tell=lambda share, _words: share < heard[-1] / 2)
    assert (stopped / "readings.csv").is_file()
    assert not is_whole(stopped)
