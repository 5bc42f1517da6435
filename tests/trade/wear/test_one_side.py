"""One-sided wear: how much the stations must differ before the other side is offered, and what may lie outside."""

from __future__ import annotations

import pytest

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.wear.facts import FeatureFact, PartFacts
from rebuild.trade.wear.judge import propose
from rebuild.trade.wear.rules import rules
from rebuild.words.readings import FeatureKind

IN = 25.4


def keys(spread_in: float, part: str = "feed screw", verdict: Verdict = Verdict.DOES_NOT) -> set[str]:
    readings = (("near", 0.020 * IN), ("far", (0.020 + spread_in) * IN))
    lost = FeatureFact(
        "lost motion", FeatureKind.LOST_MOTION, "in", readings, high_mm=0.012 * IN, verdict=verdict
    )
    return {proposal.rule_key for proposal in propose(PartFacts(part, (lost,)), rules())}


# Half a thou, what a good micrometer tells apart at the bench: common practice, no source.
@pytest.mark.parametrize(
    ("spread_in", "offered"), [(0.00049, False), (0.00051, True), (0.005, True), (0.0, False)]
)
def test_the_other_side_is_offered_from_half_a_thou_of_difference(spread_in: float, offered: bool) -> None:
    assert ("other-side" in keys(spread_in)) is offered


def test_the_other_side_is_offered_only_where_there_is_one_and_something_is_wrong() -> None:
    assert "other-side" not in keys(0.005, "cover plate")
    assert "other-side" not in keys(0.005, verdict=Verdict.CONFORMS)


def test_one_station_alone_says_nothing_of_one_side() -> None:
    lost = FeatureFact(
        "lost motion", FeatureKind.LOST_MOTION, "in", (("", 0.04 * IN),), high_mm=0.012 * IN,
        verdict=Verdict.DOES_NOT,
    )  # fmt: skip
    assert "other-side" not in {p.rule_key for p in propose(PartFacts("feed screw", (lost,)), rules())}
