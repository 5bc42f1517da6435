"""The standard uncertainty of many readings without a working each, equal to what ``reading_budget`` says.

All parts of a budget that depend on the size grow in proportion to it, so that u² = u0² + (κ·length)². u0 and κ
are got from ``reading_budget`` itself at two lengths, once for each instrument, temperature and material.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import NamedTuple

from rebuild.trade.limits.reach import span
from rebuild.trade.limits.uncertainty import InstrumentLimit, reading_budget
from rebuild.trade.limits.verdict import decisive_u
from rebuild.words.readings import FeatureKind
from rebuild.work.readings.rows_judged import Measured, alpha_of, budget_of

#: So long [mm] that u0 is nothing beside the part that grows, and κ keeps its digits.
FAR_MM = 1e9


class Quick(NamedTuple):
    """What ``judge_many`` asks of one reading: u a verdict may rest on (None: not known) and U = k·u [mm]."""

    u_mm: float | None
    dof: float
    U_mm: float
    unfit: bool


_UNKNOWN = Quick(None, math.inf, 0.0, unfit=False)
_UNFIT = Quick(None, math.inf, 0.0, unfit=True)


class _Line(NamedTuple):
    """u0² [mm²], κ² and k of one instrument, temperature, material and kind, and the sizes [mm] it reaches.

    ``always`` is the answer where no error limit is known.
    """

    u0_squared: float
    growth_squared: float
    k: float
    least: float = -math.inf
    most: float = math.inf
    always: Quick | None = None


_Where = tuple[int | None, float | None, str, FeatureKind]


@dataclass(frozen=True, slots=True)
class QuickBudget:
    """Answers for the instruments it was made with; made anew for each look, so that nothing in it grows old."""

    limits: dict[int, InstrumentLimit]
    _lines: dict[_Where, _Line] = field(default_factory=dict)

    def of(self, measured: Measured) -> Quick:
        """What is known of one reading. Repeats and wires go the whole way: each has a part of its own."""
        if measured.repeats > 1 or measured.read_mm is not None:
            budget = budget_of(measured, self.limits).value
            return Quick(decisive_u(budget), budget.dof, budget.U_mm, bool(budget.unfit))
        return self.plain(
            measured.value_mm,
            measured.instrument_id,
            measured.temperature_c,
            measured.material,
            measured.kind,
        )

    def plain(
        self,
        value_mm: float,
        instrument_id: int | None,
        temperature_c: float | None,
        material: str,
        kind: FeatureKind,
    ) -> Quick:
        """What is known of one reading typed as one value [mm], without a record of it: a machine has thousands."""
        where = (instrument_id, temperature_c, material, kind)
        line = self._lines.get(where)
        if line is None:
            limit = self.limits.get(instrument_id) if instrument_id is not None else None
            line = self._lines[where] = _line(limit, temperature_c, material, kind)
        u0_squared, growth_squared, k, least, most, always = line
        if not least <= abs(value_mm) <= most:
            return _UNFIT
        if always is not None:
            return always
        u = math.sqrt(
            u0_squared + growth_squared * value_mm * value_mm
        )  # no power: a damaged cell may hold 1e300
        return Quick(u, math.inf, k * u, False)


def _line(
    limit: InstrumentLimit | None, temperature_c: float | None, material: str, kind: FeatureKind
) -> _Line:
    reach = limit.reach if limit is not None else None
    ends = (-math.inf, math.inf) if reach is None else span(reach, kind)
    here, far = (
        reading_budget(
            limit,
            temperature_C=temperature_c,
            part_alpha_per_K=alpha_of(material),
            length_mm=length,
        ).value
        for length in (0.0, FAR_MM)
    )
    if not here.complete:
        return _Line(0.0, 0.0, 0.0, *ends, _UNKNOWN)
    growth = (far.u_mm**2 - here.u_mm**2) / FAR_MM**2
    return _Line(here.u_mm**2, growth, here.k, *ends)
