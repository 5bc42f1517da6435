"""What was gone on with all the same, open ones first."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.gates import Overrides
from rebuild.words.gates import Gate
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = frozenset({"override"})


@dataclass(frozen=True, slots=True)
class GoneOnRow:
    """One time a gate was passed all the same; ``covers`` are the items it was said of (``joint 12``)."""

    id: int
    gate: Gate
    task_id: int | None
    run_step_id: int | None
    joint_id: int | None
    what: str
    against: str
    covers: tuple[str, ...]
    reason: str
    said_by: str
    at: dt.datetime
    closed_at: dt.datetime | None
    closed_note: str

    @property
    def words(self) -> str:
        """In one line: what, when, by whom, why."""
        by = f" by {self.said_by}" if self.said_by else ""
        return f"{self.what}, all the same on {show_day(self.at)}{by}: {self.reason}"


def gone_on(connection: Connection, machine_id: int, *, open_only: bool = False) -> list[GoneOnRow]:
    """Every time on a machine, those not closed first, newest first."""
    query = select(*Overrides.columns()).where(Overrides.machine_id == machine_id)
    if open_only:
        query = query.where(Overrides.closed_at.is_(None))
    rows = connection.execute(query.order_by(Overrides.at.desc(), Overrides.id.desc()))
    found = [
        GoneOnRow(
            row.id,
            Gate(row.gate),
            row.task_id,
            row.run_step_id,
            row.joint_id,
            row.what,
            row.against,
            tuple(filter(None, row.covers.split(", "))),
            row.reason,
            row.said_by,
            row.at,
            row.closed_at,
            row.closed_note,
        )
        for row in rows
    ]
    return sorted(found, key=lambda row: row.closed_at is not None)
