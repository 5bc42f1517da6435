"""A file of many large machines, made in bulk: each of 2,500 parts, 6,000 features and 20,000 readings.

    python -m tests.benchmarks.big_file PATH [MACHINES]

The first machine is put in row by row, the others are copies of it made by SQLite itself with their
ids moved on. The journal is left out: no test of reading needs it, and it would treble the file.
"""

from __future__ import annotations

import os
import random
import sqlite3
import sys
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from rebuild.model.tables.every import whole
from rebuild.store.schema import HEAD
from rebuild.store.store import Store

GROUPS, PARTS, FEATURES, READINGS, TASKS = 25, 2_500, 6_000, 20_000, 1_200
STAGES = ("as found", "cleaned", "reworked", "as made", "fitted")
DECISIONS = ("open", "reuse", "reuse", "reuse", "rework", "remake", "buy", "defer")
#: Each table's rows in one machine, in an order that respects references.
TABLES = ("machine", "subassembly", "part", "feature", "station", "task", "link", "reading")


def built(machines: int) -> Path:
    """A file of so many machines, built once for this schema and this module and kept in the user's cache.

    Whoever writes copies it first.
    """
    home = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "rebuild-benchmarks"
    mark = sha256(HEAD.encode() + Path(__file__).read_bytes()).hexdigest()[:12]
    path = home / f"{machines}-{mark}.rebuild"
    if not path.is_file():
        home.mkdir(parents=True, exist_ok=True)
        half = path.with_suffix(".half")
        half.unlink(missing_ok=True)
        make(half, machines)
        half.replace(path)
    return path


def make(path: Path, machines: int) -> None:
    """Make the file at ``path``."""
    Store.create(path).close()
    raw = sqlite3.connect(path, isolation_level=None)
    raw.execute("PRAGMA synchronous = OFF")
    raw.execute("BEGIN")
    raw.execute(
        "INSERT INTO instrument (id, name, kind, unit, resolution_text, resolution_unit, resolution_mm, mpe_text, "
        "mpe_unit, mpe_mm, coverage_k, limit_source, note, position) VALUES (1, 'Micrometer 0-25', "
        "'outside micrometer', 'mm', '0.001', 'mm', 0.001, '0.002', 'mm', 0.002, 2, '', '', 0)"
    )
    rng = random.Random(1938)
    for table in TABLES:
        _insert(raw, table, _ROWS[table](rng))
    for number in range(1, machines):
        _copy(raw, number)
    raw.execute("COMMIT")
    raw.execute("ANALYZE")
    raw.execute("DELETE FROM sqlite_stat1")  # the program does not analyse, so neither must this file
    raw.close()


def _insert(raw: sqlite3.Connection, table: str, rows: Iterator[dict[str, object]]) -> None:
    first = next(rows)
    names = {**_defaults(table), **first}
    marks = ", ".join(f":{name}" for name in names)
    raw.executemany(
        f"INSERT INTO {table} ({', '.join(names)}) VALUES ({marks})",
        ({**_defaults(table), **row} for row in (first, *rows)),
    )


def _defaults(table: str) -> dict[str, object]:
    """What the program would put into columns not named here."""
    found: dict[str, object] = {}
    for column in whole().tables[table].columns:
        if not column.nullable and column.name != "id" and not column.foreign_keys:
            given = getattr(column.default, "arg", "")
            found[column.name] = getattr(given, "value", given)
    return found


def _machine(_rng: random.Random) -> Iterator[dict[str, object]]:
    yield {
        "id": 1,
        "name": "Large machine",
        "kind": "lathe",
        "unit": "mm",
        "scope": "recondition",
        "position": 0,
    }


def _groups(_rng: random.Random) -> Iterator[dict[str, object]]:
    for key in range(1, GROUPS + 1):
        parent = None if key <= 8 else 1 + key % 8
        yield {
            "id": key,
            "machine_id": 1,
            "parent_id": parent,
            "code": f"G{key:02}",
            "name": f"Group {key}",
            "position": key,
        }


def _parts(rng: random.Random) -> Iterator[dict[str, object]]:
    for key in range(1, PARTS + 1):
        yield {
            "id": key,
            "machine_id": 1,
            "subassembly_id": 1 + key % GROUPS,
            "code": f"G{1 + key % GROUPS:02}-{key:04}",
            "name": f"{rng.choice(('shaft', 'gear', 'bush', 'lever', 'screw'))} {key}",
            "decision": rng.choice(DECISIONS),
            "material": rng.choice(("C45", "cast iron", "")),
            "position": key,
        }


def _features(rng: random.Random) -> Iterator[dict[str, object]]:
    for key in range(1, FEATURES + 1):
        nominal = rng.randint(80, 900) / 10
        low, high = round(nominal - 0.03, 3), round(nominal - 0.01, 3)
        yield {
            "id": key,
            "part_id": 1 + key % PARTS,
            "name": f"journal {key}",
            "kind": "outside diameter",
            "unit": "mm",
            "nominal_text": f"{nominal}",
            "nominal_unit": "mm",
            "nominal_mm": nominal,
            "low_text": f"{low:.3f}",
            "low_unit": "mm",
            "low_mm": low,
            "high_text": f"{high:.3f}",
            "high_unit": "mm",
            "high_mm": high,
            "spec_text": f"{nominal} -0.010/-0.030",
            "spec_origin": "drawing",
            "position": key,
        }


def _stations(_rng: random.Random) -> Iterator[dict[str, object]]:
    for key in range(1, FEATURES // 3 * 2 + 1):
        yield {
            "id": key,
            "feature_id": 3 * ((key + 1) // 2),
            "name": ("near", "far")[key % 2],
            "position": key % 2,
        }


def _tasks(rng: random.Random) -> Iterator[dict[str, object]]:
    for key in range(1, TASKS + 1):
        yield {
            "id": key,
            "machine_id": 1,
            "subassembly_id": 1 + key % GROUPS,
            "part_id": 1 + key % PARTS,
            "title": f"Step {key} of the work",
            "kind": rng.choice(("remove", "clean", "measure", "make", "refit")),
            "state": rng.choice(("done", "done", "open")),
            "likely_min": 30.0,
            "position": key,
        }


def _links(_rng: random.Random) -> Iterator[dict[str, object]]:
    for key in range(1, TASKS):
        yield {"id": key, "before_id": key, "after_id": key + 1, "kind": "before"}


def _readings(rng: random.Random) -> Iterator[dict[str, object]]:
    for key in range(1, READINGS + 1):
        feature = 1 + key % FEATURES
        station = 2 * (feature // 3) - key % 2 if feature % 3 == 0 else None
        value = round(10 + rng.random() * 50, 3)
        yield {
            "id": key,
            "feature_id": feature,
            "station_id": station,
            "stage": STAGES[key * 3 // READINGS],
            "typed": f"{value}",
            "unit": "mm",
            "value_mm": value,
            "repeats": 1,
            "instrument_id": 1,
            "taken_at": f"2026-0{1 + key % 9}-14T19:30:00",
        }


_ROWS = {
    "machine": _machine, "subassembly": _groups, "part": _parts, "feature": _features, "station": _stations,
    "task": _tasks, "link": _links, "reading": _readings,
}  # fmt: skip
_COUNTS = {
    "machine": 1, "subassembly": GROUPS, "part": PARTS, "feature": FEATURES, "station": FEATURES // 3 * 2,
    "task": TASKS, "link": TASKS - 1, "reading": READINGS,
}  # fmt: skip


def _copy(raw: sqlite3.Connection, number: int) -> None:
    """Copy machine 1 with every id and reference moved on ``number`` machines."""
    for table in TABLES:
        columns = whole().tables[table].columns
        values = []
        for column in columns:
            target = next((key.column.table.name for key in column.foreign_keys), None)
            step = _COUNTS.get(table if column.name == "id" else target or "", 0) * number
            values.append(f"{column.name} + {step}" if step else column.name)
        names = ", ".join(column.name for column in columns)
        raw.execute(
            f"INSERT INTO {table} ({names}) SELECT {', '.join(values)} FROM {table} WHERE id <= {_COUNTS[table]}"
        )


if __name__ == "__main__":
    make(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1)
