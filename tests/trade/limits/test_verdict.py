"""Verdicts: the line itself, signed limits, unknown uncertainty, coarse instruments, and the fast path."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.limits.uncertainty import SUM, Component, InstrumentLimit, combine, reading_budget
from rebuild.trade.limits.verdict import (
    Rule,
    Verdict,
    conformance_probability,
    decisive_u,
    judge,
    judge_many,
    too_coarse,
)

ORDER = {Verdict.DOES_NOT: 0, Verdict.UNDECIDED: 1, Verdict.CONFORMS: 2}


def budget_of(u: float, dof: float = math.inf, k: float | None = 2.0):
    return combine([Component("u", u, dof, "", SUM)], k=k).value


def verdict_of(value, low, high, u, rule=Rule.CONFORMANCE_95):
    return judge(value, low, high, budget_of(u), rule).value.verdict


class TestTheLine:
    # Trap: 25.010 - 0.002 is 25.008000000000003 in binary.
    def test_inner_guard_line_conforms_in_spite_of_binary_rounding(self):
        assert 25.010 - 0.002 != 25.008
        for value in (25.008, 25.010 - 0.002):
            assert verdict_of(value, 25.0, 25.010, 0.001, Rule.GUARD_U) is Verdict.CONFORMS
        assert verdict_of(25.008 + 2e-8, 25.0, 25.010, 0.001, Rule.GUARD_U) is Verdict.UNDECIDED

    def test_outer_guard_line_is_not_yet_proven(self):
        for value in (24.998, 25.0 - 0.002):
            assert verdict_of(value, 25.0, 25.010, 0.001, Rule.GUARD_U) is Verdict.UNDECIDED
        assert verdict_of(24.998 - 2e-8, 25.0, 25.010, 0.001, Rule.GUARD_U) is Verdict.DOES_NOT

    def test_on_the_limit_by_simple_acceptance_conforms(self):
        for value in (0.1 + 0.2, 0.3):
            assert verdict_of(value, None, 0.3, 0.001, Rule.SIMPLE) is Verdict.CONFORMS

    def test_rule_is_named_in_the_sentence(self):
        for rule, word in ((Rule.GUARD_U, "2013"), (Rule.CONFORMANCE_95, "2017"), (Rule.SIMPLE, "simple")):
            worked = judge(25.005, 25.0, 25.01, budget_of(0.001), rule)
            assert word in worked.value.sentence

    def test_default_is_the_2017_rule(self):
        assert judge(25.0, 24.0, 26.0, budget_of(0.001)).value.rule is Rule.CONFORMANCE_95


class TestSignedLimits:
    def test_high_only(self):
        assert verdict_of(-0.5, None, 0.01, 0.001) is Verdict.CONFORMS
        assert verdict_of(0.0095, None, 0.01, 0.001) is Verdict.UNDECIDED
        assert verdict_of(0.02, None, 0.01, 0.001) is Verdict.DOES_NOT

    def test_low_only(self):
        assert verdict_of(0.5, 0.01, None, 0.001) is Verdict.CONFORMS
        assert verdict_of(-0.5, 0.01, None, 0.001) is Verdict.DOES_NOT

    def test_no_limits(self):
        judgement = judge(1.0, None, None, budget_of(0.001)).value
        assert judgement.verdict is Verdict.NO_SPEC
        assert judgement.conformance_probability is None

    def test_low_above_high_is_refused(self):
        with pytest.raises(BadEntry, match="swap"):
            judge(1.0, 2.0, 1.0, None)

    def test_not_a_number_is_refused(self):
        with pytest.raises(BadEntry):
            judge(math.nan, 0.0, 1.0, None)


class TestUnknownUncertainty:
    def test_no_budget_proves_nothing(self):
        judgement = judge(25.005, 25.0, 25.01, None).value
        assert judgement.verdict is Verdict.UNDECIDED
        assert "no instrument with a known error limit is named" in judgement.sentence
        assert not judgement.complete

    def test_repeats_alone_prove_nothing(self):
        budget = reading_budget(None, repeats_mm=[25.005, 25.005, 25.005], length_mm=25).value
        assert not budget.complete
        assert decisive_u(budget) is None
        assert judge(25.005, 25.0, 25.01, budget).value.verdict is Verdict.UNDECIDED

    def test_a_resolution_alone_proves_nothing(self):
        named_only = InstrumentLimit("micrometer", 0.001)
        budget = reading_budget(named_only, length_mm=25, temperature_C=20, part_alpha_per_K=11.5e-6).value
        assert budget.u_mm > 0
        assert judge(25.005, 25.0, 25.01, budget).value.verdict is Verdict.UNDECIDED

    def test_simple_acceptance_needs_none(self):
        judgement = judge(25.02, 25.0, 25.01, None, Rule.SIMPLE).value
        assert judgement.verdict is Verdict.DOES_NOT
        assert "simple acceptance" in judgement.sentence


class TestCoarse:
    def test_quarter_of_the_tolerance(self):
        assert not too_coarse(0.0025, 25.0, 25.01)
        assert not too_coarse((25.01 - 25.0) / 4, 25.0, 25.01)
        assert too_coarse(0.00251, 25.0, 25.01)

    def test_high_only_counts_from_zero(self):
        assert too_coarse(0.008, None, 0.01)
        assert not too_coarse(0.008, None, 25.0)
        assert not too_coarse(1.0, 25.0, None)

    def test_said_with_numbers(self):
        caliper = InstrumentLimit("caliper", 0.02, mpe_mm=0.02)
        budget = reading_budget(caliper, length_mm=25, temperature_C=20, part_alpha_per_K=11.5e-6).value
        judgement = judge(25.005, 25.0, 25.01, budget).value
        assert judgement.too_coarse
        assert "a quarter of the tolerance of 0.0100 mm" in judgement.sentence
        assert judgement.verdict is Verdict.UNDECIDED

    def test_sentence_in_inches(self):
        sentence = judge(25.4, 25.39, 25.41, budget_of(0.001), unit="in").value.sentence
        assert "1.0000 in" in sentence
        assert "mm" not in sentence


class TestNarrowTolerance:
    # Both tails count where the tolerance is only a few u wide: T = 3.4u leaves 1.7u each side, P = 91 %.
    def test_middle_of_a_narrow_tolerance_is_not_proven(self):
        u = 0.001
        assert conformance_probability(0.0017, 0.0, 0.0034, u) == pytest.approx(0.911, abs=0.001)
        assert verdict_of(0.0017, 0.0, 0.0034, u) is Verdict.UNDECIDED

    def test_few_repeats_widen_the_guard(self):
        # Student's t one-sided 95 % at 2 degrees of freedom is 2.92, against 1.645.
        few = judge(25.0025, 25.0, 25.1, budget_of(0.001, dof=2)).value
        assert few.verdict is Verdict.UNDECIDED
        assert few.guard_mm == pytest.approx(0.00292, abs=1e-5)
        assert verdict_of(25.0025, 25.0, 25.1, 0.001) is Verdict.CONFORMS


sizes = st.floats(-50, 50, allow_nan=False)
limits = st.one_of(st.none(), sizes)
us = st.one_of(st.floats(1e-6, 5), st.just(0.0))
rules = st.sampled_from(list(Rule))


@st.composite
def specs(draw):
    low, high = draw(limits), draw(limits)
    if low is not None and high is not None and low > high:
        low, high = high, low
    return low, high


@given(value=sizes, spec=specs(), u=us, rule=rules, dof=st.sampled_from([1.0, 3.5, 60.0, math.inf]))
def test_fast_path_gives_the_same_verdicts(value, spec, u, rule, dof):
    budget = budget_of(u, dof=dof, k=None) if u else combine([]).value
    want = judge(value, *spec, budget, rule).value.verdict
    got = judge_many([value], [spec[0]], [spec[1]], [u], rule, dofs=[budget.dof], expanded=[budget.U_mm])
    assert got == [want]


@given(spec=specs(), u=us, rule=rules, offsets=st.lists(sizes, min_size=2, max_size=2))
def test_further_inside_is_never_judged_worse(spec, u, rule, offsets):
    low, high = spec
    if low is None or high is not None:
        return
    near, far = sorted(offsets)
    verdicts = [verdict_of(low + value, low, None, u, rule) for value in (near, far)]
    assert ORDER[verdicts[0]] <= ORDER[verdicts[1]]


@given(value=sizes, spec=specs(), u=st.floats(1e-6, 5))
def test_guard_rules_never_contradict_simple_acceptance(value, spec, u):
    simple = verdict_of(value, *spec, u, Rule.SIMPLE)
    for rule in (Rule.GUARD_U, Rule.CONFORMANCE_95):
        assert verdict_of(value, *spec, u, rule) in (simple, Verdict.UNDECIDED)


@given(value=sizes, spec=specs(), u=st.floats(1e-4, 5), rule=rules)
def test_mirrored_limits_give_the_same_verdict(value, spec, u, rule):
    low, high = spec
    mirrored = (None if high is None else -high, None if low is None else -low)
    assert verdict_of(value, low, high, u, rule) is verdict_of(-value, *mirrored, u, rule)


@given(value=sizes, spec=specs(), u=st.floats(1e-3, 5))
def test_probability_is_a_probability(value, spec, u):
    chance = conformance_probability(value, *spec, u)
    if spec == (None, None):
        assert chance is None
    else:
        assert -1e-12 <= chance <= 1 + 1e-12
