"""A rule of form (out of round, bell-mouthed) never leaves a part whose size is out, or not known to be in."""

from __future__ import annotations

import pytest

from rebuild.trade.limits.verdict import Verdict
from rebuild.trade.wear.facts import FeatureFact, FitFact, PartFacts, Proposal
from rebuild.trade.wear.judge import propose
from rebuild.trade.wear.rules import rules
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint, FitKind
from rebuild.words.readings import FeatureKind

IN = 25.4
# The bush of a trial: 0.7500 to 0.7505 in wanted.
LOW, HIGH = 0.7500 * IN, 0.7505 * IN


def bore(top: float, bottom: float, verdict: Verdict) -> FeatureFact:
    read = (("top", top * IN), ("bottom", bottom * IN))
    limits = (None, None) if verdict is Verdict.NO_SPEC else (LOW, HIGH)
    return FeatureFact("bore", FeatureKind.BORE, "in", read, None, *limits, verdict)


def proposed(*features: FeatureFact, fits: tuple[FitFact, ...] = ()) -> tuple[Proposal, ...]:
    return propose(PartFacts("SP-05 Front bush", features, fits), rules())


def test_round_and_over_its_limit_is_not_left_as_it_is() -> None:
    out = proposed(bore(0.7541, 0.7538, Verdict.DOES_NOT))
    assert out[0].decision is Decision.REMAKE
    assert "0.7541 in lies outside its limits: metal is missing" in out[0].why
    assert not any(one.decision is Decision.REUSE for one in out)
    assert proposed(bore(0.7509, 0.7507, Verdict.UNDECIDED)) == ()


@pytest.mark.parametrize("verdict", [Verdict.UNDECIDED, Verdict.NO_SPEC])
def test_round_and_of_unknown_size_is_not_left_as_it_is(verdict: Verdict) -> None:
    assert proposed(bore(0.7504, 0.7502, verdict)) == ()


def test_round_and_of_the_right_size_is_left_and_out_of_round_is_said_of_any_size() -> None:
    good = proposed(bore(0.7503, 0.7501, Verdict.CONFORMS))
    assert {one.decision for one in good} == {Decision.REUSE}
    oval = proposed(bore(0.7545, 0.7505, Verdict.UNDECIDED))
    assert (oval[0].decision, oval[0].rule_key) == (Decision.REMAKE, "oval-bore")


def test_nothing_else_of_the_part_leaves_it_while_one_size_reads_outside() -> None:
    """A clearance, a worn flank, the dearer side of a fit: each speaks of its own place alone."""
    flange = FeatureFact(
        "flange", FeatureKind.OUTSIDE_DIAMETER, "in", (("", IN),), None, 0.9995 * IN, None, Verdict.CONFORMS
    )
    fit = FitFact(
        "bush on handwheel shaft", FitJoint.HOLE_AND_SHAFT, FitKind.RUNNING, "in", "bore", "shaft", None,
        Verdict.UNDECIDED, 0.75 * IN, 0.001 * IN, 0.001 * IN, 0.0005 * IN, 0.002 * IN,
    )  # fmt: skip
    assert any(one.decision is Decision.REUSE for one in proposed(flange, fits=(fit,)))
    assert proposed(bore(0.7509, 0.7507, Verdict.UNDECIDED), flange, fits=(fit,)) == ()
