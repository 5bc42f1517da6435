"""Every reading of a machine for its book, by feature and station, with the verdict on the one that speaks."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Instruments, Readings
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import Judgement, Rule
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_length, show_typed
from rebuild.trade.threads.taken import shown
from rebuild.words.readings import FeatureKind, InstrumentKind, SpecOrigin, Stage
from rebuild.work.readings import rows_grid as grid
from rebuild.work.readings.rows_grid import Key

#: The tables the lookups here ask.
READS = frozenset({"feature", "instrument", "part", "reading", "station", "subassembly", "task"})


@dataclass(frozen=True, slots=True)
class ReadLine:
    """One reading; ``speaks`` when it is the one that counts; ``struck`` says why it does not."""

    stage: Stage
    words: str
    value_mm: float
    instrument: str
    temperature_c: float | None
    taken_at: dt.datetime
    by: str
    note: str
    struck: str
    speaks: bool


@dataclass(frozen=True, slots=True)
class FeatureLine:
    """One feature at one station with all its readings, oldest first."""

    part_id: int
    feature_id: int
    feature: str
    station: str
    kind: FeatureKind
    unit: str
    spec: str
    origin: SpecOrigin | None
    sense: str
    judgement: Judgement | None
    readings: tuple[ReadLine, ...]

    @property
    def title(self) -> str:
        """``front journal, near``."""
        return f"{self.feature}, {self.station}" if self.station else self.feature

    @property
    def found_and_now(self) -> tuple[ReadLine, ReadLine] | None:
        """The first reading as found and the one that speaks, where it was read again since."""
        found = next((one for one in self.readings if one.stage is Stage.AS_FOUND and not one.struck), None)
        now = next((one for one in self.readings if one.speaks), None)
        return None if found is None or now is None or now is found else (found, now)


@dataclass(frozen=True, slots=True)
class InstrumentLine:
    """An instrument readings of this file were taken with."""

    name: str
    kind: InstrumentKind
    resolution: str
    limit: str
    source: str
    calibrated_on: dt.datetime | None


def feature_lines(
    connection: Connection, machine_id: int, rule: Rule, limits: dict[int, InstrumentLimit]
) -> tuple[FeatureLine, ...]:
    """The features of a machine in tree order; features without a reading are kept, with their spec."""
    keys = grid.keys(connection, grid.Asked(machine_id), rule, limits)
    rows = grid.rows(connection, keys, rule, limits)
    speaking = {row.speaking.id for row in rows if row.speaking is not None}
    readings = _readings(connection, machine_id, speaking)
    return tuple(
        FeatureLine(
            row.part_id,
            row.feature_id,
            row.feature,
            row.station,
            row.kind,
            row.unit,
            row.spec_text,
            row.spec_origin,
            row.sense,
            row.judgement,
            tuple(readings.get(row.key, ())),
        )
        for row in rows
    )


def _readings(connection: Connection, machine_id: int, speaking: set[int]) -> dict[Key, list[ReadLine]]:
    rows = connection.execute(
        select(
            Readings.id,
            Readings.feature_id,
            func.coalesce(Readings.station_id, 0).label("station"),
            Readings.stage,
            Readings.typed,
            Readings.unit,
            Readings.value_mm,
            Readings.repeats,
            Readings.how,
            Readings.read_mm,
            Instruments.name.label("instrument"),
            Readings.temperature_c,
            Readings.taken_at,
            Readings.taken_by,
            Readings.note,
            Readings.struck,
        )
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .outerjoin(Instruments, Instruments.id == Readings.instrument_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Readings.taken_at, Readings.id)
    )
    found: dict[Key, list[ReadLine]] = {}
    for row in rows:
        found.setdefault((row.feature_id, row.station), []).append(
            ReadLine(
                row.stage,
                _words(row.typed, row.unit, row.value_mm, row.repeats, row.how or "", row.read_mm),
                row.value_mm,
                row.instrument or "",
                row.temperature_c,
                row.taken_at,
                row.taken_by,
                row.note,
                row.struck or "",
                row.id in speaking,
            )
        )
    return found


def _words(typed: str, unit: str, value_mm: float, repeats: int, how: str, read_mm: float | None) -> str:
    """As typed; of repeats the mean, with what was typed; of a thread what was read and how."""
    if repeats > 1 and read_mm is None:
        return f"{show_length(value_mm, unit)} (mean of {typed})" + (f" {how}" if how else "")
    return shown(Size(typed, unit, value_mm), repeats, how, read_mm)


def instruments_used(connection: Connection, machine_id: int) -> tuple[InstrumentLine, ...]:
    """The instruments that readings of a machine name, with how far each can be trusted."""
    used = (
        select(Readings.instrument_id)
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .where(Parts.machine_id == machine_id, Readings.instrument_id.is_not(None))
    )
    rows = connection.execute(
        select(*Instruments.columns())
        .where(Instruments.id.in_(used))
        .order_by(Instruments.position, Instruments.id)
    )
    return tuple(
        InstrumentLine(
            row.name,
            InstrumentKind(row.kind),
            _shown(row, "resolution"),
            _limit(row),
            row.limit_source,
            row.calibrated_on,
        )
        for row in map(Instruments.of, rows)
    )


def _limit(row: Instruments) -> str:
    """``± 4 µm`` for an error limit, ``U 0.0016 mm, k = 2`` for a stated uncertainty."""
    if row.uncertainty_mm is not None:
        return f"U {_shown(row, 'uncertainty')}, k = {row.coverage_k:g}"
    return f"± {_shown(row, 'mpe')}" if row.mpe_mm is not None else ""


def _shown(row: Instruments, stem: str) -> str:
    """A length of an instrument as typed, or in mm where only that is stored."""
    text, unit, mm = (getattr(row, f"{stem}_{tail}") for tail in ("text", "unit", "mm"))
    if mm is None:
        return ""
    return show_length(mm, "mm") if text is None else show_typed(Size(text, unit, mm), unit)
