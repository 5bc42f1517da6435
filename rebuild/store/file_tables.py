"""Which tables and columns a file has, asked of the file: a damaged or older one may lack some."""

from __future__ import annotations

import sqlite3


def tables_of(raw: sqlite3.Connection) -> set[str]:
    """The names of the file's tables."""
    rows = raw.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    return {name for (name,) in rows}


def columns_of(raw: sqlite3.Connection, table: str) -> list[str]:
    """The columns of a table."""
    return [row[1] for row in raw.execute(f'PRAGMA table_info("{table}")')]


def journaled_tables(raw: sqlite3.Connection) -> list[str]:
    """The tables of the file that have a shadow."""
    tables = tables_of(raw)
    return sorted(table for table in tables if f"j_{table}" in tables)


def images_of(raw: sqlite3.Connection, table: str) -> list[str]:
    """The columns of a table whose image its shadow keeps."""
    kept = set(columns_of(raw, f"j_{table}"))
    return [name for name in columns_of(raw, table) if f"a_{name}" in kept]
