"""Entries kept from being lost: what was typed but could not be stored where it was meant."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.shop import KeptEntries

#: The tables the lookups here ask.
READS = frozenset({"kept_entry"})


@dataclass(frozen=True, slots=True)
class Kept:
    """An entry that could not be stored where it was meant."""

    id: int
    at: str
    meant_for: str
    typed: str
    why: str


def kept_entries(connection: Connection) -> list[Kept]:
    """Entries kept from being lost and not settled yet, newest first."""
    rows = connection.execute(
        select(KeptEntries.id, KeptEntries.at, KeptEntries.meant_for, KeptEntries.typed, KeptEntries.why)
        .where(~KeptEntries.settled)
        .order_by(KeptEntries.id.desc())
    )
    return [Kept(row.id, row.at.strftime("%Y-%m-%d %H:%M"), *row[2:]) for row in rows]
