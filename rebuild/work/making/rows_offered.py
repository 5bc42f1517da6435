"""A mate a sheet's thread may run on though no fit says so: a part of the same machine with the same thread."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.fits import Fits
from rebuild.model.tables.making import MakingDimensions, MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.trade.making.roles import guess_shape
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.threads.taken import shown
from rebuild.words.making import LimitsFrom, PartShape
from rebuild.words.parts import Identity
from rebuild.words.readings import FeatureKind
from rebuild.work.making.rows import SETTLED
from rebuild.work.making.rows_owner import is_pitch_diameter, same_thread

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "making_dimension", "making_sheet", "part", "reading"})

_THREADED = (PartShape.NUT, PartShape.SCREW)


@dataclass(frozen=True, slots=True)
class OfferedMate:
    """A feature with the thread of a sheet, on another part; ``reads`` is what it was last read, or empty."""

    feature_id: int
    mate: str
    thread: str
    reads: str

    @property
    def sentence(self) -> str:
        """What is asked of the user."""
        read = f"it was read {self.reads}" if self.reads else "it is not measured yet"
        asked = f"Does this {self.thread} run on {self.mate}? No fit says so, and {read}"
        return f"{asked}: the limits here are the standard's"

    @property
    def refusal(self) -> str:
        """What a sheet notes of a mate that is none."""
        return f"Does not run on {self.mate}."


def offered(connection: Connection, sheet_id: int) -> OfferedMate | None:
    """The first mate a sheet's thread may have; None when a fit says it, its limits were typed, or there is none."""
    sheet = connection.execute(
        select(
            MakingSheets.part_id, MakingSheets.shape, MakingSheets.thread, MakingSheets.progress,
            MakingSheets.note, Parts.machine_id,
        ).join(Parts, Parts.id == MakingSheets.part_id).where(MakingSheets.id == sheet_id)
    ).first()  # fmt: skip
    if sheet is None or sheet.shape not in _THREADED or sheet.progress in SETTLED or not sheet.thread.strip():
        return None
    if not _by_the_standard(connection, sheet_id) or _fitted(connection, sheet.part_id):
        return None
    found = [
        one
        for one, shape in _others(connection, sheet.machine_id, sheet.part_id)
        if shape is not sheet.shape and same_thread(one.thread, sheet.thread)
    ]
    open_ones = [one for one in found if one.refusal not in (sheet.note or "")]
    return min(open_ones, key=lambda one: not one.reads, default=None)


def _by_the_standard(connection: Connection, sheet_id: int) -> bool:
    """Whether the pitch diameter is the standard's."""
    rows = connection.execute(
        select(MakingDimensions.name, MakingDimensions.limits_from).where(
            MakingDimensions.sheet_id == sheet_id
        )
    )
    return any(is_pitch_diameter(row.name) and row.limits_from is LimitsFrom.TABLE for row in rows)


def _fitted(connection: Connection, part_id: int) -> bool:
    """Whether a thread of the part is in a fit already, were it with the plug that proves it."""
    own = select(Features.id).where(Features.part_id == part_id, Features.kind == FeatureKind.THREAD)
    query = select(Fits.id).where(Fits.outer_id.in_(own) | Fits.inner_id.in_(own)).limit(1)
    return connection.execute(query).first() is not None


def _others(connection: Connection, machine_id: int, part_id: int) -> list[tuple[OfferedMate, PartShape]]:
    """The threads of the machine's other parts, each with its newest reading and the shape its part's name tells."""
    rows = connection.execute(
        select(
            Features.id, Features.name, Features.thread, Parts.code, Parts.name.label("part"),
            Readings.typed, Readings.unit, Readings.value_mm, Readings.how, Readings.read_mm,
        )
        .join(Parts, Parts.id == Features.part_id)
        .outerjoin(Readings, (Readings.feature_id == Features.id) & Readings.struck.is_(None))
        .where(
            Parts.machine_id == machine_id, Parts.id != part_id, Parts.identity != Identity.NOT_OURS,
            Features.kind == FeatureKind.THREAD, Features.thread != "",
        )
        .order_by(Features.id, Readings.id)
    )  # fmt: skip
    found: dict[int, tuple[OfferedMate, PartShape]] = {}
    for row in rows:
        reads = ""
        if row.value_mm is not None:
            reads = shown(Size(row.typed, row.unit, row.value_mm), 1, row.how or "", row.read_mm)
        mate = OfferedMate(row.id, f"{row.code} {row.part}".strip(), row.thread, reads)
        found[row.id] = mate, guess_shape(row.part, (FeatureKind.THREAD,))
    return list(found.values())
