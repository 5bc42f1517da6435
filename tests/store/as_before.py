"""A file as the program made it before a migration: each takes back what it brought, newest first."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from pathlib import Path

from rebuild.store.schema import known_revisions

_LANDING = (
    *(f"{stem}_{end}" for stem in ("least", "most") for end in ("text", "unit", "mm")),
    "measures",
)


def without(raw: sqlite3.Connection, table: str, columns: Iterable[str]) -> None:
    """Take columns off a journaled table and its shadow."""
    for column in columns:
        raw.execute(f"ALTER TABLE {table} DROP COLUMN {column}")
        for side in "ba":
            raw.execute(f"ALTER TABLE j_{table} DROP COLUMN {side}_{column}")


def _before_0009(raw: sqlite3.Connection) -> None:
    raw.executescript("DROP TABLE unplaced; DROP TABLE j_unplaced;")
    without(raw, "instrument", _LANDING)


def _before_0010(raw: sqlite3.Connection) -> None:
    for table in ("override", "step_attempt"):
        raw.executescript(
            f"DROP TABLE {table}; DROP TABLE j_{table}; DELETE FROM change WHERE tbl = '{table}';"
        )
    without(raw, "joint", ("duty", "how_set", "torque_reason"))
    without(raw, "task_caution", ["read_at"])


def _before_0011(raw: sqlite3.Connection) -> None:
    for table in ("stay", "step_means", "means", "control"):
        raw.executescript(
            f"DROP TABLE {table}; DROP TABLE j_{table}; DELETE FROM change WHERE tbl = '{table}';"
        )


_TAKEN = {
    "reading": ("how", "thread", "read_mm"),
    "fit": ("later_id", "limits_to"),
    "making_sheet": (
        "tool_nose",
        "stock_ends",
        *(f"{stem}_{end}" for stem in ("stock_across", "stock_long") for end in ("text", "unit", "mm")),
    ),
}


def _before_0012(raw: sqlite3.Connection) -> None:
    for table, columns in _TAKEN.items():
        without(raw, table, columns)


def _before_0013(raw: sqlite3.Connection) -> None:
    raw.executescript("DROP TABLE find_words; DROP TABLE find_mark; DROP INDEX ix_reading_value_mm;")
    for stem in ("nominal", "low", "high"):
        raw.execute(f"DROP INDEX ix_feature_{stem}_mm")
    without(raw, "removal", ["broke"])


def _before_0015(raw: sqlite3.Connection) -> None:
    for table in ("photo_subject", "camera"):
        raw.executescript(
            f"DROP TABLE {table}; DROP TABLE j_{table}; DELETE FROM change WHERE tbl = '{table}';"
        )
    without(raw, "photo", ["camera"])


def _before_0016(raw: sqlite3.Connection) -> None:
    without(raw, "task", ["treatment"])
    without(raw, "part", ["finish"])


def _before_0017(raw: sqlite3.Connection) -> None:
    _without_tables(
        raw, "mark_part", "call_out", "document_page", "document", "box_thing", "clue", "merged_part"
    )


def _before_0019(raw: sqlite3.Connection) -> None:
    _without_tables(raw, "making_detail", "fitting")


def _before_0020(raw: sqlite3.Connection) -> None:
    for table in ("act", "setting", "kept_entry"):
        raw.execute(f"ALTER TABLE {table} DROP COLUMN crc")


def _before_0021(_raw: sqlite3.Connection) -> None:
    """It brought no table and no column."""


def _before_0022(raw: sqlite3.Connection) -> None:
    without(
        raw, "making_sheet", ("issue", "issued_at", "issued", "replaces", "ball_text", "ball_unit", "ball_mm")
    )


def _without_tables(raw: sqlite3.Connection, *tables: str) -> None:
    for table in tables:
        raw.executescript(
            f"DROP TABLE {table}; DROP TABLE j_{table}; DELETE FROM change WHERE tbl = '{table}';"
        )


#: What each migration brought, taken back.
TAKE_BACK = {
    "0009": _before_0009,
    "0010": _before_0010,
    "0011": _before_0011,
    "0012": _before_0012,
    "0013": _before_0013,
    "0015": _before_0015,
    "0016": _before_0016,
    "0017": _before_0017,
    "0019": _before_0019,
    "0020": _before_0020,
    "0021": _before_0021,
    "0022": _before_0022,
}


def as_before(path: Path, revision: str) -> str:
    """Make the file what it was before ``revision``; returns the revision it is at then."""
    known = known_revisions()
    before = known[known.index(revision) - 1]
    raw = sqlite3.connect(path)
    for one in reversed(known[known.index(revision) :]):
        TAKE_BACK[one](raw)
    raw.execute("UPDATE alembic_version SET version_num = ?", (before,))
    raw.commit()
    raw.close()
    return before
