"""What tests share besides fixtures."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from rebuild.model.shadows import journaled
from rebuild.model.tables.every import whole

Contents = dict[str, list[tuple[object, ...]]]


def read_contents(path: Path) -> Contents:
    """Every journaled table's rows by id, floats as they are stored."""
    raw = sqlite3.connect(path)
    try:
        return {
            table.name: raw.execute(f'SELECT * FROM "{table.name}" ORDER BY id').fetchall()
            for table in journaled(whole())
        }
    finally:
        raw.close()
