"""A fit as it is now: both sides' readings with their uncertainty, paired by station, against the wanted range.

A clearance counts up, an interference down, both on the diameter [mm]. The two readings of a pair are taken
as independent: where one instrument read both, its own error partly cancels in a difference, so the
uncertainty given is on the cautious side.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.fits.combining import SIZES, Combining
from rebuild.trade.fits.pairing import Pairing, paired
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.limits.judgement import Judgement, Rule, Verdict
from rebuild.trade.limits.uncertainty import Budget, Component, combine
from rebuild.trade.limits.unnamed import unnamed_doubt
from rebuild.trade.limits.verdict import judge
from rebuild.trade.results.working import Source, Status
from rebuild.trade.sizes.given import records_of

GEOMETRY = Source("Geometry of the joint", status=Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class PairNow:
    """One outer and one inner reading (None: the clearance was read directly) and what they make."""

    station: str
    outer: SideReading
    inner: SideReading | None
    value_mm: float
    budget: Budget
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class FitNow:
    """A fit at every station it is known at; never empty."""

    pairs: tuple[PairNow, ...]
    pairing: Pairing
    combining: Combining
    unpaired: tuple[str, ...] = ()

    @property
    def least(self) -> PairNow:
        """The tightest place."""
        return min(self.pairs, key=lambda pair: pair.value_mm)

    @property
    def most(self) -> PairNow:
        """The loosest place."""
        return max(self.pairs, key=lambda pair: pair.value_mm)

    @property
    def verdict(self) -> Verdict:
        """The worst of the stations' verdicts."""
        found = {pair.judgement.verdict for pair in self.pairs}
        order = (Verdict.DOES_NOT, Verdict.UNDECIDED, Verdict.CONFORMS)
        return next((verdict for verdict in order if verdict in found), Verdict.NO_SPEC)

    @property
    def spread_mm(self) -> float:
        """Loosest less tightest: what no adjuster can take up."""
        return self.most.value_mm - self.least.value_mm


def evaluate(
    outer: Sequence[SideReading],
    inner: Sequence[SideReading],
    low_mm: float | None,
    high_mm: float | None,
    *,
    combining: Combining = SIZES,
    rule: Rule = Rule.CONFORMANCE_95,
    unit: str = "mm",
) -> FitNow | None:
    """The fit now, or None while a side has no reading. ``low_mm``, ``high_mm``: the wanted range.

    >>> import math
    >>> from rebuild.trade.limits.uncertainty import SUM
    >>> def read(mm): return SideReading("", None, mm, combine([Component("mic", 0.001, math.inf, "", SUM)]).value)
    >>> now = evaluate([read(25.020)], [read(25.000)], 0.010, 0.030)
    >>> round(now.least.value_mm, 3), round(now.least.budget.u_mm, 6), now.verdict.value
    (0.02, 0.001414, 'conforms')
    """
    outer = records_of("Outer reading", outer, SideReading)
    inner = records_of("Inner reading", inner, SideReading)
    if not outer or not inner:
        return None
    matched, pairing, unpaired = paired(outer, inner, combining)
    pairs = []
    for station, bore, shaft in matched:
        value = round(
            combining.offset_mm
            + combining.outer_sign * bore.value_mm
            + combining.inner_sign * shaft.value_mm,
            9,
        )
        budget = combined(("outer", bore.budget), ("inner", shaft.budget))
        doubt = unnamed_doubt(bore.value_mm) + unnamed_doubt(shaft.value_mm)
        judgement = judge(value, low_mm, high_mm, budget, rule, unit=unit, doubt_mm=doubt).value
        pairs.append(PairNow(station, bore, shaft, value, budget, judgement))
    return FitNow(tuple(pairs), pairing, combining, unpaired)


def read_directly(
    gaps: Sequence[SideReading],
    low_mm: float | None,
    high_mm: float | None,
    *,
    rule: Rule = Rule.CONFORMANCE_95,
    unit: str = "mm",
) -> FitNow | None:
    """A fit whose clearance itself was read (lift, backlash, feeler); None without a reading.

    >>> import math
    >>> from rebuild.trade.limits.uncertainty import SUM
    >>> feeler = combine([Component("feeler", 0.002, math.inf, "", SUM)], k=2).value
    >>> read_directly([SideReading("front", None, 0.05, feeler)], 0.02, 0.04).verdict.value
    'does not conform'
    >>> read_directly([], 0.02, 0.04) is None
    True
    """
    pairs = tuple(
        PairNow(
            gap.station,
            gap,
            None,
            gap.value_mm,
            gap.budget,
            judge(gap.value_mm, low_mm, high_mm, gap.budget, rule, unit=unit).value,
        )
        for gap in records_of("Gap reading", gaps, SideReading)
    )
    return FitNow(pairs, Pairing.DIRECT, SIZES) if pairs else None


def combined(*parts: tuple[str, Budget]) -> Budget:
    """The budget of a sum or difference of independent readings; complete only where each of them is.

    >>> import math
    >>> from rebuild.trade.limits.uncertainty import SUM
    >>> one = combine([Component("mic", 0.003, 10.0, "", SUM)]).value
    >>> other = combine([Component("gauge", 0.004, math.inf, "", SUM)]).value
    >>> both = combined(("outer", one), ("inner", other))
    >>> round(both.u_mm, 6), round(both.dof, 1)
    (0.005, 77.2)
    """
    listed = [
        Component(name, budget.u_mm, budget.dof, "standard uncertainty of its reading", GEOMETRY)
        for name, budget in parts
    ]
    return combine(listed, complete=all(budget.complete for _, budget in parts)).value
