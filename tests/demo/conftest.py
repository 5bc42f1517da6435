"""The demo, built once a run; each test that changes it takes a copy."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from rebuild.store.store import Store
from tests.conftest import demo_copy


@pytest.fixture(scope="session")
def demo_file(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo as a first start makes it, closed."""
    return demo_copy(demo_template, tmp_path_factory.mktemp("demo"))


@pytest.fixture
def demo(demo_file: Path, tmp_path: Path) -> Iterator[Store]:
    """A copy of the demo, open."""
    path = tmp_path / "demo.rebuild"
    shutil.copy(demo_file, path)
    store = Store.open(path)
    yield store
    store.close()
