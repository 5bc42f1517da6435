"""From a stored reading to its uncertainty and verdict, for grids (fast) and for the working pane (whole)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry
from rebuild.model.tables.readings import Instruments
from rebuild.trade.limits.reach import cannot
from rebuild.trade.limits.uncertainty import Budget, Component, InstrumentLimit, combine, reading_budget
from rebuild.trade.limits.verdict import Judgement, Rule, judge
from rebuild.trade.results.working import Source, Status, Worked, joined
from rebuild.trade.shop.materials import find_material
from rebuild.trade.sizes.reread import repeats_again
from rebuild.trade.threads.taken import read_how, wire_component
from rebuild.words.readings import FeatureKind
from rebuild.work.readings.reaches import SCALE, reach_in

#: The tables the lookups here ask.
READS = frozenset({"instrument"})


@dataclass(frozen=True, slots=True)
class Measured:
    """What a verdict needs to know of one reading."""

    value_mm: float
    typed: str
    unit: str
    repeats: int
    instrument_id: int | None
    temperature_c: float | None
    material: str
    kind: FeatureKind = FeatureKind.OTHER
    own_unit: str = "mm"
    how: str | None = None
    thread: str | None = None
    read_mm: float | None = None

    @property
    def as_read_mm(self) -> float:
        """What was read, before it became a pitch diameter [mm]."""
        return self.value_mm if self.read_mm is None else self.read_mm


def instrument_limits(connection: Connection) -> dict[int, InstrumentLimit]:
    """Every instrument's error limit by id."""
    rows = connection.execute(
        select(
            Instruments.id,
            Instruments.name,
            Instruments.resolution_mm,
            Instruments.mpe_mm,
            Instruments.uncertainty_mm,
            Instruments.coverage_k,
            Instruments.limit_source,
            *SCALE,
        )
    )
    return {
        row.id: InstrumentLimit(
            row.name,
            row.resolution_mm or 0.0,
            row.mpe_mm,
            row.uncertainty_mm,
            row.coverage_k,
            Source(row.limit_source or "as entered", status=Status.JUDGEMENT),
            reach_in(row),
        )
        for row in rows
    }


@lru_cache(maxsize=512)
def alpha_of(material: str) -> float | None:
    """The expansion of a part's material as typed [1/K], or None when it is not known."""
    found = find_material(material) if material.strip() else None
    return found.material.alpha_per_K if found is not None else None


def budget_of(measured: Measured, limits: dict[int, InstrumentLimit]) -> Worked[Budget]:
    """The uncertainty budget of a stored reading."""
    sizes = (
        repeats_again(measured.typed, measured.unit, measured.as_read_mm) if measured.repeats > 1 else None
    ) or ()
    repeats = tuple(size.mm for size in sizes)
    limit = limits.get(measured.instrument_id) if measured.instrument_id is not None else None
    unfit = ""
    if limit is not None and limit.reach is not None:
        unfit = cannot(limit.reach, measured.kind, measured.as_read_mm, measured.own_unit)
    worked = reading_budget(
        limit,
        repeats_mm=repeats,
        temperature_C=measured.temperature_c,
        part_alpha_per_K=alpha_of(measured.material),
        length_mm=abs(measured.value_mm),
    )
    wire = _wire(measured.how or "", measured.thread or "") if measured.read_mm is not None else None
    if wire is not None:
        worked = combine([*worked.value.components, wire], complete=worked.value.complete)
    if not unfit:
        return worked
    whole = worked
    return Worked(replace(whole.value, complete=False, unfit=unfit), lambda: whole.working)


@lru_cache(maxsize=512)
def _wire(how: str, thread: str) -> Component | None:
    """What the wire of a stored reading adds; nothing where its thread can no longer be read."""
    try:
        taken = read_how(how, "mm")
        return wire_component(taken, thread) if taken is not None else None
    except BadEntry:
        return None


def judgement_of(
    measured: Measured,
    low_mm: float | None,
    high_mm: float | None,
    limits: dict[int, InstrumentLimit],
    rule: Rule,
    unit: str,
) -> Worked[Judgement]:
    """The verdict on a stored reading with its whole working: budget, then rule."""
    budget = budget_of(measured, limits)
    judged = judge(measured.value_mm, low_mm, high_mm, budget.value, rule, unit=unit)
    return Worked(judged.value, joined(judged.working.title, (budget.working, judged.working)))
