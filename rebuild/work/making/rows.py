"""The making sheets of a machine: where each stands, what it waits for, and whether its limits are stale."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Any, NamedTuple

from sqlalchemy import Connection, Select, select

from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.making import MakingDimensions, MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.trade.limits.judgement import Rule
from rebuild.words.making import MakingProgress, PartShape
from rebuild.work.making.rows_limits import MateLimits, by_part, since
from rebuild.work.making.rows_plug import plugs

#: The tables the lookups here ask.
READS = frozenset({
    "feature", "fit", "instrument", "making_dimension", "making_sheet", "part", "reading", "station",
    "subassembly",
})  # fmt: skip

SETTLED = (MakingProgress.ACCEPTED, MakingProgress.SCRAPPED)


class SheetState(StrEnum):
    """Where a sheet stands, in one word; waiting and ready are worked out."""

    DRAFT = "draft"
    WAITING = "waiting"
    READY = "ready"
    BEING_MADE = "being made"
    MADE = "made"
    ACCEPTED = "accepted"
    SCRAPPED = "scrapped"


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One making sheet in the list. ``waits``, ``stale`` and ``missing`` are sentences."""

    id: int
    part_id: int
    part_code: str
    part_name: str
    subassembly: str
    attempt: int
    shape: PartShape
    progress: MakingProgress
    state: SheetState
    waits: tuple[str, ...]
    stale: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def part(self) -> str:
        """``AP-12 bush``."""
        return f"{self.part_code} {self.part_name}".strip()

    @property
    def title(self) -> str:
        """The part and, from the second on, the attempt."""
        return f"{self.part}, attempt {self.attempt}" if self.attempt > 1 else self.part


_SHEETS = (
    select(
        MakingSheets.id, MakingSheets.part_id, MakingSheets.attempt, MakingSheets.shape, MakingSheets.progress,
        MakingSheets.looked, MakingSheets.allow_uncertainty, Parts.code, Parts.name, Parts.machine_id,
        Subassemblies.name.label("subassembly"),
    )
    .join(Parts, Parts.id == MakingSheets.part_id)
    .outerjoin(Subassemblies, Subassemblies.id == Parts.subassembly_id)
    .order_by(Parts.code, Parts.id, MakingSheets.attempt)
)  # fmt: skip


def sheets(connection: Connection, machine_id: int, rule: Rule = Rule.CONFORMANCE_95) -> list[SheetRow]:
    """Every making sheet of a machine, by part."""
    return _rows(connection, _stored(connection, _SHEETS.where(Parts.machine_id == machine_id)), rule)


class _Stored(NamedTuple):
    """What ``_SHEETS`` asks for, in its order."""

    id: int
    part_id: int
    attempt: int
    shape: PartShape
    progress: MakingProgress
    looked: str
    allow_uncertainty: bool
    code: str
    name: str
    machine_id: int
    subassembly: str | None


def _stored(connection: Connection, query: Select[*tuple[Any, ...]]) -> list[_Stored]:
    return [_Stored._make(row) for row in connection.execute(query)]


def _rows(connection: Connection, stored: Sequence[_Stored], rule: Rule) -> list[SheetRow]:
    live = {row.part_id: row.allow_uncertainty for row in stored if row.progress not in SETTLED}
    asked = by_part(connection, list(live), live, rule)
    bands = plugs(connection, list(live))
    missing = _missing(connection, [row.id for row in stored if row.progress not in SETTLED])
    turned = {key: (band.stale,) for key, band in bands.items() if band.stale}
    return [
        _row(row, asked.get(row.part_id, ()), missing.get(row.id, ()), turned.get(row.part_id, ()))
        for row in stored
    ]


def _row(
    row: _Stored, asked: Sequence[MateLimits], missing: tuple[str, ...], turned: tuple[str, ...]
) -> SheetRow:
    if row.progress in SETTLED:
        asked, missing = (), ()
    waits = tuple(dict.fromkeys(one.wait.sentence for one in asked if one.wait is not None))
    stale = (*since(row.looked, asked), *turned) if row.progress not in SETTLED else ()
    return SheetRow(
        row.id,
        row.part_id,
        row.code,
        row.name,
        row.subassembly or "",
        row.attempt,
        row.shape,
        row.progress,
        state_of(row.progress, bool(waits)),
        waits,
        stale,
        missing,
    )


def state_of(progress: MakingProgress, waits: bool) -> SheetState:
    """The word for a sheet's state.

    >>> state_of(MakingProgress.RELEASED, True).value, state_of(MakingProgress.MADE, True).value
    ('waiting', 'made')
    """
    if progress is MakingProgress.RELEASED:
        return SheetState.WAITING if waits else SheetState.READY
    return SheetState(progress.value)


def _missing(connection: Connection, sheet_ids: Collection[int]) -> dict[int, tuple[str, ...]]:
    rows = connection.execute(
        select(MakingDimensions.sheet_id, MakingDimensions.name)
        .where(
            MakingDimensions.sheet_id.in_(sheet_ids),
            MakingDimensions.nominal_mm.is_(None),
            MakingDimensions.low_mm.is_(None),
            MakingDimensions.high_mm.is_(None),
        )
        .order_by(MakingDimensions.position)
    )
    found: dict[int, tuple[str, ...]] = {}
    for row in rows:
        found[row.sheet_id] = (*found.get(row.sheet_id, ()), row.name)
    return found


def of_parts(connection: Connection, part_ids: Collection[int]) -> list[tuple[int, str]]:
    """The sheets of some parts that are not settled yet: id and title, for who asks what a decision touches."""
    rows = connection.execute(
        _SHEETS.where(MakingSheets.part_id.in_(list(part_ids)), MakingSheets.progress.not_in(SETTLED))
    ).all()
    return [(row.id, f"making sheet of {row.code} {row.name}".strip() + _out(row.progress)) for row in rows]


def _out(progress: MakingProgress) -> str:
    """Behind a sheet's title: that paper of it may be at a machine."""
    return "" if progress is MakingProgress.DRAFT else f", {progress.value}: its paper may be at the machine"


def newest_of(connection: Connection, part_id: int) -> int | None:
    """The last attempt's sheet of a part, or None."""
    return connection.execute(
        select(MakingSheets.id)
        .where(MakingSheets.part_id == part_id)
        .order_by(MakingSheets.attempt.desc())
        .limit(1)
    ).scalar()


def open_of(connection: Connection, part_id: int) -> int | None:
    """The sheet of a part that is not settled yet, or None."""
    return connection.execute(
        select(MakingSheets.id)
        .where(MakingSheets.part_id == part_id, MakingSheets.progress.not_in(SETTLED))
        .limit(1)
    ).scalar()
