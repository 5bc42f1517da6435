"""How surely a line's deviation is known: instrument, repeats and closure, carried through the reference line.

The deviation is D = h(hi) - h(lo) - slope · (x(hi) - x(lo)), a linear function of the heights while the same stations
touch; its sensitivity to each height follows from that of the slope (GUM 5.1.3). Where heights are the running sum of
steps, the sensitivity to a step is the sum of those of all stations after it, times the step.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.geometry.steps import Heights
from rebuild.trade.geometry.straightness import Reference, Straightness
from rebuild.trade.limits.component import GUM, RECTANGULAR, Component, um_text
from rebuild.trade.limits.uncertainty import Budget, InstrumentLimit, combine
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Source, Status, Worked

RESOLUTION = Source(GUM, "F.2.2.1: resolution r, r/√12")
LINEAR = Source(GUM, "5.1.3: sensitivities, steps independent")
REPEATS = Source(GUM, "4.2: spread of the run there against the run back")
CLOSURE = Source("half of what does not close, either way", status=Status.COMMON_PRACTICE)
#: Heights this near touch the same line [mm].
TOUCHES_MM = 1e-9


@dataclass(frozen=True, slots=True)
class RunsDoubt:
    """What is known of the readings: the instrument's limit, the spread s of one reading with its degrees of freedom
    (None: read once), how many runs were averaged, and what did not close [mm].

    For steps the limit and the spread are slopes in mm of height a metre; for heights they are mm.
    """

    instrument: InstrumentLimit | None
    spread: float | None = None
    dof: float = math.inf
    runs: int = 1
    closure_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class LineDoubt:
    """The budget of the deviation, and the standard uncertainty of each station about the line's ends [mm]."""

    budget: Budget
    station_u_mm: tuple[float, ...]


@door()
def deviation_weights(line: Heights, found: Straightness) -> tuple[float, ...]:
    """Sensitivity of the deviation to each height.

    >>> from rebuild.trade.geometry.straightness import straightness
    >>> bow = Heights((0, 1, 2), (0.0, 0.002, 0.0))
    >>> deviation_weights(bow, straightness(bow, Reference.ENDS).value)
    (-0.5, 1.0, -0.5)
    """
    x, residual = line.at_mm, found.residual_mm
    high, low = residual.index(max(residual)), residual.index(min(residual))
    slope = _slope_weights(line, found)
    run = x[high] - x[low]
    return tuple((at == high) - (at == low) - run * weight for at, weight in enumerate(slope))


def _slope_weights(line: Heights, found: Straightness) -> list[float]:
    x, count = line.at_mm, len(line.at_mm)
    if found.reference is Reference.LEAST_SQUARES:
        middle = sum(x) / count
        spread = sum((value - middle) ** 2 for value in x)
        return [(value - middle) / spread for value in x]
    first, last = (0, count - 1) if found.reference is Reference.ENDS else _touching(found)
    run = x[last] - x[first]
    return [((at == last) - (at == first)) / run if run else 0.0 for at in range(count)]


def _touching(found: Straightness) -> tuple[int, int]:
    """The two stations the narrowest band lies along: on its upper line or its lower one."""
    residual = found.residual_mm
    for edge in (max(residual), min(residual)):
        on = [at for at, value in enumerate(residual) if abs(value - edge) < TOUCHES_MM]
        if len(on) > 1:
            return on[0], on[-1]
    return 0, len(residual) - 1


@door()
def line_doubt(line: Heights, found: Straightness, runs: RunsDoubt, by_steps: bool) -> Worked[LineDoubt]:
    """The uncertainty of a line's deviation: U with its k, and the parts it is made of.

    An error the instrument has alike at every step (a level not set true) goes out with the reference line; its limit
    is therefore taken as independent from step to step, which is the larger.

    >>> from rebuild.trade.geometry.straightness import straightness
    >>> bow = Heights((0.0, 100.0, 200.0), (0.0, 0.002, 0.0))
    >>> level = InstrumentLimit("level", 0.0, mpe_mm=0.01 * math.sqrt(3))  # 0.01 mm/m standard
    >>> worked = line_doubt(bow, straightness(bow, Reference.ENDS).value, RunsDoubt(level), True)
    >>> round(worked.value.budget.u_mm * 1000, 4)  # 1 µm a step, sensitivities ½ and -½
    0.7071
    """
    weights = deviation_weights(line, found)
    factor, station = _factors(line, weights, by_steps)
    parts = _parts(runs, factor, "/m" if by_steps else "")
    if runs.closure_mm:
        half = abs(runs.closure_mm) / 2
        how = f"half of the closure, ±{um_text(half)}, any value in it as likely: /√3"
        parts.append(Component("closure", half / math.sqrt(3), math.inf, how, CLOSURE))
    worked = combine(parts, complete=_has_limit(runs.instrument))
    one = math.sqrt(math.fsum(part.u_mm**2 for part in parts if part.name != "closure"))
    one = one / factor if factor else 0.0
    bow = abs(runs.closure_mm) / 2 / math.sqrt(3)
    count = len(line.at_mm) - 1
    arch = [4 * at * (count - at) / count**2 for at in range(count + 1)]
    stations = tuple(math.hypot(one * up, bow * high) for up, high in zip(station, arch, strict=True))
    return Worked(LineDoubt(worked.value, stations), worked.working)


def _factors(line: Heights, weights: Sequence[float], by_steps: bool) -> tuple[float, list[float]]:
    """What one unit of doubt of a reading makes on the deviation, and on each station about the ends [mm]."""
    count = len(weights) - 1
    if not by_steps:
        ends = [math.sqrt(1 + (1 - at / count) ** 2 + (at / count) ** 2) for at in range(count + 1)]
        ends[0] = ends[-1] = 0.0
        return math.sqrt(math.fsum(weight**2 for weight in weights)), ends
    step_m = (line.at_mm[1] - line.at_mm[0]) / 1000
    by_step = [math.fsum(weights[at + 1 :]) for at in range(count)]
    stations = [step_m * math.sqrt(at * (count - at) / count) for at in range(count + 1)]
    return step_m * math.sqrt(math.fsum(weight**2 for weight in by_step)), stations


def difference(runs: RunsDoubt, per: str = "") -> Worked[Budget]:
    """The uncertainty of the difference of two readings, each on its own; ``per`` is what the limit is over."""
    return combine(_parts(runs, math.sqrt(2), per), complete=_has_limit(runs.instrument))


def _parts(runs: RunsDoubt, factor: float, per: str) -> list[Component]:
    """Instrument and repeats of one reading, carried through ``factor``."""
    parts = []

    def add(name: str, u: float, dof: float, how: str, source: Source) -> None:
        parts.append(Component(name, u * factor, dof, f"{how}{per}, times {factor:.4g}", source))

    limit = runs.instrument
    if limit is not None and limit.resolution_mm:
        u = limit.resolution_mm / math.sqrt(12 * runs.runs)
        add("resolution", u, math.inf, f"{um_text(limit.resolution_mm)}/√12, {runs.runs} read", RESOLUTION)
    if limit is not None and limit.expanded_U_mm is not None:
        how = f"stated U {um_text(limit.expanded_U_mm)} / k {limit.k:g}"
        add(limit.name, limit.expanded_U_mm / limit.k, math.inf, how, limit.source)
    elif limit is not None and limit.mpe_mm is not None:
        how = f"error limit ±{um_text(limit.mpe_mm)}: /√3"
        add(limit.name, limit.mpe_mm / math.sqrt(3), math.inf, how, RECTANGULAR)
    if runs.spread is not None and runs.runs > 1:
        how = f"s {um_text(runs.spread)} / √{runs.runs}, {runs.dof:g} degrees of freedom"
        add("repeats", runs.spread / math.sqrt(runs.runs), runs.dof, how, REPEATS)
    return parts


def _has_limit(limit: InstrumentLimit | None) -> bool:
    return limit is not None and (limit.mpe_mm is not None or limit.expanded_U_mm is not None)
