"""Does a reading conform? ISO 14253-1 with measuring uncertainty; limits signed and one-sided as well.

Rules on the line, declared: a reading exactly on the inner guard line conforms; non-conformity must be
passed strictly. Without a known instrument nothing conforms, but what lies over its limit by more than
``unnamed_doubt`` does not. Sizes within ``ON_THE_LINE_MM`` count as equal, because 25.010 - 0.002 is not exact in
binary.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from rebuild.errors import BadEntry
from rebuild.trade.limits.judgement import ON_THE_LINE_MM, Judgement, Rule, Verdict, tolerance_of
from rebuild.trade.limits.t_factor import student_below, student_t
from rebuild.trade.limits.uncertainty import Budget
from rebuild.trade.limits.unnamed import unnamed_doubt
from rebuild.trade.limits.verdict_words import finding_of, size_words, working_of
from rebuild.trade.results.working import Worked
from rebuild.trade.sizes.given import maybe_number_of, number_of, numbers_of, record_of, word_of
from rebuild.trade.sizes.own_unit import said

__all__ = ["Judgement", "Rule", "Verdict", "conformance_probability", "decisive_u", "judge",
           "judge_many", "too_coarse"]  # fmt: skip

#: One-sided 95 % factor of ISO 14253-1:2017 for a normal distribution.
ONE_SIDED_95 = 1.645
#: Below this many u of tolerance both tails are counted.
NARROW_IN_U = 8.0
QUARTER = 0.25


def judge(
    value_mm: float,
    low_mm: float | None,
    high_mm: float | None,
    budget: Budget | None,
    rule: Rule = Rule.CONFORMANCE_95,
    *,
    unit: str = "mm",
    doubt_mm: float | None = None,
) -> Worked[Judgement]:
    """Set one reading against its limits.

    Without a budget, or with one that knows no instrument's error limit, nothing conforms: the verdict is
    *undecided*, or *does not conform* past ``doubt_mm`` (None: ``unnamed_doubt``), unless the rule is simple
    acceptance; with an instrument unfit for it always undecided. ``unit`` is the unit of the sentence.

    Raises:
        BadEntry: the low limit lies above the high one, or a value is not a number.

    >>> from rebuild.trade.limits.uncertainty import combine, Component, SUM
    >>> budget = combine([Component("u", 0.001, math.inf, "", SUM)], k=2).value
    >>> judge(25.0081, 25.0, 25.01, budget).value.verdict.value
    'conforms'
    >>> judge(25.0081, 25.0, 25.01, budget, Rule.GUARD_U).value.verdict.value
    'undecided'
    """
    _refuse_bad(value_mm, low_mm, high_mm)
    rule = word_of("Rule", rule, Rule)
    if budget is not None:
        record_of("Budget", budget, Budget)
    u = decisive_u(budget)
    dof = budget.dof if budget else math.inf
    guard = _guard(rule, u, dof, budget.U_mm if budget else None)
    if u is None and rule is not Rule.SIMPLE:
        least = 0.0 if doubt_mm is None else number_of("Doubt", doubt_mm, at_least=0)
        guard = max(unnamed_doubt(value_mm, low_mm, high_mm, budget.U_mm if budget else None), least)
    verdict = _outcome(value_mm, low_mm, high_mm, u, dof, guard, rule)
    if budget is not None and budget.unfit and verdict is not Verdict.NO_SPEC:
        verdict = Verdict.UNDECIDED
    shown_u = budget.u_mm if budget else None
    probability = _probability(value_mm, low_mm, high_mm, shown_u, dof)
    expanded = budget.U_mm if budget else None
    coarse = expanded is not None and too_coarse(expanded, low_mm, high_mm)
    finding = finding_of(value_mm, low_mm, high_mm, budget, verdict, guard, rule, coarse, unit)
    judgement = Judgement(
        verdict,
        low_mm,
        high_mm,
        expanded,
        shown_u,
        guard,
        probability,
        coarse,
        size_words(value_mm, unit),
        finding,
        rule,
        budget is not None and budget.complete,
    )
    return Worked(judgement, partial(working_of, value_mm, judgement, dof, unit))


def judge_many(
    values: Sequence[float],
    lows: Sequence[float | None],
    highs: Sequence[float | None],
    us: Sequence[float | None],
    rule: Rule = Rule.CONFORMANCE_95,
    *,
    dofs: Sequence[float] | None = None,
    expanded: Sequence[float] | None = None,
) -> list[Verdict]:
    """The verdicts of many readings, as ``judge`` gives them, for grids; all lengths in mm.

    ``us`` are ``decisive_u`` of each budget (None: not known). ``expanded`` are the U of the 2013 rule
    (2·u without it), ``dofs`` the degrees of freedom (infinite without them).

    >>> [v.value for v in judge_many([25.003, 25.02], [25.0, None], [25.01, 25.01], [0.001, 0.001])]
    ['conforms', 'does not conform']
    """
    values, rule = numbers_of("Reading", values), word_of("Rule", rule, Rule)
    for name, row in (("Low limit", lows), ("High limit", highs), ("Uncertainty", us)):
        numbers_of(name, [end for end in row if end is not None] if None in row else row)
    infinite, line = math.inf, ON_THE_LINE_MM
    verdicts: list[Verdict] = []
    alike, guard = dofs is None and expanded is None, 0.0
    last: float | None = infinite
    for index, (value, low, high, u) in enumerate(zip(values, lows, highs, us, strict=True)):
        dof = dofs[index] if dofs is not None else infinite
        if not alike or u != last:
            guard, last = _guard(rule, u, dof, expanded[index] if expanded is not None else None), u
        if (  # well inside a tolerance that is not narrow: most of any grid, told without a call
            u is not None
            and low is not None
            and high is not None
            and low + guard - line <= value <= high - guard + line
            and high - low >= NARROW_IN_U * u
        ):
            verdicts.append(Verdict.CONFORMS)
        elif u is None and rule is not Rule.SIMPLE:
            doubt = unnamed_doubt(value, low, high, expanded[index] if expanded is not None else None)
            verdicts.append(_outcome(value, low, high, u, dof, doubt, rule))
        else:
            verdicts.append(_outcome(value, low, high, u, dof, guard, rule))
    return verdicts


def decisive_u(budget: Budget | None) -> float | None:
    """The standard uncertainty a verdict may rest on, or None where no error limit is known.

    >>> from rebuild.trade.limits.uncertainty import SUM, Component, combine
    >>> parts = [Component("u", 0.003, math.inf, "", SUM)]
    >>> decisive_u(combine(parts).value), decisive_u(combine(parts, complete=False).value)
    (0.003, None)
    """
    return budget.u_mm if budget is not None and budget.complete else None


def too_coarse(U_mm: float, low_mm: float | None, high_mm: float | None) -> bool:
    """Whether U is more than a quarter of the tolerance; a high limit alone counts from zero.

    >>> too_coarse(0.003, 25.0, 25.01), too_coarse(0.0025, 25.0, 25.01)
    (True, False)
    """
    tolerance = tolerance_of(maybe_number_of("Low limit", low_mm), maybe_number_of("High limit", high_mm))
    return tolerance is not None and U_mm > QUARTER * tolerance + ON_THE_LINE_MM


def conformance_probability(
    value_mm: float, low_mm: float | None, high_mm: float | None, u_mm: float | None, dof: float = math.inf
) -> float | None:
    """The chance that the true size lies inside the limits (JCGM 106), or None without u or limits.

    >>> round(conformance_probability(25.0079, 25.0, 25.01, 0.001), 5)
    0.98214
    """
    value_mm, u_mm, dof = (
        number_of("Size", value_mm),
        maybe_number_of("Uncertainty", u_mm),
        number_of("Degrees of freedom", dof, finite=False),
    )
    low_mm, high_mm = maybe_number_of("Low limit", low_mm), maybe_number_of("High limit", high_mm)
    return _probability(value_mm, low_mm, high_mm, u_mm, dof)


def _probability(
    value: float, low: float | None, high: float | None, u: float | None, dof: float
) -> float | None:
    """The same for numbers already looked at: a grid asks it of every narrow tolerance."""
    if not u or (low is None and high is None):
        return None
    below = 1.0 if high is None else student_below((high - value) / u, max(dof, 1.0))
    under = 0.0 if low is None else student_below((low - value) / u, max(dof, 1.0))
    return below - under


def _guard(rule: Rule, u: float | None, dof: float, expanded: float | None) -> float:
    """Width of the guard band [mm]."""
    if rule is Rule.SIMPLE or u is None:
        return 0.0
    if rule is Rule.GUARD_U:
        return 2.0 * u if expanded is None else expanded
    return u * (ONE_SIDED_95 if dof == math.inf else student_t(0.90, max(dof, 1.0)))


def _outcome(
    value: float, low: float | None, high: float | None, u: float | None, dof: float, guard: float, rule: Rule
) -> Verdict:
    if low is None and high is None:
        return Verdict.NO_SPEC
    line = ON_THE_LINE_MM
    if (low is not None and value < low - guard - line) or (high is not None and value > high + guard + line):
        return Verdict.DOES_NOT
    if u is None and rule is not Rule.SIMPLE:
        return Verdict.UNDECIDED
    if (low is not None and value < low + guard - line) or (high is not None and value > high - guard + line):
        return Verdict.UNDECIDED
    narrow = rule is Rule.CONFORMANCE_95 and u and low is not None and high is not None
    if narrow and high - low < NARROW_IN_U * u:  # type: ignore[operator]
        probability = _probability(value, low, high, u, dof)
        if probability is not None and probability < 0.95:
            return Verdict.UNDECIDED
    return Verdict.CONFORMS


def _refuse_bad(value: float, low: float | None, high: float | None) -> None:
    number_of("Verdict", value, finite=False)
    for number in (value, low, high):
        if number is not None and not math.isfinite(number_of("Verdict", number, finite=False)):
            raise BadEntry("is not a size.", where="Verdict", value=f"{number}", way_out="Type a length.")
    if low is not None and high is not None and low > high:
        raise BadEntry(
            "lies above the high limit.",
            where="Low limit",
            value=said(low),
            way_out=f"The high limit is {said(high)}; swap them.",
        )
