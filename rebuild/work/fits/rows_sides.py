"""The two sides of fits: what each feature is, which readings speak for it, and whether they are final."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import NamedTuple

from sqlalchemy import Connection, func, select, union

from rebuild.model.tables.features import Features, Stations
from rebuild.model.tables.fits import Fits
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.threads.taken import shown
from rebuild.words.decisions import Decision
from rebuild.words.fits import Side
from rebuild.words.readings import STAGES, FeatureKind, Stage
from rebuild.work.readings.rows_judged import Measured, budget_of
from rebuild.work.records.field import show_day

#: The tables the lookups here ask.
READS = frozenset({"feature", "fit", "part", "reading", "station"})

#: Which stages can speak for a part that is to be remade or bought, and for one that is to be reworked.
_NEW = (Stage.AS_MADE, Stage.FITTED)
_REWORKED = (Stage.REWORKED, *_NEW)
_WAITS_FOR = {
    Decision.REMAKE: (_NEW, "is to be remade", Stage.AS_MADE),
    Decision.BUY: (_NEW, "is to be bought", Stage.AS_MADE),
    Decision.REWORK: (_REWORKED, "is to be reworked", Stage.REWORKED),
}


@dataclass(frozen=True, slots=True)
class Wait:
    """What a side waits for: a decision, or a measurement of a feature at a stage."""

    part_id: int
    feature_id: int
    title: str
    stage: Stage | None
    sentence: str


@dataclass(frozen=True, slots=True)
class SideRow:
    """One side of a fit. ``readings`` speak now (at ``stages``), ``found`` as found; ``wait`` is None when final."""

    side: Side
    feature_id: int
    feature: str
    feature_kind: FeatureKind
    thread: str
    unit: str
    spec_text: str
    nominal_mm: float | None
    part_id: int
    part_code: str
    part_name: str
    material: str
    decision: Decision
    stage: Stage | None
    readings: tuple[SideReading, ...]
    found: tuple[SideReading, ...]
    newest: tuple[str, int]
    wait: Wait | None
    stages: tuple[Stage, ...] = ()

    @property
    def part(self) -> str:
        """``AP-11 shaft``."""
        return f"{self.part_code} {self.part_name}".strip()

    @property
    def title(self) -> str:
        """``AP-11 shaft, journal A``."""
        return f"{self.part}, {self.feature}"

    @property
    def stages_said(self) -> str:
        """At which stages its stations are read: ``as found``; of a mix ``1 cleaned, 4 as found``."""
        counted = Counter(self.stages)
        order = sorted(counted, key=STAGES.index, reverse=True)
        if len(order) < 2:
            return "".join(stage.value for stage in order)
        return ", ".join(f"{counted[stage]} {stage.value}" for stage in order)

    @property
    def final(self) -> bool:
        """Whether what is known of it will stand."""
        return self.wait is None


class _Read(NamedTuple):
    """What ``_READINGS`` asks for, in its order; station 0 is the feature as a whole."""

    id: int
    feature_id: int
    station_id: int
    stage: Stage
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
    station: str
    at_mm: float | None


class _Feature(NamedTuple):
    """What ``_FEATURES`` asks for, in its order."""

    id: int
    name: str
    kind: FeatureKind
    thread: str
    unit: str
    spec_text: str
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None
    part_id: int
    part_code: str
    part_name: str
    material: str
    decision: Decision
    machine_id: int


class BriefSide(NamedTuple):
    """One side as far as the work hangs on it: the readings that speak, not yet in words nor with a budget."""

    about: _Feature
    speaking: list[_Read]
    wait: Wait | None

    @property
    def part(self) -> str:
        """As of ``SideRow``."""
        return f"{self.about.part_code} {self.about.part_name}".strip()

    @property
    def title(self) -> str:
        """As of ``SideRow``."""
        return f"{self.part}, {self.about.name}"


@dataclass(frozen=True, slots=True)
class Ground:
    """Features and readings of several fits, read at once."""

    features: dict[int, _Feature]
    readings: dict[int, list[_Read]]
    limits: dict[int, InstrumentLimit]


def ground(
    connection: Connection, feature_ids: Collection[int], limits: dict[int, InstrumentLimit]
) -> Ground:
    """Read what sides need, in a few queries."""
    features: dict[int, _Feature] = {}
    readings: dict[int, list[_Read]] = {}
    for chunk in chunks(feature_ids):
        for feature in map(_Feature._make, connection.execute(_FEATURES.where(Features.id.in_(chunk)))):
            features[feature.id] = feature
        for read in map(_Read._make, connection.execute(_READINGS.where(Readings.feature_id.in_(chunk)))):
            readings.setdefault(read.feature_id, []).append(read)
    return Ground(features, readings, limits)


def ground_of_machine(connection: Connection, machine_id: int, limits: dict[int, InstrumentLimit]) -> Ground:
    """What the sides of every fit of a machine need, in two statements however many there are."""
    own = [
        select(side).where(Fits.machine_id == machine_id, side.is_not(None))
        for side in (Fits.outer_id, Fits.inner_id, Fits.gap_id, Fits.later_id)
    ]
    touched = union(*own)
    features = map(_Feature._make, connection.execute(_FEATURES.where(Features.id.in_(touched))).all())
    readings: dict[int, list[_Read]] = {}
    for read in map(_Read._make, connection.execute(_READINGS.where(Readings.feature_id.in_(touched))).all()):
        readings.setdefault(read.feature_id, []).append(read)
    return Ground({feature.id: feature for feature in features}, readings, limits)


_FEATURES = select(
    Features.id, Features.name, Features.kind, Features.thread, Features.unit, Features.spec_text, Features.nominal_mm,
    Features.low_mm, Features.high_mm, Parts.id.label("part_id"), Parts.code.label("part_code"),
    Parts.name.label("part_name"), Parts.material, Parts.decision, Parts.machine_id,
).join(Parts, Parts.id == Features.part_id)  # fmt: skip

_READINGS = (
    select(
        Readings.id, Readings.feature_id, func.coalesce(Readings.station_id, 0).label("station_id"), Readings.stage,
        Readings.typed, Readings.unit, Readings.value_mm, Readings.repeats, Readings.instrument_id,
        Readings.temperature_c, Readings.taken_at, func.coalesce(Readings.how, "").label("how"),
        func.coalesce(Readings.thread, "").label("thread"), Readings.read_mm,
        func.coalesce(Stations.name, "").label("station"), Stations.at_mm,
    )
    .outerjoin(Stations, Stations.id == Readings.station_id)
    .where(Readings.struck.is_(None))
    .order_by(func.coalesce(Stations.position, -1), Readings.id)
)  # fmt: skip


def chunks(ids: Iterable[int], size: int = 900) -> list[list[int]]:
    """Ids in lists short enough for one statement."""
    listed = list(dict.fromkeys(ids))
    return [listed[start : start + size] for start in range(0, len(listed), size)]


def brief_side(
    base: Ground,
    feature_id: int,
    *,
    station_id: int | None = None,
    stage: Stage | None = None,
    is_master: bool = False,
) -> BriefSide | None:
    """One side in brief, or None when the feature is gone; the arguments are those of ``side_of``."""
    feature = base.features.get(feature_id)
    if feature is None:
        return None
    speaking = _speaking(
        [
            read
            for read in base.readings.get(feature_id, ())
            if station_id in (None, read.station_id) and stage in (None, read.stage)
        ]
    )
    return BriefSide(feature, speaking, _wait(feature, speaking, stage, is_master))


def side_of(
    base: Ground,
    side: Side,
    feature_id: int,
    *,
    station_id: int | None = None,
    stage: Stage | None = None,
    is_master: bool = False,
) -> SideRow | None:
    """One side, or None when the feature is gone.

    Args:
        station_id: only readings at this station count.
        stage: only readings of this stage count, and they are taken as final.
        is_master: a master nobody has decided on is taken to stay as it is, and one on a part that is to be
            reworked too, as long as it is within its own limits: the rework is elsewhere.
    """
    feature = base.features.get(feature_id)
    if feature is None:
        return None
    every = [read for read in base.readings.get(feature_id, ()) if station_id in (None, read.station_id)]
    speaking = _speaking([read for read in every if stage in (None, read.stage)])
    found = _as_found(every)
    last = max((read.stage for read in speaking), key=STAGES.index, default=None)
    newest = max(((read.taken_at.isoformat(), read.id) for read in speaking), default=("", 0))
    said = {
        read.id: _reading(read, feature, base.limits)
        for read in {r.id: r for r in (*speaking, *found)}.values()
    }
    return SideRow(
        side,
        feature.id,
        feature.name,
        feature.kind,
        feature.thread,
        feature.unit,
        feature.spec_text,
        feature.nominal_mm,
        feature.part_id,
        feature.part_code,
        feature.part_name,
        feature.material,
        feature.decision,
        last,
        tuple(said[read.id] for read in speaking),
        tuple(said[read.id] for read in found),
        newest,
        _wait(feature, speaking, stage, is_master),
        tuple(read.stage for read in speaking),
    )


def _speaking(readings: list[_Read]) -> list[_Read]:
    """At each station the newest reading of the latest stage; once it is made anew, the old piece is silent."""
    if len(readings) < 2:
        return readings
    if any(read.stage is Stage.AS_MADE for read in readings):
        readings = [read for read in readings if read.stage in _NEW]
    return _latest_by_station(readings, earliest=False)


def _as_found(readings: list[_Read]) -> list[_Read]:
    """At each station the newest reading of its earliest stage, of the old piece."""
    return _latest_by_station([read for read in readings if read.stage not in _NEW], earliest=True)


def _latest_by_station(readings: list[_Read], *, earliest: bool) -> list[_Read]:
    best: dict[int, _Read] = {}
    for read in readings:
        held = best.get(read.station_id)
        order = 1 if held is None else STAGES.index(read.stage) - STAGES.index(held.stage)
        if held is None or (order < 0 if earliest else order > 0) or (order == 0 and _later(read, held)):
            best[read.station_id] = read
    if any(key and _after(read, best[0]) for key, read in best.items() if 0 in best):
        del best[0]
    return list(best.values())


def _after(read: _Read, whole: _Read) -> bool:
    """Whether a station was read after the feature as a whole, which then no longer speaks."""
    return (STAGES.index(read.stage), read.id) > (STAGES.index(whole.stage), whole.id)


def _later(read: _Read, held: _Read) -> bool:
    return read.id > held.id


def _reading(read: _Read, feature: _Feature, limits: dict[int, InstrumentLimit]) -> SideReading:
    measured = Measured(
        read.value_mm,
        read.typed,
        read.unit,
        read.repeats,
        read.instrument_id,
        read.temperature_c,
        feature.material,
        feature.kind,
        feature.unit,
        read.how,
        read.thread,
        read.read_mm,
    )
    return SideReading(
        read.station,
        read.at_mm,
        read.value_mm,
        budget_of(measured, limits).value,
        shown(Size(read.typed, read.unit, read.value_mm), read.repeats, read.how, read.read_mm),
        f"{read.stage.value}, {show_day(read.taken_at)}",
        read.id,
        read.how,
    )


def _outside(feature: _Feature, speaking: list[_Read]) -> bool:
    """Whether a feature itself is out of its limits: what is reworked on its part is then likely this."""
    low, high = feature.low_mm, feature.high_mm
    values = [read.value_mm for read in speaking]
    return (low is not None and min(values) < low) or (high is not None and max(values) > high)


def _wait(feature: _Feature, speaking: list[_Read], stage: Stage | None, is_master: bool) -> Wait | None:
    title = f"{feature.part_code} {feature.part_name}, {feature.name}".strip()

    def waits(sentence: str, at: Stage | None) -> Wait:
        return Wait(feature.part_id, feature.id, title, at, f"{title} {sentence}")

    if stage is not None:
        return None if speaking else waits(f"has no reading {stage.value} yet", stage)
    if feature.decision in _WAITS_FOR:
        stages, words, wanted = _WAITS_FOR[feature.decision]
        if any(read.stage in stages for read in speaking):
            return None
        if feature.decision is Decision.REWORK and is_master and speaking and not _outside(feature, speaking):
            return None
        return waits(f"{words} and is not measured {wanted.value} yet", wanted)
    if not speaking:
        return waits("has no reading yet", Stage.CLEANED)
    made = any(read.stage in _NEW for read in speaking)
    if feature.decision is Decision.DEFER or (
        feature.decision is Decision.OPEN and not is_master and not made
    ):
        word = "is deferred" if feature.decision is Decision.DEFER else "is still to be decided"
        return waits(word, None)
    return None
