"""A fit as it is now: both sides' readings with their uncertainty, paired by station, against the wanted range.

A clearance counts up, an interference down, both on the diameter [mm]. The two readings of a pair are taken
as independent: where one instrument read both, its own error partly cancels in a difference, so the
uncertainty given is on the cautious side.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from rebuild.trade.limits.judgement import Judgement, Rule, Verdict
from rebuild.trade.limits.uncertainty import Budget, Component, combine
from rebuild.trade.limits.unnamed import unnamed_doubt
from rebuild.trade.limits.verdict import judge
from rebuild.trade.results.working import Source, Status
from rebuild.trade.sizes.given import number_of, record_of, records_of

#: Stations this near along the two sides are the same place [mm].
SAME_PLACE_MM = 0.5
GEOMETRY = Source("Geometry of the joint", status=Status.COMPUTED)


class Pairing(StrEnum):
    """How the readings of the two sides were put together."""

    BY_STATION = "station by station"
    ONE_WITH_ALL = "one reading with every station"
    EXTREMES = "largest with smallest"
    DIRECT = "read directly"


@dataclass(frozen=True, slots=True)
class SideReading:
    """One reading that speaks for a side at one station: what it reads (``0.6247 in``), at which stage and when.

    Of a thread ``how`` it was taken, empty where that is not said.
    """

    station: str
    at_mm: float | None
    value_mm: float
    budget: Budget
    shown: str = ""
    taken: str = ""
    reading_id: int = 0
    how: str = ""

    @property
    def words(self) -> str:
        """``0.6247 in as made, 2026-03-14``."""
        return f"{self.shown} {self.taken}".strip()


@dataclass(frozen=True, slots=True)
class Combining:
    """How two sizes make a clearance: offset + outer_sign x outer + inner_sign x inner [mm].

    ``axial`` turns a diametral clearance into play along the axis (screws) or a stand-off (tapers).
    """

    equation: str = "outer - inner"
    outer_sign: float = 1.0
    inner_sign: float = -1.0
    offset_mm: float = 0.0
    axial: float | None = None
    axial_name: str = ""


SIZES = Combining()


def thread_combining(half_angle_rad: float) -> Combining:
    """Pitch diameters of nut and screw; along the axis they shake by the difference x tan(half the flank angle).

    >>> round(thread_combining(math.radians(14.5)).axial, 4)
    0.2586
    """
    half = number_of("Half angle", half_angle_rad, above=0)
    return Combining(
        "pitch diameter of the nut - of the screw",
        axial=math.tan(half),
        axial_name="lost motion along the axis",
    )


def taper_combining(rate: float) -> Combining:
    """Gauge-line diameters of socket and plug; the plug goes deeper by the difference / taper on diameter.

    >>> round(taper_combining(0.05).axial)
    20
    """
    return Combining(
        "socket at the gauge line - plug",
        axial=1.0 / number_of("Taper", rate, above=0),
        axial_name="plug goes deeper by",
    )


def mesh_combining(module_mm: float) -> Combining:
    """Tooth thicknesses on the pitch circles at standard centres: backlash is the circular pitch less both.

    >>> round(mesh_combining(2.0).offset_mm, 4)
    6.2832
    """
    pitch = math.pi * number_of("Module", module_mm, above=0)
    return Combining(f"pitch {pitch:.4f} mm - both tooth thicknesses", -1.0, -1.0, pitch)


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
    matched, pairing, unpaired = _paired(outer, inner, combining)
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

    >>> from rebuild.trade.limits.uncertainty import SUM
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


_Matched = list[tuple[str, SideReading, SideReading]]


def _paired(
    outer: Sequence[SideReading], inner: Sequence[SideReading], combining: Combining
) -> tuple[_Matched, Pairing, tuple[str, ...]]:
    if len(outer) == 1 or len(inner) == 1:
        listed = [
            (bore.station if len(inner) == 1 else shaft.station, bore, shaft)
            for bore in outer
            for shaft in inner
        ]
        return listed, Pairing.BY_STATION if len(listed) == 1 else Pairing.ONE_WITH_ALL, ()
    matched: _Matched = []
    for bore in outer:
        shaft = next((shaft for shaft in inner if _same_place(bore, shaft)), None)
        if shaft is not None:
            matched.append((bore.station, bore, shaft))
    if matched:
        used = {id(reading) for _, bore, shaft in matched for reading in (bore, shaft)}
        left = tuple(reading.station for reading in (*outer, *inner) if id(reading) not in used)
        return matched, Pairing.BY_STATION, left
    return _extremes(outer, inner, combining), Pairing.EXTREMES, ()


def _same_place(one: SideReading, other: SideReading) -> bool:
    if one.at_mm is not None and other.at_mm is not None:
        return abs(one.at_mm - other.at_mm) <= SAME_PLACE_MM
    return bool(one.station) and one.station.strip().casefold() == other.station.strip().casefold()


def _extremes(outer: Sequence[SideReading], inner: Sequence[SideReading], combining: Combining) -> _Matched:
    def low(readings: Sequence[SideReading], sign: float) -> SideReading:
        return min(readings, key=lambda reading: sign * reading.value_mm)

    def high(readings: Sequence[SideReading], sign: float) -> SideReading:
        return max(readings, key=lambda reading: sign * reading.value_mm)

    return [
        ("tightest", low(outer, combining.outer_sign), low(inner, combining.inner_sign)),
        ("loosest", high(outer, combining.outer_sign), high(inner, combining.inner_sign)),
    ]
