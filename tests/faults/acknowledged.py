"""What a killed child has acknowledged, and looking whether it is there: by a plain connection of the parent's own."""

from __future__ import annotations

import hashlib
import sqlite3
from dataclasses import dataclass, field
from pathlib import Path

from rebuild.store import schema
from rebuild.store.photo_copies import wanted_photos
from rebuild.store.photos import damaged_photos
from rebuild.work.checks.check import check
from tests.faults.older import ROWS

LIKE_AN_ACT = "act"


def newest_act(raw: sqlite3.Connection) -> int:
    """The id of the newest act."""
    return int(raw.execute("SELECT COALESCE(MAX(id), 0) FROM act").fetchone()[0])


def print_of(raw: sqlite3.Connection, act_id: int) -> str:
    """A fingerprint of an act: its kind and words, every row it touched, and their images before and after."""
    row = raw.execute("SELECT kind, subject, reverses FROM act WHERE id = ?", (act_id,)).fetchone()
    if row is None:
        return "missing"
    told = hashlib.sha256(repr(row).encode())
    changes = raw.execute(
        "SELECT id, tbl, row_id, op FROM change WHERE act_id = ? ORDER BY id", (act_id,)
    ).fetchall()
    for change, table, key, op in changes:
        image = raw.execute(f'SELECT * FROM "j_{table}" WHERE change_id = ?', (change,)).fetchone()
        told.update(repr((change, table, key, op, image)).encode())
    return told.hexdigest()[:16]


@dataclass(slots=True)
class Known:
    """Everything acknowledged on one file so far."""

    acts: dict[int, str] = field(default_factory=dict)
    owner: str = ""
    kept: set[str] = field(default_factory=set)

    def lost(self, path: Path) -> list[str]:
        """What was acknowledged and is not there as it was."""
        raw = sqlite3.connect(path)
        try:
            found = [
                f"act {act_id} is not there as it was acknowledged"
                for act_id, told in self.acts.items()
                if print_of(raw, act_id) != told
            ]
            typed = {text for (text,) in raw.execute("SELECT typed FROM kept_entry")}
            found += [f"kept entry {text} is not there" for text in sorted(self.kept - typed)]
        finally:
            raw.close()
        return found


def unsound_backups(folder: Path, said: set[str]) -> tuple[list[str], list[str]]:
    """Acknowledged backups that are not there, and findings of every backup that has a name; all are removed after."""
    named = {path.name: path for path in folder.glob("* backup *.rebuild")}
    findings = []
    for name, path in named.items():
        findings += [f"{name}: {finding}" for finding in check(path)]
        findings += [f"{name}: {finding}" for finding in damaged_photos(path, list(wanted_photos(path)))]
        path.unlink()
        for tail in ("-wal", "-shm"):
            path.with_name(path.name + tail).unlink(missing_ok=True)
    return [f"backup {name} is not there" for name in sorted(said - set(named))], findings


def unsound_upgrade(path: Path, *, acknowledged: bool) -> tuple[list[str], list[str]]:
    """What is wrong with a file whose upgrade was killed: it is as it was, or up to date; with all its rows."""
    revision = schema.revision_of(path)
    lost = []
    if acknowledged and revision != schema.HEAD:
        lost.append(f"an upgrade was acknowledged and the file is at {revision}")
    raw = sqlite3.connect(path)
    count = raw.execute("SELECT COUNT(*) FROM place").fetchone()[0]
    said = raw.execute("PRAGMA integrity_check").fetchone()[0]
    raw.close()
    findings = (
        [] if (count, said) == (ROWS, "ok") else [f"after an upgrade at {revision}: {count} rows, {said}"]
    )
    return lost, findings + (check(path) if revision == schema.HEAD else [])
