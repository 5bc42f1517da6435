"""A reading over its limit by more than any hand instrument's error is out, whoever took it with whatever."""

from __future__ import annotations

import pytest

from rebuild.trade.fits.now import SideReading, evaluate
from rebuild.trade.limits.instruments import default_limits
from rebuild.trade.limits.uncertainty import InstrumentLimit, combine, reading_budget
from rebuild.trade.limits.unnamed import unnamed_doubt
from rebuild.trade.limits.verdict import Rule, Verdict, judge, judge_many
from rebuild.trade.results.working import StepKind

IN = 25.4
LOW, HIGH = 0.7500 * IN, 0.7505 * IN


# Source: the table of instruments' error limits (assets/tables/instruments.csv, each row with its standard). The
# rule is left out: with one nobody reads a tolerance narrower than its own error, and a wide one widens the doubt.
def test_the_doubt_is_wider_than_the_error_limit_of_every_hand_instrument_of_the_table() -> None:
    listed = [row for row in default_limits() if row.kind != "steel rule" and row.limit() is not None]
    assert len(listed) > 20
    for row in listed:
        assert unnamed_doubt(row.over_mm) > (row.limit() or 0.0), row.kind


@pytest.mark.parametrize(
    ("inches", "verdict"),
    [
        (0.7541, Verdict.DOES_NOT), (0.7538, Verdict.DOES_NOT), (0.7509, Verdict.UNDECIDED),
        (0.7502, Verdict.UNDECIDED), (0.7490, Verdict.UNDECIDED), (0.7470, Verdict.DOES_NOT),
    ],
)  # fmt: skip
def test_far_out_without_an_instrument_is_out_and_nothing_conforms(inches: float, verdict: Verdict) -> None:
    value = inches * IN
    judgement = judge(value, LOW, HIGH, None, unit="in").value
    assert judgement.verdict is verdict
    assert judge_many([value], [LOW], [HIGH], [None]) == [verdict]
    assert ("by more than any instrument's doubt" in judgement.finding) is (verdict is Verdict.DOES_NOT)
    assert ("so nothing is proven" in judgement.finding) is (verdict is Verdict.UNDECIDED)
    steps = [step.text for step in judge(value, LOW, HIGH, None, unit="in").working.steps]
    assert any(step.startswith("0.0025") for step in steps), steps


def test_both_sides_of_the_line() -> None:
    at = HIGH + unnamed_doubt(HIGH + 0.0638)
    assert judge(at - 1e-4, LOW, HIGH, None).value.verdict is Verdict.UNDECIDED
    assert judge(at + 1e-4, LOW, HIGH, None).value.verdict is Verdict.DOES_NOT


def test_a_wide_tolerance_and_a_coarse_step_widen_the_doubt() -> None:
    assert judge(26.4, 25.0, 26.0, None).value.verdict is Verdict.UNDECIDED, "perhaps read with a rule"
    assert judge(27.1, 25.0, 26.0, None).value.verdict is Verdict.DOES_NOT
    rule = reading_budget(InstrumentLimit("rule", 0.5), length_mm=25.0).value
    assert judge(25.3, 25.0, 25.01, rule).value.verdict is Verdict.UNDECIDED
    assert judge_many([25.3], [25.0], [25.01], [None], expanded=[rule.U_mm]) == [Verdict.UNDECIDED]
    assert judge(25.3, 25.0, 25.01, None, Rule.SIMPLE).value.verdict is Verdict.DOES_NOT


def test_a_fit_doubts_both_its_readings() -> None:
    nothing = combine([], complete=False).value

    def fit(bore_mm: float) -> Verdict:
        bore, shaft = (SideReading("", None, mm, nothing) for mm in (bore_mm, 20.0))
        now = evaluate([bore], [shaft], 0.02, 0.04)
        assert now is not None
        return now.verdict

    assert [fit(mm) for mm in (20.03, 20.14, 20.20)] == [
        Verdict.UNDECIDED, Verdict.UNDECIDED, Verdict.DOES_NOT,
    ]  # fmt: skip


# Seen: "U 1.960·0 µm (0 thou) = 0 µm" of a reading whose instrument nobody had named.
def test_a_budget_of_nothing_says_that_nothing_is_known() -> None:
    steps = reading_budget(None, length_mm=19.05).working.steps
    assert [(step.label, step.text) for step in steps if step.kind is StepKind.RESULT] == [("U", "not known")]
    assert not any("0 µm" in step.text for step in steps)
    repeated = reading_budget(None, length_mm=19.05, repeats_mm=(19.05, 19.06)).working.steps
    assert any("µm" in step.text for step in repeated if step.kind is StepKind.RESULT)
