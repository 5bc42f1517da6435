"""The level over days: series since the last adjustment, whether the bed has settled, and its twist."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry
from rebuild.model.tables.charts import LevelReadings
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.readings import Instruments
from rebuild.trade.charts.lying import Lying, lying
from rebuild.trade.charts.settling import Rest, Settling, Twist, settling, twist_of_ends
from rebuild.trade.results.working import Worked
from rebuild.words.charts import LevelWay
from rebuild.words.machines import MachineKind

#: The tables the lookups here ask.
READS = frozenset({"instrument", "level_reading", "machine"})


@dataclass(frozen=True, slots=True)
class LevelRow:
    """One reading of the level."""

    id: int
    place: str
    at_mm: float | None
    way: LevelWay
    typed: str
    slope_um_per_m: float
    taken_at: dt.datetime
    instrument: str
    temperature_c: float | None
    adjusted: str
    note: str
    at_typed: str
    division: str


@dataclass(frozen=True, slots=True)
class Series:
    """The readings of one place and way in order; ``settled`` is judged on those since the last adjustment."""

    place: str
    way: LevelWay
    rows: tuple[LevelRow, ...]
    since: dt.datetime | None
    settled: Worked[Settling]

    @property
    def called(self) -> str:
        """``across, tailstock end``."""
        return f"{self.way.value}, {self.place}"

    @property
    def current(self) -> tuple[LevelRow, ...]:
        """The readings since the last adjustment of the bed."""
        return tuple(row for row in self.rows if self.since is None or row.taken_at > self.since)


@dataclass(frozen=True, slots=True)
class Levelling:
    """Everything about the level of one machine; ``twist_trouble`` says what is missing for the twist."""

    unit: str
    rows: tuple[LevelRow, ...]
    series: tuple[Series, ...]
    twist: Worked[Twist] | None
    twist_trouble: str
    lying: Lying

    @property
    def worst(self) -> Settling | None:
        """The series that moves most, or None before there is one that can be judged."""
        judged = [one.settled.value for one in self.series if one.settled.value.rest is not Rest.TOO_FEW]
        return max(judged, key=lambda one: (one.rest is Rest.MOVING, abs(one.moved)), default=None)


def levelling(connection: Connection, machine_id: int) -> Levelling:
    """The level readings of a machine, judged."""
    machine = connection.execute(
        select(Machines.unit, Machines.kind).where(Machines.id == machine_id)
    ).first()
    unit, kind = (machine.unit, machine.kind) if machine is not None else ("mm", MachineKind.OTHER)
    rows = _rows(connection, machine_id)
    since = max((row.taken_at for row in rows if row.adjusted), default=None)
    groups: dict[tuple[LevelWay, str], list[LevelRow]] = {}
    for row in rows:
        groups.setdefault((row.way, row.place), []).append(row)
    series = tuple(_series(place, way, tuple(group), since, unit) for (way, place), group in groups.items())
    twist, trouble = _twist(series, unit)
    return Levelling(unit, rows, series, twist, trouble, lying(kind))


def _rows(connection: Connection, machine_id: int) -> tuple[LevelRow, ...]:
    found = connection.execute(
        select(*LevelReadings.columns(), Instruments.name)
        .outerjoin(Instruments, Instruments.id == LevelReadings.instrument_id)
        .where(LevelReadings.machine_id == machine_id)
        .order_by(LevelReadings.taken_at, LevelReadings.id)
    )
    return tuple(
        LevelRow(
            row.id,
            row.place,
            row.at_mm,
            LevelWay(row.way),
            row.typed,
            row.slope_um_per_m,
            row.taken_at,
            row.name or "",
            row.temperature_c,
            row.adjusted,
            row.note,
            _typed(row.at_text, row.at_unit),
            row.division,
        )
        for row in found
    )


def _typed(text: str | None, unit: str | None) -> str:
    return f"{text} {unit}" if text and text[-1:].isdigit() else text or ""


def _series(
    place: str, way: LevelWay, rows: tuple[LevelRow, ...], since: dt.datetime | None, unit: str
) -> Series:
    now = [row for row in rows if since is None or row.taken_at > since]
    days = [(row.taken_at - now[0].taken_at).total_seconds() / 86_400 for row in now]
    return Series(place, way, rows, since, settling(days, [row.slope_um_per_m for row in now], unit=unit))


def _twist(series: tuple[Series, ...], unit: str) -> tuple[Worked[Twist] | None, str]:
    """From the newest cross-level reading at each place since the last adjustment."""
    ends = [
        (one.place, one.current[-1].at_mm, one.current[-1].slope_um_per_m)
        for one in series
        if one.way is LevelWay.ACROSS and one.current
    ]
    try:
        return twist_of_ends(ends, unit), ""
    except BadEntry as trouble:
        return None, str(trouble)
