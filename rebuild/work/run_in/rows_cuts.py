"""Cut tests as rows: what a piece found, its verdict, and what to adjust."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.run_in import CutTests
from rebuild.store.settings_and_kept import settings
from rebuild.trade.charts.entry import SignWords
from rebuild.trade.charts.geometry_tests import limit_text
from rebuild.trade.charts.limit import Allowed, judge_deviation
from rebuild.trade.limits.component import Component
from rebuild.trade.limits.judgement import Judgement, Rule
from rebuild.trade.limits.uncertainty import SUM, Budget, InstrumentLimit, combine, reading_budget
from rebuild.trade.results.working import Worked, Working, joined
from rebuild.trade.run_in.cut_tests import CutFinding, facing, two_collars
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.words.charts import ChartStage, LimitLength, LimitSign, LimitStatus
from rebuild.words.machines import MachineKind
from rebuild.words.run_in import CutKind
from rebuild.work.readings.rows_judged import instrument_limits

#: The tables the lookups here ask.
READS = frozenset({"cut_test", "instrument", "machine", "setting"})


@dataclass(frozen=True, slots=True)
class BedSizes:
    """What the twist of a bed is worked out with, as typed: height of centres, feet across and along."""

    height: str = ""
    feet_apart: str = ""
    feet_along: str = ""


def bed_key(machine_id: int) -> str:
    """The setting that holds a machine's bed sizes."""
    return f"bed sizes of machine {machine_id}"


def bed_sizes(connection: Connection, machine_id: int) -> BedSizes:
    """The bed sizes typed for a machine; empty ones are not known."""
    parts = [part.strip() for part in settings(connection).get(bed_key(machine_id), "").split(";")]
    height, apart, along = (*parts, "", "", "")[:3]
    return BedSizes(height, apart, along)


def kind_of(connection: Connection, machine_id: int) -> MachineKind:
    """What kind of machine it is."""
    return MachineKind(
        connection.scalar(select(Machines.kind).where(Machines.id == machine_id)) or MachineKind.OTHER
    )


@dataclass(frozen=True, slots=True)
class CutRow:
    """A cut test with what it found; ``judgement`` is None where no limit is given."""

    id: int
    kind: CutKind
    stage: ChartStage
    unit: str
    taken_at: dt.datetime
    adjusted: str
    note: str
    instrument: str
    allowed: str
    origin: str
    found: CutFinding
    judgement: Judgement | None
    working: Working


def cut_tests(connection: Connection, machine_id: int, rule: Rule) -> list[CutRow]:
    """The cut tests of a machine, newest first."""
    limits = instrument_limits(connection)
    unit = connection.scalar(select(Machines.unit).where(Machines.id == machine_id)) or "mm"
    sizes = bed_sizes(connection, machine_id)
    bed = [_mm(text, unit) for text in (sizes.height, sizes.feet_apart, sizes.feet_along)]
    rows = connection.execute(
        select(*CutTests.columns())
        .where(CutTests.machine_id == machine_id)
        .order_by(CutTests.taken_at.desc(), CutTests.id.desc())
    ).all()
    found = []
    for row in rows:
        piece = (
            facing(row.first_mm, row.apart_mm, unit=row.unit)
            if row.kind is CutKind.FACING
            else two_collars(
                row.first_mm,
                row.second_mm,
                row.apart_mm,
                unit=row.unit,
                centre_height_mm=bed[0],
                feet_apart_mm=bed[1],
                bed_length_mm=bed[2],
            )
        )
        limit = Allowed(
            row.allowed_mm,
            row.allowed_over_mm,
            LimitLength.PROPORTION,
            row.allowed_origin,
            LimitStatus(row.allowed_status),
            limit_text(_size(row, "allowed"), _size(row, "allowed_over")),
        )
        instrument = limits.get(row.instrument_id) if row.instrument_id is not None else None
        judged = _judged(
            row.kind, piece.value, limit, instrument, (row.first_mm, row.second_mm), rule, row.unit
        )
        found.append(
            CutRow(
                row.id,
                row.kind,
                ChartStage(row.stage),
                row.unit,
                row.taken_at,
                row.adjusted,
                row.note,
                instrument.name if instrument else "",
                limit.text,
                row.allowed_origin,
                piece.value,
                judged.value if judged else None,
                joined(piece.working.title, (piece.working, *([judged.working] if judged else []))),
            )
        )
    return found


def _mm(text: str, unit: str) -> float | None:
    try:
        return parse_length(text, unit).mm if text else None
    except BadEntry:
        return None


def _size(row: object, stem: str) -> Size | None:
    mm = getattr(row, f"{stem}_mm")
    return None if mm is None else Size(getattr(row, f"{stem}_text"), getattr(row, f"{stem}_unit"), mm)


def _judged(
    kind: CutKind,
    found: CutFinding,
    limit: Allowed,
    instrument: InstrumentLimit | None,
    sizes: tuple[float | None, float | None],
    rule: Rule,
    unit: str,
) -> Worked[Judgement] | None:
    if limit.allowed_mm is None:
        return None
    words = SignWords(LimitSign.EITHER, "larger at the free end", "smaller at the free end")
    if kind is CutKind.FACING:
        words = SignWords(LimitSign.PLUS_ONLY, "hollow", "proud in the middle")
    budget = _difference(instrument, sizes) if kind is CutKind.TWO_COLLAR else None
    if budget is None and instrument is not None:
        budget = reading_budget(instrument, length_mm=abs(found.error_mm))
    return judge_deviation(found.error_mm, limit, words, found.over_mm, budget, rule, unit)


def _difference(
    instrument: InstrumentLimit | None, sizes: tuple[float | None, float | None]
) -> Worked[Budget] | None:
    """The uncertainty of the difference of two diameters read with one instrument, taken as independent."""
    if instrument is None:
        return None
    each = [
        reading_budget(instrument, length_mm=abs(size or 0.0), temperature_C=20.0).value for size in sizes
    ]
    parts = [
        Component(f"collar {at}", budget.u_mm, budget.dof, "standard uncertainty of one reading", SUM)
        for at, budget in enumerate(each, start=1)
    ]
    return combine(parts, complete=all(budget.complete for budget in each))
