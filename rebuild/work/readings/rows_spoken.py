"""The reading that speaks for each feature and station of a machine with its verdict, without words or working."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from sqlalchemy import Connection, Executable, Select, case, func, or_, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.limits.verdict import Rule, Verdict, judge_many
from rebuild.words.readings import STAGES
from rebuild.work.readings.quick_budget import Quick, QuickBudget
from rebuild.work.readings.rows_grid_keys import Key
from rebuild.work.readings.rows_judged import Measured

#: The tables the lookups here ask.
READS = frozenset({"feature", "part", "reading"})

#: A stage outweighs every id, so that the largest sum is the newest reading at the latest stage.
_A_STAGE = 1 << 48
#: Of a reading: that with the largest at a feature and station is the one that speaks.
RANK = case({stage: place * _A_STAGE for place, stage in enumerate(STAGES)}, value=Readings.stage, else_=-1)
#: Repeats, and what was read over wires, have a budget with parts of its own.
_NOT_PLAIN = or_(Readings.repeats != 1, Readings.read_mm.is_not(None))


@dataclass(frozen=True, slots=True)
class Spoken:
    """A reading that speaks [mm], the limits it is held against, how it stands, and how many stand at its place."""

    value_mm: float
    low_mm: float | None
    high_mm: float | None
    verdict: Verdict
    standing: int


def spoken(
    connection: Connection, machine_id: int, rule: Rule, limits: dict[int, InstrumentLimit]
) -> dict[Key, Spoken]:
    """By feature and station (0: the feature as a whole); what is not read is left out."""
    found = _judged(connection, machine_id, rule, limits)
    return {
        (row[0], row[1] or 0): Spoken(row[2], low, high, verdict, row[6])
        for row, low, high, verdict in zip(found.rows, found.lows, found.highs, found.verdicts, strict=True)
    }


def verdict_counts(
    connection: Connection, machine_id: int, rule: Rule, limits: dict[int, InstrumentLimit]
) -> tuple[dict[Verdict, int], int]:
    """How often each verdict stands on a machine, as ``spoken`` gives them, and how many readings stand in all."""
    found = _judged(connection, machine_id, rule, limits)
    return Counter(found.verdicts), sum(row[6] for row in found.rows)


class _Judged(NamedTuple):
    """The newest rows of a machine with the limits [mm] and the verdict of each."""

    rows: Sequence[Sequence[Any]]
    lows: list[float | None]
    highs: list[float | None]
    verdicts: list[Verdict]


def _judged(
    connection: Connection, machine_id: int, rule: Rule, limits: dict[int, InstrumentLimit]
) -> _Judged:
    features = {row[0]: tuple(row) for row in connection.execute(_features(machine_id)).all()}
    found: Sequence[Sequence[Any]] = connection.execute(_newest(machine_id)).all()
    taken: dict[int, Sequence[Any]] | None = None
    quick = QuickBudget(limits)
    lows, highs, budgets = [], [], []
    for feature, _, value, instrument, temperature, whole, *_ in found:
        _, material, kind, own, low, high = features[feature]
        lows.append(low)
        highs.append(high)
        if whole is None:
            budgets.append(quick.plain(value, instrument, temperature, material, kind))
            continue
        if taken is None:
            taken = {row[0]: row for row in connection.execute(_taken(machine_id)).all()}
        _, typed, unit, repeats, how, thread, read_mm = taken[whole]
        read = Measured(
            value, typed, unit, repeats, instrument, temperature, material, kind, own, how, thread, read_mm
        )
        budgets.append(quick.of(read))
    return _Judged(found, lows, highs, _verdicts([row[2] for row in found], lows, highs, budgets, rule))


def _verdicts(
    values: list[float],
    lows: list[float | None],
    highs: list[float | None],
    budgets: list[Quick],
    rule: Rule,
) -> list[Verdict]:
    """As ``judge`` says one by one: what an instrument is unfit for stays undecided under any rule."""
    judged = judge_many(
        values,
        lows,
        highs,
        [one.u_mm for one in budgets],
        rule,
        dofs=[one.dof for one in budgets],
        expanded=[one.U_mm for one in budgets],
    )
    return [
        Verdict.UNDECIDED if one.unfit and verdict is not Verdict.NO_SPEC else verdict
        for one, verdict in zip(budgets, judged, strict=True)
    ]


def _features(machine_id: int) -> Executable:
    return (
        select(
            Features.id,
            Parts.material,
            Features.kind,
            Features.unit,
            Features.low_mm,
            Features.high_mm,
        )
        .select_from(Parts)
        .join(Features, Features.part_id == Parts.id)
        .where(Parts.machine_id == machine_id)
    )


def _own(machine_id: int) -> Select[int]:
    return (
        select(Features.id)
        .select_from(Parts)
        .join(Features, Features.part_id == Parts.id)
        .where(Parts.machine_id == machine_id)
    )


def _newest(machine_id: int) -> Executable:
    """One row a feature and station, grouped as the index on both lies, so that nothing is sorted.

    Of a reading that was not typed as one plain value also its id, by which ``_taken`` says how it was.
    SQLite takes the bare columns beside a single ``max`` from the row that has it.
    Source: https://www.sqlite.org/lang_select.html, "Bare columns in an aggregate query".
    """
    return (
        select(
            Readings.feature_id,
            Readings.station_id,
            Readings.value_mm,
            Readings.instrument_id,
            Readings.temperature_c,
            case((_NOT_PLAIN, Readings.id)),
            func.count(),
            func.max(RANK + Readings.id),
        )
        .where(Readings.feature_id.in_(_own(machine_id)), Readings.struck.is_(None))
        .group_by(Readings.feature_id, Readings.station_id)
    )


def _taken(machine_id: int) -> Executable:
    """How the readings that are no plain value were typed and taken: few, so asked only where there are any."""
    return select(
        Readings.id,
        Readings.typed,
        Readings.unit,
        Readings.repeats,
        Readings.how,
        Readings.thread,
        Readings.read_mm,
    ).where(Readings.feature_id.in_(_own(machine_id)), Readings.struck.is_(None), _NOT_PLAIN)
