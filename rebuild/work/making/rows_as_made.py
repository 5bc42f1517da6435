"""The as-made values of a making sheet: readings of its features at that stage, judged by the sheet's limits."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, func, select

from rebuild.model.all import Feature, Instrument, MakingDimension, MakingSheet, Part, Reading, Station
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.results.working import Working
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_length, show_typed
from rebuild.words.making import MakingProgress
from rebuild.words.readings import Stage
from rebuild.work.readings.rows_judged import Measured, instrument_limits, judgement_of


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
    dimensions = connection.execute(
        select(MakingDimension).where(
            MakingDimension.sheet_id == sheet_id, MakingDimension.feature_id.is_not(None)
        )
    ).all()
    readings = _readings(connection, sheet_id, [row.feature_id for row in dimensions])
    found: dict[int, tuple[MadeValue, ...]] = {}
    for row in dimensions:
        newest: dict[int, Any] = {}
        for reading in readings:
            if reading.feature_id == row.feature_id:
                newest[reading.station_id or 0] = reading
        found[row.id] = tuple(_value(row, reading, known, rule) for reading in newest.values())
    return found


def _readings(connection: Connection, sheet_id: int, feature_ids: Sequence[int]) -> list[Any]:
    sheet = connection.execute(select(MakingSheet).where(MakingSheet.id == sheet_id)).one()
    query = (
        select(
            Reading.id, Reading.feature_id, Reading.station_id, Reading.typed, Reading.unit, Reading.value_mm,
            Reading.repeats, Reading.instrument_id, Reading.temperature_c, Reading.taken_at, Part.material,
            Feature.unit.label("own_unit"), Station.name.label("station"), Instrument.name.label("instrument"),
        )
        .join(Feature, Feature.id == Reading.feature_id)
        .join(Part, Part.id == Feature.part_id)
        .outerjoin(Station, Station.id == Reading.station_id)
        .outerjoin(Instrument, Instrument.id == Reading.instrument_id)
        .where(Reading.feature_id.in_(feature_ids), Reading.stage == Stage.AS_MADE)
        .order_by(func.coalesce(Station.position, -1), Reading.id)
    )  # fmt: skip
    if sheet.progress is MakingProgress.SCRAPPED:
        own = Reading.struck.startswith(scrap_mark(sheet.attempt))
        meanwhile = Reading.struck.is_not(None) & Reading.taken_at.between(sheet.started_at, sheet.settled_at)
        return list(connection.execute(query.where(own | meanwhile)))
    query = query.where(Reading.struck.is_(None))
    since, until = _span(connection, sheet)
    if since is not None:
        query = query.where(Reading.taken_at >= since)
    if until is not None:
        query = query.where(Reading.taken_at < until)
    return list(connection.execute(query))


def _span(connection: Connection, sheet: Any) -> tuple[dt.datetime | None, dt.datetime | None]:
    """Between which moments a reading belongs to this attempt, where an accepted one stands beside it."""
    rows = connection.execute(
        select(MakingSheet.attempt, MakingSheet.progress, MakingSheet.started_at).where(
            MakingSheet.part_id == sheet.part_id, MakingSheet.id != sheet.id
        )
    ).all()
    earlier = any(row.attempt < sheet.attempt and row.progress is not MakingProgress.SCRAPPED for row in rows)
    later = [row.started_at for row in rows if row.attempt > sheet.attempt and row.started_at is not None]
    return (sheet.started_at if earlier else None), min(later, default=None)


def _value(row: Any, reading: Any, known: dict[int, InstrumentLimit], rule: Rule) -> MadeValue:
    measured = Measured(
        reading.value_mm, reading.typed, reading.unit, reading.repeats, reading.instrument_id,
        reading.temperature_c, reading.material,
    )  # fmt: skip
    judged = judgement_of(measured, row.low_mm, row.high_mm, known, rule, reading.own_unit)
    words = (
        f"{show_length(reading.value_mm, reading.unit)} (mean of {reading.repeats})"
        if reading.repeats > 1
        else show_typed(Size(reading.typed, reading.unit, reading.value_mm), reading.unit)
    )
    return MadeValue(
        reading.id, reading.station or "", words, reading.value_mm, judged.value.U_mm, judged.value.verdict,
        judged.value.sentence, reading.instrument or "", reading.taken_at, judged.working,
    )  # fmt: skip


def worst(found: Sequence[MadeValue]) -> MadeValue | None:
    """The value that decides a size: one that does not conform, else one undecided, else the first."""
    order = {Verdict.DOES_NOT: 0, Verdict.UNDECIDED: 1, Verdict.CONFORMS: 2, Verdict.NO_SPEC: 3}
    return min(found, key=lambda value: order[value.verdict], default=None)


def places(connection: Connection, sheet_id: int) -> list[tuple[int, int]]:
    """Where as-made values of a sheet land, in its order: (feature, station), station 0 for a whole feature."""
    found: list[tuple[int, int]] = []
    rows = connection.execute(
        select(MakingDimension.feature_id, Station.id.label("station_id"))
        .outerjoin(Station, Station.feature_id == MakingDimension.feature_id)
        .where(MakingDimension.sheet_id == sheet_id, MakingDimension.feature_id.is_not(None))
        .order_by(MakingDimension.position, MakingDimension.id, Station.position, Station.id)
    )
    for row in rows:
        key = (row.feature_id, row.station_id or 0)
        if key not in found:
            found.append(key)
    return found
