"""A place that may only be read allows check, summary, export and book; nothing is written there."""

from __future__ import annotations

from pathlib import Path

import pytest

from rebuild.cli.main import main
from rebuild.store import read_only_place
from rebuild.store.read_only_place import is_writable, readable
from tests.conftest import Shop


@pytest.fixture
def locked(shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The small shop where nobody may write; root, who may write anywhere, is told what others would be."""
    shop.close()
    place = tmp_path / "locked"
    place.mkdir()
    path = shop.path.rename(place / shop.path.name)

    monkeypatch.setattr(read_only_place, "_may_write", lambda at: place not in (at, *at.parents))
    return path


def test_reading_it_works_and_writes_nothing_there(
    locked: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = {path.name: path.stat().st_mtime_ns for path in locked.parent.iterdir()}
    assert main(["check", str(locked)]) == 0
    assert capsys.readouterr().out == "filled.rebuild: all is well.\n"
    assert main(["summary", str(locked)]) == 0
    assert "Toolroom lathe" in capsys.readouterr().out
    assert main(["export", str(locked), "--to", str(tmp_path / "plain")]) == 0
    assert (tmp_path / "plain" / "everything.json").is_file()
    assert main(["book", str(locked), "--to", str(tmp_path / "book.pdf")]) == 0
    assert (tmp_path / "book.pdf").read_bytes().startswith(b"%PDF")
    assert {path.name: path.stat().st_mtime_ns for path in locked.parent.iterdir()} == before


def test_what_still_lies_in_the_wal_is_read_too(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from rebuild.store.store import Store
    from rebuild.work.machines.acts import add_part

    add_part(shop.store, shop.machine, shop.headstock, "oil wick", "HS-07")
    monkeypatch.setattr(read_only_place, "_may_write", lambda at: False)
    with readable(shop.path) as copy:
        assert copy != shop.path
        monkeypatch.undo()
        store = Store.open(copy)
        with store.read() as connection:
            names = connection.exec_driver_sql("SELECT name FROM part").scalars().all()
        store.close()
    assert "oil wick" in names
    assert not copy.exists()


def test_a_place_that_may_be_written_is_read_where_it_is(shop: Shop) -> None:
    assert is_writable(shop.path)
    with readable(shop.path) as file:
        assert file == shop.path
