"""The large file with its history: every row put in by one import, as the journal of the program would tell it.

What reads the history, or copies and checks it, is measured on this one; it is about three times the other.
"""

from __future__ import annotations

import shutil
import sqlite3
from hashlib import sha256
from pathlib import Path

from rebuild.store import checksums
from tests.benchmarks.big_file import TABLES, built

_ACT = (
    "INSERT INTO act (id, kind, subject, at, window, reverses, undone, sealed) "
    "VALUES (1, 'IMPORT', 'large machines', '2026-01-01T10:00:00', '', NULL, 0, 0)"
)


def with_journal(machines: int) -> Path:
    """A file of so many machines and their history, built once and kept beside the one without."""
    plain = built(machines)
    mark = sha256(Path(__file__).read_bytes()).hexdigest()[:6]
    path = plain.with_name(f"{plain.stem}-history-{mark}{plain.suffix}")
    if not path.is_file():
        half = path.with_suffix(".half")
        shutil.copyfile(plain, half)
        _write_history(half)
        half.replace(path)
    return path


def _write_history(path: Path) -> None:
    raw = sqlite3.connect(path, isolation_level=None)
    raw.execute("PRAGMA synchronous = OFF")
    raw.execute("BEGIN")
    raw.execute(_ACT)
    for table in ("instrument", *TABLES):
        columns = [row[1] for row in raw.execute(f'PRAGMA table_info("{table}")')]
        images = ", ".join(f'"a_{name}"' for name in columns)
        values = ", ".join(f't."{name}"' for name in columns)
        raw.execute(
            f"INSERT INTO change (act_id, tbl, row_id, op) SELECT 1, '{table}', id, 'i' FROM \"{table}\" ORDER BY id"
        )
        raw.execute(
            f'INSERT INTO "j_{table}" (change_id, {images}) SELECT c.id, {values} FROM change AS c '
            f"JOIN \"{table}\" AS t ON t.id = c.row_id WHERE c.tbl = '{table}' ORDER BY c.id"
        )
    checksums.put_all(raw)
    raw.execute("COMMIT")
    raw.close()
