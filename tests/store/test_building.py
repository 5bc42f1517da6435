"""A file built whole lets the disk follow, and is on the disk with full synchronous again at the end."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from rebuild.errors import BadEntry
from rebuild.store import connect
from rebuild.store.store import Store
from rebuild.work.machines import acts as identify
from tests.conftest import SYNCHRONOUS


@pytest.fixture
def patient(project: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """An empty project that waits for the disk, as the program does."""
    monkeypatch.setattr(connect, "SYNCHRONOUS", SYNCHRONOUS)
    opened = Store.open(project)
    yield opened
    opened.close()


def synchronous(store: Store) -> int:
    """0 is off, 2 is full."""
    raw = store._writer.raw_connection()
    try:
        return int(raw.cursor().execute("PRAGMA synchronous").fetchone()[0])
    finally:
        raw.close()


def test_the_disk_is_waited_for_again_afterwards(patient: Store) -> None:
    store = patient
    with store.built_whole():
        assert synchronous(store) == 0
        identify.add_machine(store, "Lathe")
    assert synchronous(store) == 2
    assert store.path.with_name(store.path.name + "-wal").stat().st_size == 0


def test_also_after_trouble(patient: Store) -> None:
    store = patient
    with pytest.raises(BadEntry), store.built_whole():
        identify.add_machine(store, "")
    assert synchronous(store) == 2
