"""The demo, built once for all tests of this folder; each test that changes it takes a copy."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from rebuild.demo.where import ensure_demo
from rebuild.store.store import Store


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo as a first start makes it, closed."""
    path = tmp_path_factory.mktemp("demo") / "demo.rebuild"
    assert ensure_demo(path)
    return path


@pytest.fixture
def demo(demo_file: Path, tmp_path: Path) -> Iterator[Store]:
    """A copy of the demo, open."""
    path = tmp_path / "demo.rebuild"
    shutil.copy(demo_file, path)
    store = Store.open(path)
    yield store
    store.close()
