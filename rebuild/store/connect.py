"""Engines on one project file: a single writer that owns its transactions, and readers that cannot write.

Python's sqlite3 would open no transaction around DDL and would begin late around reads, so it is
told to keep out (``isolation_level=None``) and every transaction begins here, in words.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from functools import partial
from pathlib import Path
from typing import Any

from sqlalchemy import Engine, create_engine, event
from sqlalchemy.dialects import registry
from sqlalchemy.dialects.sqlite.pysqlite import SQLiteDialect_pysqlite
from sqlalchemy.pool import Pool, QueuePool, StaticPool
from sqlalchemy.util import LRUCache

from rebuild.store.strangers import wary

BUSY_MS = 5_000
#: How far a commit goes before it returns: to the disk itself.
SYNCHRONOUS = "FULL"
#: Pages [KiB] an act may hold: of many rows, more than SQLite’s own 2 MB go to the log and come back.
WRITING_KIB = 32 * 1024
#: Pages [KiB] a look at the whole file may hold.
LOOKING_KIB = 64 * 1024
#: What statements compile to, once for the process: writer, readers and every file share it.
_COMPILED: LRUCache[Any, Any] = LRUCache(2_000)


class Dialect(SQLiteDialect_pysqlite):
    """SQLite's own; all of this kind are equal, so that what one engine compiled serves the others."""

    supports_statement_cache = True

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self)

    def __hash__(self) -> int:
        return hash(type(self))


registry.register("sqlite.rebuild", __name__, "Dialect")


def writer_engine(path: Path, begins: Callable[[sqlite3.Connection], None] | None = None) -> Engine:
    """The one writing connection of this process; ``BEGIN IMMEDIATE``, full synchronous, WAL.

    ``begins`` hears before each transaction takes the file's lock.
    """
    engine = _engine(path, StaticPool)

    @event.listens_for(engine, "connect")
    def prepare(raw: sqlite3.Connection, _record: Any) -> None:
        wary(raw)
        raw.execute(f"PRAGMA busy_timeout = {BUSY_MS}")
        raw.execute("PRAGMA journal_mode = WAL")
        raw.execute("PRAGMA wal_autocheckpoint = 0")  # the store moves the log into the file: ``same_file``
        raw.execute(f"PRAGMA synchronous = {SYNCHRONOUS}")
        raw.execute("PRAGMA foreign_keys = ON")
        raw.execute("PRAGMA temp_store = MEMORY")
        raw.execute(f"PRAGMA cache_size = -{WRITING_KIB}")

    @event.listens_for(engine, "begin")
    def begin(connection: Any) -> None:
        if begins is not None:
            begins(connection.connection.driver_connection)
        connection.exec_driver_sql("BEGIN IMMEDIATE")

    return engine


def reader_engine(path: Path, begun: Callable[[sqlite3.Connection], None] | None = None) -> Engine:
    """Connections that can only read; ``begun`` hears of each new one while it may still make TEMP tables."""
    engine = _engine(path, QueuePool, pool_size=2)

    @event.listens_for(engine, "connect")
    def prepare(raw: sqlite3.Connection, _record: Any) -> None:
        wary(raw)
        raw.execute(f"PRAGMA busy_timeout = {BUSY_MS}")
        if begun is not None:
            begun(raw)
        raw.execute("PRAGMA query_only = ON")

    @event.listens_for(engine, "begin")
    def begin(connection: Any) -> None:
        connection.exec_driver_sql("BEGIN")

    return engine


def read_only(path: Path, more: str = "") -> sqlite3.Connection:
    """A plain connection that cannot write, for a look at a file before or beside the program's own."""
    _take_back_half_done(path)
    raw = sqlite3.connect(f"{_uri(path)}?mode=ro{more}", uri=True, isolation_level=None)
    wary(raw)
    return raw


def _take_back_half_done(path: Path) -> None:
    """Let SQLite take back what a killed upgrade left half done; a connection that cannot write is refused instead.

    While another program is at work on the file its journal is not touched: SQLite sees the lock.
    """
    journal = path.with_name(f"{path.name}-journal")
    try:
        left = journal.stat().st_size > 0 and os.access(path, os.W_OK)
    except OSError:
        return
    if left:
        with closing(_connect(path)) as raw, suppress(sqlite3.Error):
            wary(raw)
            raw.execute("SELECT 1 FROM sqlite_master").fetchone()


def _engine(path: Path, pool: type[Pool], **more: Any) -> Engine:
    return create_engine(
        "sqlite+rebuild://",
        creator=partial(_connect, path),
        poolclass=pool,
        execution_options={"compiled_cache": _COMPILED},
        **more,
    )


def _connect(path: Path) -> sqlite3.Connection:
    """Never makes a file: one that was renamed meanwhile must not come back empty under its old name."""
    return sqlite3.connect(f"{_uri(path)}?mode=rw", uri=True, isolation_level=None, check_same_thread=False)


def _uri(path: Path) -> str:
    plain = path.absolute().as_posix().replace("%", "%25").replace("?", "%3f").replace("#", "%23")
    return f"file:{plain}" if plain.startswith("/") else f"file:/{plain}"
