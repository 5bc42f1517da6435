"""A line of a making sheet as it is proposed, and what proposals are made from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.inward import inward
from rebuild.trade.making.derive import Designations
from rebuild.words.making import LimitsFrom
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.making.rows_limits import MateLimits, together


@dataclass(frozen=True, slots=True)
class OwnFeature:
    """A feature of the part: its kind, spec and what the old part reads [mm]."""

    id: int
    name: str
    kind: FeatureKind
    unit: str
    thread: str
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None
    old_mm: tuple[float, ...]
    old_words: str
    spec_origin: SpecOrigin | None = None


@dataclass(frozen=True, slots=True)
class Proposed:
    """One line of a sheet as proposed."""

    role: str
    name: str
    feature_id: int | None
    fit_id: int | None
    limits_from: LimitsFrom
    measure: Measure
    measured_with: str
    note: str


@dataclass(slots=True)
class Ground:
    """What proposals are made from."""

    features: Sequence[OwnFeature]
    asked: Sequence[MateLimits]
    shape: str
    unit: str
    named: Designations
    used: set[int] = field(default_factory=set)

    def of_feature(self, feature_id: int) -> list[MateLimits]:
        """What the fits with its mates ask of one feature."""
        return [one for one in self.asked if one.feature_id == feature_id and not one.proof]

    def by_plug(self, line: Proposed) -> Proposed:
        """A nut is no smaller than the plug that proves it, once that is read; its limits stay its mate's."""
        proofs = [one for one in self.asked if one.proof and one.feature_id == line.feature_id]
        plug, _high = inward(together(proofs)[0], None, self.unit)
        low, high = line.measure.low_mm, line.measure.high_mm
        if plug is None or low is None or (high is not None and plug > high):
            return line
        return replace(line, measure=replace(line.measure, low_mm=max(low, plug)))
