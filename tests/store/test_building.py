"""A file built whole lets the disk follow, and is on the disk with full synchronous again at the end."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry
from rebuild.store.store import Store
from rebuild.work.machines import acts as identify


def synchronous(store: Store) -> int:
    """0 is off, 2 is full."""
    raw = store._writer.raw_connection()
    try:
        return int(raw.cursor().execute("PRAGMA synchronous").fetchone()[0])
    finally:
        raw.close()


def test_the_disk_is_waited_for_again_afterwards(store: Store) -> None:
    with store.built_whole():
        assert synchronous(store) == 0
        identify.add_machine(store, "Lathe")
    assert synchronous(store) == 2
    assert store.path.with_name(store.path.name + "-wal").stat().st_size == 0


def test_also_after_trouble(store: Store) -> None:
    with pytest.raises(BadEntry), store.built_whole():
        identify.add_machine(store, "")
    assert synchronous(store) == 2
