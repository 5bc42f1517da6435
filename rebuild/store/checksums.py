"""A checksum beside what no other part of the file confirms: the acts of the history, settings and kept entries.

The journal's shadows confirm every row a user entered, but not the words of the journal itself. Each such row carries
``CRC-32 of its words * 4 + its state``; the state is what may change later (taken back, sealed, dealt with), so that
SQLite can carry it on by itself (``+ 1``). An act's words are its number, kind, subject, time, window and what it
reverses, with how many rows it changed and the sum of their journal numbers. CRC-32 is zlib's.
"""

from __future__ import annotations

import sqlite3
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rebuild.store.file_tables import columns_of

#: States a row may be in.
_STATES = 4


@dataclass(frozen=True, slots=True)
class Summed:
    """A table whose rows carry a checksum: how the row is found, its words and its yes-or-no states, as SQL."""

    table: str
    key: str
    words: tuple[str, ...]
    states: tuple[str, ...]

    @property
    def read(self) -> str:
        """The row's key, its checksum, its states, and its words as the bytes they are stored as."""
        words = ", ".join(f"CAST({word} AS BLOB)" for word in self.words)
        return f"SELECT {', '.join((self.key, 'crc', *self.states))}, {words} FROM main.{self.table} AS t"


ACT = Summed(
    "act",
    "id",
    (
        "id", "kind", "subject", "at", '"window"', "reverses",
        "(SELECT COUNT(*) FROM main.change AS c WHERE c.act_id = t.id)",
        "(SELECT SUM(c.id) FROM main.change AS c WHERE c.act_id = t.id)",
    ),
    ("sealed", "undone"),
)  # fmt: skip
SETTING = Summed("setting", "rowid", ("key", "value"), ())
KEPT = Summed("kept_entry", "id", ("at", "meant_for", "typed", "why"), ("settled",))
#: In the order in which they are told of.
EVERY = (ACT, SETTING, KEPT)
_CALLED = {"act": "The history’s entry", "setting": "Setting", "kept_entry": "Kept entry"}


def put(raw: sqlite3.Connection, summed: Summed, key: int) -> None:
    """Give one row its checksum, in the transaction that wrote it."""
    row = raw.execute(f"{summed.read} WHERE {summed.key} = ?", (key,)).fetchone()
    raw.execute(f"UPDATE {summed.table} SET crc = ? WHERE {summed.key} = ?", (_checksum(summed, row), key))


def put_all(raw: sqlite3.Connection) -> None:
    """Give every row its checksum: what stands now is taken as it is."""
    for summed in EVERY:
        rows = [(_checksum(summed, row), row[0]) for row in raw.execute(summed.read)]
        raw.executemany(f"UPDATE {summed.table} SET crc = ? WHERE {summed.key} = ?", rows)


def carried(raw: sqlite3.Connection) -> bool:
    """Whether the file's schema has checksums."""
    return all("crc" in columns_of(raw, summed.table) for summed in EVERY)


def altered(raw: sqlite3.Connection) -> Iterator[str]:
    """Rows that are not what their checksum says, as sentences; none in a file of a schema without checksums."""
    if not carried(raw):
        return
    for summed in EVERY:
        for row in raw.execute(f"{summed.read} ORDER BY {summed.key}"):
            if row[1] != _checksum(summed, row):
                yield f"{_CALLED[summed.table]} no. {row[0]} was altered outside the program."


def _checksum(summed: Summed, row: Sequence[object]) -> int | None:
    """The checksum a row read by ``Summed.read`` must carry; None where its states are no yes or no."""
    end = 2 + len(summed.states)
    state = 0
    for place, value in enumerate(row[2:end]):
        if not isinstance(value, int) or value not in (0, 1):
            return None
        state += value << place
    words = b"".join(
        b"-" if word is None else b"%d:%b" % (len(_bytes(word)), _bytes(word)) for word in row[end:]
    )
    return zlib.crc32(words) * _STATES + state


def _bytes(word: object) -> bytes:
    return word if isinstance(word, bytes) else str(word).encode()
