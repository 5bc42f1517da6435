"""What is fitted at assembly, part by part: asked for, still to do, and what came out."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.fitting import Fittings
from rebuild.words.fitting import FittingKind, asked_words

#: The tables the lookups here ask.
READS = frozenset({"fitting"})


@dataclass(frozen=True, slots=True)
class FittingRow:
    """One fit at assembly."""

    id: int
    part_id: int
    task_id: int | None
    kind: FittingKind
    what: str
    start: str
    allowance: str
    condition: str
    came_out: str
    done_at: dt.datetime | None
    note: str

    @property
    def asked(self) -> str:
        """``ream in place: bore, from 15.8, 0.2 left on, until the shaft turns by hand``."""
        return asked_words(self.kind, self.what, self.start, self.allowance, self.condition)


def fittings(connection: Connection, part_id: int) -> tuple[FittingRow, ...]:
    """Those of one part in their order."""
    return _read(connection, Fittings.part_id == part_id)


def fittings_at(connection: Connection, task_id: int) -> tuple[FittingRow, ...]:
    """Those done at one step."""
    return _read(connection, Fittings.task_id == task_id)


def _read(connection: Connection, which: object) -> tuple[FittingRow, ...]:
    rows = connection.execute(
        select(*Fittings.columns()).where(which).order_by(Fittings.position, Fittings.id)  # type: ignore[arg-type]
    )
    return tuple(
        FittingRow(
            row.id, row.part_id, row.task_id, row.kind, row.what, row.start, row.allowance, row.condition,
            row.came_out, row.done_at, row.note,
        )
        for row in rows
    )  # fmt: skip
