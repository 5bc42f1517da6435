"""An upgrade killed half way leaves SQLite's own journal beside the file: whoever reads the file has it taken back."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from rebuild.store import schema
from rebuild.store.store import Store
from rebuild.work.checks.check import check

#: Writes more than its cache holds, so that half of it is in the file already, and dies as by ``kill -9``.
KILLED = """
import os, signal, sqlite3, sys
raw = sqlite3.connect(sys.argv[1], isolation_level=None)
raw.execute("PRAGMA cache_size = 2")
raw.execute("BEGIN IMMEDIATE")
raw.execute("CREATE TABLE half_done (x)")
for _ in range(400):
    raw.execute("INSERT INTO half_done VALUES (randomblob(3000))")
os.kill(os.getpid(), signal.SIGKILL)
"""


def opened(path: Path) -> None:
    """Open it as the program does, which brings it up to date."""
    Store.open(path).close()


def tables_of(path: Path) -> set[str]:
    with closing(sqlite3.connect(path)) as raw:
        return {name for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}


@pytest.mark.parametrize(
    ("look", "revision"), [(schema.revision_of, "0015"), (check, "0015"), (opened, schema.HEAD)]
)
def test_what_a_killed_upgrade_left_is_taken_back_wherever_the_file_is_read(
    look: Callable[[Path], object], revision: str, tmp_path: Path
) -> None:
    path = tmp_path / "old.rebuild"
    schema.create(path, "0015")
    subprocess.run([sys.executable, "-c", KILLED, str(path)], check=False)
    assert path.with_name(f"{path.name}-journal").stat().st_size > 0, "else the test proves nothing"
    look(path)
    assert schema.revision_of(path) == revision
    assert "half_done" not in tables_of(path)
