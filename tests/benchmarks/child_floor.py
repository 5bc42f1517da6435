"""The bare things the jobs rest on, each in a process of its own: ``python -m tests.benchmarks.child_floor WHAT …``.

Nothing of the program is loaded here.
"""

from __future__ import annotations

import csv
import json
import sqlite3
import sys
from contextlib import closing
from pathlib import Path

#: What the lists of an export are, asked by hand.
_LISTS = {
    "machines": "SELECT * FROM machine ORDER BY position, id",
    "part list": "SELECT p.*, m.name, s.code, s.name FROM part AS p JOIN machine AS m ON m.id = p.machine_id "
    "LEFT JOIN subassembly AS s ON s.id = p.subassembly_id ORDER BY m.position, m.id, p.id",
    "features": "SELECT f.*, p.code, p.name, m.name FROM feature AS f JOIN part AS p ON p.id = f.part_id "
    "JOIN machine AS m ON m.id = p.machine_id ORDER BY f.id",
    "stations": "SELECT s.*, f.name, p.code FROM station AS s JOIN feature AS f ON f.id = s.feature_id "
    "JOIN part AS p ON p.id = f.part_id ORDER BY s.feature_id, s.position, s.id",
    "readings": "SELECT r.*, f.name, p.code, p.name, s.name, i.name FROM reading AS r "
    "JOIN feature AS f ON f.id = r.feature_id JOIN part AS p ON p.id = f.part_id "
    "LEFT JOIN station AS s ON s.id = r.station_id LEFT JOIN instrument AS i ON i.id = r.instrument_id ORDER BY r.id",
}


def sound(path: str) -> None:
    """SQLite's own check."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as raw:
        if raw.execute("PRAGMA integrity_check").fetchone() != ("ok",):
            raise SystemExit("the large file is not sound")


def copied(path: str, to: str) -> None:
    """SQLite's own copy, and its check of it."""
    with closing(sqlite3.connect(path)) as raw, closing(sqlite3.connect(to)) as copy:
        raw.backup(copy)
    sound(to)
    Path(to).unlink()


def exported(path: str, to: str) -> None:
    """Every table as CSV and as JSON, and the five lists as CSV, row by row."""
    folder = Path(to)
    folder.mkdir()
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as raw:
        for name, question in _LISTS.items():
            _csv(raw, question, folder / f"{name}.csv", None)
        with (folder / "everything.json").open("w", encoding="utf-8") as file:
            for (table,) in raw.execute(
                "SELECT name FROM sqlite_master WHERE type = 'table' AND rootpage > 0 AND name NOT LIKE 'sqlite_%' "
                "AND name NOT LIKE 'j!_%' ESCAPE '!' AND name NOT LIKE 'find%' AND name <> 'change'"
            ).fetchall():
                _csv(raw, f'SELECT * FROM "{table}" ORDER BY rowid', folder / f"record {table}.csv", file)


def _csv(raw: sqlite3.Connection, question: str, path: Path, beside: object) -> None:
    asked = raw.execute(question)
    names = [one[0] for one in asked.description]
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(names)
        while rows := asked.fetchmany(500):
            writer.writerows(rows)
            if beside is not None:
                beside.write(
                    json.dumps([dict(zip(names, row, strict=True)) for row in rows], ensure_ascii=False)
                )  # type: ignore[attr-defined]


def pages(to: str, count: str) -> None:
    """So many pages of 60 plain lines."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(to, invariant=1, pageCompression=1)
    for _ in range(int(count)):
        for line in range(60):
            canvas.drawString(50, 780 - 12 * line, f"reading {line} 59.9850 mm as found, micrometer 50-75 mm")
        canvas.showPage()
    canvas.save()


if __name__ == "__main__":
    {"sound": sound, "copied": copied, "exported": exported, "pages": pages}[sys.argv[1]](*sys.argv[2:])
