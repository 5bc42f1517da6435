"""The as-made values of a making sheet: readings of its features at that stage, judged by the sheet's limits."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from sqlalchemy import Connection, func, select

from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.making import MakingDimensions, MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Instruments, Readings
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.results.working import Working
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.threads.taken import shown
from rebuild.words.making import MakingProgress
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.readings.rows_judged import Measured, instrument_limits, judgement_of

#: The tables the lookups here ask.
READS = frozenset({"feature", "instrument", "making_dimension", "making_sheet", "part", "reading", "station"})


@dataclass(frozen=True, slots=True)
class MadeValue:
    """One as-made value: what was read, how it stands to the sheet's limits, and its working."""

    reading_id: int
    station: str
    words: str
    value_mm: float
    U_mm: float | None
    verdict: Verdict
    sentence: str
    instrument: str
    taken_at: dt.datetime
    working: Working


def scrap_mark(attempt: int) -> str:
    """How a reading of a scrapped attempt is struck; the reason follows.

    >>> scrap_mark(1)
    'attempt 1 scrapped'
    """
    return f"attempt {attempt} scrapped"


def values(
    connection: Connection,
    sheet_id: int,
    rule: Rule,
    limits: dict[int, InstrumentLimit] | None = None,
) -> dict[int, tuple[MadeValue, ...]]:
    """The as-made values of a sheet by dimension, the newest at each station.

    A scrapped attempt keeps its values: they were struck with its mark, or in its time. A later attempt sees
    only what was read since it was started.
    """
    known = instrument_limits(connection) if limits is None else limits
    sized = select(*MakingDimensions.columns()).where(
        MakingDimensions.sheet_id == sheet_id, MakingDimensions.feature_id.is_not(None)
    )
    dimensions = [MakingDimensions.of(row) for row in connection.execute(sized)]
    readings = _readings(
        connection, sheet_id, [row.feature_id for row in dimensions if row.feature_id is not None]
    )
    found: dict[int, tuple[MadeValue, ...]] = {}
    for row in dimensions:
        newest: dict[int, _Read] = {}
        for reading in readings:
            if reading.feature_id == row.feature_id:
                newest[reading.station_id or 0] = reading
        found[row.id] = tuple(_value(row, reading, known, rule) for reading in newest.values())
    return found


class _Read(NamedTuple):
    """An as-made reading with its part's material and the names of what it was taken at and with."""

    id: int
    feature_id: int
    station_id: int | None
    typed: str
    unit: str
    value_mm: float
    repeats: int
    instrument_id: int | None
    temperature_c: float | None
    taken_at: dt.datetime
    how: str
    thread: str
    read_mm: float | None
    material: str
    own_unit: str
    kind: FeatureKind
    station: str | None
    instrument: str | None


def _readings(connection: Connection, sheet_id: int, feature_ids: Sequence[int]) -> list[_Read]:
    sheet = MakingSheets.of(
        connection.execute(select(*MakingSheets.columns()).where(MakingSheets.id == sheet_id)).one()
    )
    query = (
        select(
            Readings.id,
            Readings.feature_id,
            Readings.station_id,
            Readings.typed,
            Readings.unit,
            Readings.value_mm,
            Readings.repeats,
            Readings.instrument_id,
            Readings.temperature_c,
            Readings.taken_at,
            func.coalesce(Readings.how, "").label("how"),
            func.coalesce(Readings.thread, "").label("thread"),
            Readings.read_mm,
            Parts.material,
            Features.unit.label("own_unit"),
            Features.kind,
            Stations.name.label("station"),
            Instruments.name.label("instrument"),
        )
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .outerjoin(Stations, Stations.id == Readings.station_id)
        .outerjoin(Instruments, Instruments.id == Readings.instrument_id)
        .where(Readings.feature_id.in_(feature_ids), Readings.stage == Stage.AS_MADE)
        .order_by(func.coalesce(Stations.position, -1), Readings.id)
    )
    if sheet.progress is MakingProgress.SCRAPPED:
        own = Readings.struck.startswith(scrap_mark(sheet.attempt))
        meanwhile = Readings.struck.is_not(None) & Readings.taken_at.between(
            sheet.started_at, sheet.settled_at
        )
        return [_Read._make(row) for row in connection.execute(query.where(own | meanwhile))]
    query = query.where(Readings.struck.is_(None))
    since, until = _span(connection, sheet)
    if since is not None:
        query = query.where(Readings.taken_at >= since)
    if until is not None:
        query = query.where(Readings.taken_at < until)
    return [_Read._make(row) for row in connection.execute(query)]


def _span(connection: Connection, sheet: MakingSheets) -> tuple[dt.datetime | None, dt.datetime | None]:
    """Between which moments a reading belongs to this attempt, where an accepted one stands beside it."""
    rows = connection.execute(
        select(MakingSheets.attempt, MakingSheets.progress, MakingSheets.started_at).where(
            MakingSheets.part_id == sheet.part_id, MakingSheets.id != sheet.id
        )
    ).all()
    earlier = any(row.attempt < sheet.attempt and row.progress is not MakingProgress.SCRAPPED for row in rows)
    later = [row.started_at for row in rows if row.attempt > sheet.attempt and row.started_at is not None]
    return (sheet.started_at if earlier else None), min(later, default=None)


def _value(row: MakingDimensions, reading: _Read, known: dict[int, InstrumentLimit], rule: Rule) -> MadeValue:
    measured = Measured(
        reading.value_mm,
        reading.typed,
        reading.unit,
        reading.repeats,
        reading.instrument_id,
        reading.temperature_c,
        reading.material,
        reading.kind,
        reading.own_unit,
        reading.how,
        reading.thread,
        reading.read_mm,
    )
    judged = judgement_of(measured, row.low_mm, row.high_mm, known, rule, reading.own_unit)
    size = Size(reading.typed, reading.unit, reading.value_mm)
    words = shown(size, reading.repeats, reading.how, reading.read_mm)
    return MadeValue(
        reading.id,
        reading.station or "",
        words,
        reading.value_mm,
        judged.value.U_mm,
        judged.value.verdict,
        judged.value.sentence,
        reading.instrument or "",
        reading.taken_at,
        judged.working,
    )


def worst(found: Sequence[MadeValue]) -> MadeValue | None:
    """The value that decides a size: one that does not conform, else one undecided, else the first."""
    order = {Verdict.DOES_NOT: 0, Verdict.UNDECIDED: 1, Verdict.CONFORMS: 2, Verdict.NO_SPEC: 3}
    return min(found, key=lambda value: order[value.verdict], default=None)


def places(connection: Connection, sheet_id: int) -> list[tuple[int, int]]:
    """Where as-made values of a sheet land, in its order: (feature, station), station 0 for a whole feature."""
    found: list[tuple[int, int]] = []
    rows = connection.execute(
        select(MakingDimensions.feature_id, Stations.id.label("station_id"))
        .outerjoin(Stations, Stations.feature_id == MakingDimensions.feature_id)
        .where(MakingDimensions.sheet_id == sheet_id, MakingDimensions.feature_id.is_not(None))
        .order_by(MakingDimensions.position, MakingDimensions.id, Stations.position, Stations.id)
    )
    for row in rows:
        key = (row.feature_id, row.station_id or 0)
        if key not in found:
            found.append(key)
    return found
