"""A making sheet as the acts on it find it: its sizes, what its part's fits ask, whether it is settled."""

from __future__ import annotations

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.making import MakingDimension, MakingSheet
from rebuild.model.records.parts import Part
from rebuild.store.store import Tx
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.derive import Designations
from rebuild.words.making import MakingProgress
from rebuild.work.making import rows_limits as making_limits
from rebuild.work.making.measures import measure_of
from rebuild.work.making.rows_limits import MateLimits
from rebuild.work.records.columns import title

#: Progress at which a sheet is settled: nothing on it waits or grows stale any more.
SETTLED = (MakingProgress.ACCEPTED, MakingProgress.SCRAPPED)


def asked_of(tx: Tx, sheet: MakingSheet) -> tuple[MateLimits, ...]:
    """What the fits ask of a sheet's part now."""
    tx.session.flush()
    return making_limits.of_part(tx.connection, sheet.part_id, allow_uncertainty=sheet.allow_uncertainty)


def designations_of(sheet: MakingSheet) -> Designations:
    """What is written on a sheet."""
    return Designations(sheet.thread, sheet.taper, sheet.gear, sheet.key)


def dimensions_of(tx: Tx, sheet_id: int) -> list[MakingDimension]:
    """The sizes of a sheet in order."""
    return list(
        tx.session.scalars(
            select(MakingDimension)
            .where(MakingDimension.sheet_id == sheet_id)
            .order_by(MakingDimension.position, MakingDimension.id)
        )
    )


def sizes_of(tx: Tx, sheet: MakingSheet) -> dict[str, Measure]:
    """The sizes of a sheet by role."""
    return {row.role: measure_of(row) for row in dimensions_of(tx, sheet.id) if row.role}


def called(tx: Tx, sheet: MakingSheet) -> str:
    """``AP-12 bush, attempt 2``."""
    return f"{title(tx.get(Part, sheet.part_id, 'part'))}, attempt {sheet.attempt}"


def open_sheet(tx: Tx, sheet_id: int) -> MakingSheet:
    """A sheet that is not settled. Raises BadEntry for one that is, NotThere."""
    sheet = tx.get(MakingSheet, sheet_id, "making sheet")
    if sheet.progress in SETTLED:
        raise BadEntry(
            f"is {sheet.progress.value} and is kept as it was.",
            where=called(tx, sheet),
            way_out="Start the next attempt to change anything.",
        )
    return sheet
