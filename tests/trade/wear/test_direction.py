"""Which way a reading lies outside its limits says what can be done: metal is missing, or it is to come off.

Common practice, no source: a cut takes metal away and never puts it back.
"""

from __future__ import annotations

import pytest

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.wear.facts import FeatureFact, FitFact, PartFacts, Proposal
from rebuild.trade.wear.judge import propose
from rebuild.trade.wear.rules import rules
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint, FitKind
from rebuild.words.readings import FeatureKind

LOW, HIGH = 20.00, 20.02
#: What brings metal back, or does without it.
WITH_METAL = ("sleeve", "bush", "build it up", "new", "wider", "pack", "shim", "fit the", "make the mate")
K = FeatureKind


def first(kind: FeatureKind, *values: float, part: str = "SP-02 casting", name: str = "place") -> Proposal:
    read = tuple((str(at), value) for at, value in enumerate(values))
    feature = FeatureFact(name, kind, "mm", read, 20.01, LOW, HIGH, Verdict.DOES_NOT)
    found = propose(PartFacts(part, (feature,)), rules())
    assert all(one.decision is not Decision.REUSE for one in found)
    return found[0]


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (K.BORE, 20.09), (K.KEYWAY, 20.09), (K.DEPTH, 20.09), (K.OUTSIDE_DIAMETER, 19.99), (K.LENGTH, 19.90),
        (K.HEIGHT, 19.90), (K.WIDTH, 19.90), (K.GEAR, 19.90), (K.THREAD, 19.90),
    ],
)  # fmt: skip
def test_where_metal_is_missing_no_plain_rework_is_proposed(kind: FeatureKind, value: float) -> None:
    found = first(kind, value)
    assert found.decision is Decision.REMAKE or any(word in found.method for word in WITH_METAL), found.method
    assert not any(cut in found.method for cut in ("ream", "take it down"))


@pytest.mark.parametrize(
    ("kind", "value", "way"),
    [
        (K.BORE, 19.95, "ream, hone or bore it out"), (K.KEYWAY, 19.95, "open it out"),
        (K.DEPTH, 19.95, "cut it deeper"), (K.OUTSIDE_DIAMETER, 20.05, "take it down"),
        (K.LENGTH, 20.05, "take it down"), (K.WIDTH, 20.05, "take it down"),
    ],
)  # fmt: skip
def test_where_metal_is_to_come_off_the_cut_is_named(kind: FeatureKind, value: float, way: str) -> None:
    found = first(kind, value)
    assert (found.decision, way in found.method) == (Decision.REWORK, True), found.method
    assert "metal is missing" not in found.why


def test_a_cheap_part_is_made_new_and_a_slot_counts_as_an_inside() -> None:
    assert first(K.BORE, 20.09, part="SP-05 front bush").decision is Decision.REMAKE
    assert first(K.BORE, 20.09).decision is Decision.REWORK
    assert "metal is missing" in first(K.WIDTH, 20.09, name="slot").why
    assert "metal is missing" not in first(K.WIDTH, 20.09, name="tongue").why


def test_flatness_and_straightness_are_form_and_reworked() -> None:
    for kind, word in ((K.FLAT, "flat"), (K.STRAIGHTNESS, "straight"), (K.RUNOUT, "true it")):
        found = next(one for one in _all(kind, 20.09) if one.rule_key == "limits")
        assert (found.decision, word in found.method) == (Decision.REWORK, True)


def _all(kind: FeatureKind, value: float) -> tuple[Proposal, ...]:
    feature = FeatureFact("face", kind, "mm", (("", value),), None, None, HIGH, Verdict.DOES_NOT)
    return propose(PartFacts("table", (feature,)), rules())


def test_truing_a_bore_that_is_over_its_limit_is_not_offered_for_its_roundness() -> None:
    # 0.04 mm between stations: the rule of form alone would ream it true.
    found = first(K.BORE, 20.09, 20.05, part="SP-05 front bush")
    assert (found.decision, "ream" in found.method) == (Decision.REMAKE, False)
    inside = first(K.BORE, 19.95, 19.99, part="SP-05 front bush")
    assert inside.decision is Decision.REWORK


def test_the_side_of_a_fit_that_gives_way_gets_metal_or_loses_it() -> None:
    def way(least: float, most: float) -> str:
        fit = FitFact(
            "arm on column", FitJoint.HOLE_AND_SHAFT, FitKind.SLIDING, "mm", "seat", "column", False,
            Verdict.DOES_NOT, 20.0, most, least, 0.01, 0.03,
        )  # fmt: skip
        found = propose(PartFacts("arm casting", (), (fit,)), rules())
        return next(
            one.method for one in found if one.decision is Decision.REWORK and "to suit" in one.method
        )

    assert way(0.20, 0.20) == "sleeve, bush or build it up to suit column as it is"
    assert way(-0.02, -0.01) == "take it down or open it out to suit column as it is"
