"""The measurement grid: keys of all rows at once, the rows themselves a page at a time."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, func, select

from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.trade.limits.share import share_beyond
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import Judgement, Rule, Verdict, judge
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.threads.taken import shown
from rebuild.words.decisions import Decision
from rebuild.words.readings import STAGES, FeatureKind, SpecOrigin, Stage
from rebuild.work.readings.rows_grid_keys import Asked as Asked, Key as Key, SortBy as SortBy, keys_query
from rebuild.work.readings.rows_judged import Measured, budget_of
from rebuild.work.readings.rows_spoken import Spoken, spoken

#: The tables the lookups here ask.
READS = frozenset({"feature", "part", "reading", "station", "subassembly", "task"})


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """The reading that speaks at one stage."""

    id: int
    stage: Stage
    typed: str
    unit: str
    value_mm: float
    repeats: int
    instrument_id: int | None
    temperature_c: float | None
    how: str = ""
    thread: str = ""
    read_mm: float | None = None
    taken_at: dt.datetime | None = None

    @property
    def words(self) -> str:
        """As it was typed, or the mean of repeats; of a thread what was read and how, beside the pitch diameter."""
        return shown(Size(self.typed, self.unit, self.value_mm), self.repeats, self.how, self.read_mm)


@dataclass(frozen=True, slots=True)
class GridRow:
    """One feature at one station: spec, the newest reading at each stage, and the verdict on the last."""

    feature_id: int
    station_id: int
    part_id: int
    part_code: str
    part_name: str
    decision: Decision
    feature: str
    kind: FeatureKind
    station: str
    unit: str
    spec_text: str
    spec_origin: SpecOrigin | None
    sense: str
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None
    readings: tuple[ReadingRow | None, ...]
    judgement: Judgement | None
    thread: str = ""
    spec_note: str = ""

    @property
    def key(self) -> Key:
        """The row's key."""
        return (self.feature_id, self.station_id)

    @property
    def speaking(self) -> ReadingRow | None:
        """The newest reading at the latest stage: the one that speaks for the feature."""
        return next((reading for reading in reversed(self.readings) if reading is not None), None)


def keys(connection: Connection, asked: Asked, rule: Rule, limits: dict[int, InstrumentLimit]) -> list[Key]:
    """The keys of every row asked for, in order. A filter by verdict judges the whole machine."""
    found = [(row[0], row[1]) for row in connection.execute(keys_query(connection, asked)).all()]
    if asked.verdicts is None and asked.sort not in _JUDGED:
        return found
    read = spoken(connection, asked.machine_id, rule, limits)
    if asked.verdicts is not None:
        found = [key for key in found if _verdict(read.get(key)) in asked.verdicts]
    if asked.sort in _JUDGED:
        weighed = {key: _badness(read.get(key), asked.sort) for key in found}
        down = not asked.descending
        judged = [key for key in found if weighed[key] is not None]
        judged.sort(key=lambda key: weighed[key] or (), reverse=down)
        found = judged + [key for key in found if weighed[key] is None]
    return found


def _verdict(reading: Spoken | None) -> Verdict:
    return reading.verdict if reading is not None else Verdict.NO_SPEC


_JUDGED = (SortBy.WORST, SortBy.MARGIN)
_ORDER = {Verdict.DOES_NOT: 3, Verdict.UNDECIDED: 2, Verdict.CONFORMS: 1, Verdict.NO_SPEC: 0}


def _badness(reading: Spoken | None, by: SortBy) -> tuple[int, float] | None:
    """By verdict and in each by share of the tolerance, or by that share alone; None stands last either way round."""
    share = share_beyond(reading.value_mm, reading.low_mm, reading.high_mm) if reading is not None else None
    if reading is None or (share is None and by is SortBy.MARGIN):
        return None
    return (0 if by is SortBy.MARGIN else _ORDER[reading.verdict], share or 0.0)


def rows(
    connection: Connection, wanted: Sequence[Key], rule: Rule, limits: dict[int, InstrumentLimit]
) -> list[GridRow]:
    """The rows of some keys, in the order asked; keys that no longer exist are left out."""
    feature_ids = {key[0] for key in wanted}
    features = _features(connection, feature_ids)
    stations = _stations(connection, feature_ids)
    readings = _readings(connection, feature_ids)
    found = []
    for feature_id, station_id in wanted:
        feature = features.get(feature_id)
        if feature is None or (station_id and station_id not in stations):
            continue
        by_stage = readings.get((feature_id, station_id), {})
        found.append(_row(feature, station_id, stations.get(station_id, ""), by_stage, rule, limits))
    return found


def _features(connection: Connection, ids: Collection[int]) -> dict[int, Any]:
    query = (
        select(
            Features.id,
            Features.part_id,
            Features.name,
            Features.kind,
            Features.unit,
            Features.thread,
            Features.spec_text,
            Features.spec_origin,
            Features.spec_note,
            Features.sense,
            Features.nominal_mm,
            Features.low_mm,
            Features.high_mm,
            Parts.code.label("part_code"),
            Parts.name.label("part_name"),
            Parts.decision,
            Parts.material,
        )
        .select_from(Features)
        .join(Parts, Parts.id == Features.part_id)
    )
    return {
        row.id: row
        for chunk in _chunks(ids)
        for row in connection.execute(query.where(Features.id.in_(chunk)))
    }


def _stations(connection: Connection, feature_ids: Collection[int]) -> dict[int, str]:
    query = select(Stations.id, Stations.name)
    return {
        row.id: row.name
        for chunk in _chunks(feature_ids)
        for row in connection.execute(query.where(Stations.feature_id.in_(chunk)))
    }


def _readings(connection: Connection, feature_ids: Collection[int]) -> dict[Key, dict[Stage, ReadingRow]]:
    """The newest standing reading at each stage, by key."""
    query = select(
        Readings.feature_id,
        func.coalesce(Readings.station_id, 0).label("station"),
        Readings.id,
        Readings.stage,
        Readings.typed,
        Readings.unit,
        Readings.value_mm,
        Readings.repeats,
        Readings.instrument_id,
        Readings.temperature_c,
        func.coalesce(Readings.how, ""),
        func.coalesce(Readings.thread, ""),
        Readings.read_mm,
        Readings.taken_at,
    ).order_by(Readings.id)
    found: dict[Key, dict[Stage, ReadingRow]] = {}
    for chunk in _chunks(feature_ids):
        for row in connection.execute(query.where(Readings.feature_id.in_(chunk), Readings.struck.is_(None))):
            by_stage = found.setdefault((row.feature_id, row.station), {})
            by_stage[row.stage] = ReadingRow(*tuple(row)[2:])
    return found


def keys_of_readings(connection: Connection, reading_ids: Collection[int]) -> set[Key]:
    """The rows some readings stand in; ids that are gone are left out."""
    query = select(Readings.feature_id, func.coalesce(Readings.station_id, 0))
    return {
        (row[0], row[1] or 0)
        for chunk in _chunks(reading_ids)
        for row in connection.execute(query.where(Readings.id.in_(chunk)))
    }


def _chunks(ids: Collection[int], size: int = 900) -> list[list[int]]:
    listed = list(ids)
    return [listed[start : start + size] for start in range(0, len(listed), size)]


def _row(
    feature: Any,
    station_id: int,
    station: str,
    by_stage: dict[Stage, ReadingRow],
    rule: Rule,
    limits: dict[int, InstrumentLimit],
) -> GridRow:
    readings = tuple(by_stage.get(stage) for stage in STAGES)
    speaking = next((reading for reading in reversed(readings) if reading is not None), None)
    judgement = None
    if speaking is not None and (feature.low_mm is not None or feature.high_mm is not None):
        measured = Measured(
            speaking.value_mm,
            speaking.typed,
            speaking.unit,
            speaking.repeats,
            speaking.instrument_id,
            speaking.temperature_c,
            feature.material,
            feature.kind,
            feature.unit,
            speaking.how,
            speaking.thread,
            speaking.read_mm,
        )
        judgement = judge(
            speaking.value_mm,
            feature.low_mm,
            feature.high_mm,
            budget_of(measured, limits).value,
            rule,
            unit=feature.unit,
        ).value
    return GridRow(
        feature.id,
        station_id,
        feature.part_id,
        feature.part_code,
        feature.part_name,
        feature.decision,
        feature.name,
        feature.kind,
        station,
        feature.unit,
        feature.spec_text,
        feature.spec_origin,
        feature.sense,
        feature.nominal_mm,
        feature.low_mm,
        feature.high_mm,
        readings,
        judgement,
        feature.thread,
        feature.spec_note,
    )
