"""What a nut, gib or shim can take up of a fit, and what remains whatever is adjusted."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.fits.now import FitNow, combined
from rebuild.trade.limits.judgement import Rule, Verdict
from rebuild.trade.limits.uncertainty import Budget
from rebuild.trade.limits.unnamed import unnamed_doubt
from rebuild.trade.limits.verdict import judge
from rebuild.trade.sizes.given import record_of


@dataclass(frozen=True, slots=True)
class Adjusted:
    """What an adjuster (nut, gib, shim) can and cannot do [mm].

    Set so that the tightest place has the least clearance wanted, the loosest keeps ``most_mm``;
    ``remains_mm`` is the difference, which stays whatever is adjusted.
    """

    least_mm: float
    most_mm: float
    remains_mm: float
    U_mm: float
    axial_mm: float | None
    verdict: Verdict


def adjusted(
    now: FitNow, low_mm: float | None, high_mm: float | None, rule: Rule = Rule.CONFORMANCE_95
) -> Adjusted:
    """What is left after the adjuster is set at the tightest place.

    A reading common to all stations (one nut, many places of the screw) cancels in the difference.

    >>> import math
    >>> from rebuild.trade.fits.now import read_directly
    >>> from rebuild.trade.fits.side_reading import SideReading
    >>> from rebuild.trade.limits.uncertainty import SUM, Component, combine
    >>> exact = combine([Component("level", 0.0, math.inf, "", SUM)]).value
    >>> gaps = [SideReading(place, None, mm, exact) for place, mm in (("middle", 0.05), ("end", 0.02))]
    >>> left = adjusted(read_directly(gaps, 0.01, 0.03), 0.01, 0.03)
    >>> round(left.remains_mm, 3), round(left.most_mm, 3), left.verdict.value
    (0.03, 0.04, 'does not conform')
    """
    record_of("Fit", now, FitNow)
    least, most = now.least, now.most
    start = max(low_mm, 0.0) if low_mm is not None else 0.0
    budget = _spread_budget(now)
    room = None if high_mm is None else max(high_mm - start, 0.0)
    verdict = (
        judge(now.spread_mm, None, room, budget, rule, doubt_mm=_spread_doubt(now)).value.verdict
        if least is not most
        else Verdict.CONFORMS
    )
    axial = now.combining.axial
    return Adjusted(
        start,
        start + now.spread_mm,
        now.spread_mm,
        budget.U_mm,
        now.spread_mm * axial if axial is not None else None,
        Verdict.NO_SPEC if room is None else verdict,
    )


def _spread_budget(now: FitNow) -> Budget:
    least, most = now.least, now.most
    parts: list[tuple[str, Budget]] = []
    if least.outer is not most.outer:
        parts += [("outer, tightest", least.outer.budget), ("outer, loosest", most.outer.budget)]
    if least.inner is not None and most.inner is not None and least.inner is not most.inner:
        parts += [("inner, tightest", least.inner.budget), ("inner, loosest", most.inner.budget)]
    return combined(*parts)


def _spread_doubt(now: FitNow) -> float:
    """Of a difference of clearances read without known instruments [mm]: that of each reading in it."""
    read = (now.least.outer, now.most.outer, now.least.inner, now.most.inner)
    return sum({side.reading_id or id(side): unnamed_doubt(side.value_mm) for side in read if side}.values())
