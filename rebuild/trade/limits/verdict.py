"""Does a reading conform? ISO 14253-1 with measuring uncertainty; limits signed and one-sided as well.

Rules on the line, declared: a reading exactly on the inner guard line conforms; non-conformity must be
passed strictly. Sizes within ``ON_THE_LINE_MM`` count as equal, because 25.010 - 0.002 is not exact in
binary.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from rebuild.errors import BadEntry
from rebuild.trade.limits.student import student_below, student_t
from rebuild.trade.limits.uncertainty import Budget
from rebuild.trade.show import DECIMALS, show_length
from rebuild.trade.working import Sheet, Source, Status, Worked, Working

#: Two sizes this near are the same size [mm]: far below any instrument, far above binary rounding.
ON_THE_LINE_MM = 1e-9
#: One-sided 95 % factor of ISO 14253-1:2017 for a normal distribution.
ONE_SIDED_95 = 1.645
#: Below this many u of tolerance both tails are counted.
NARROW_IN_U = 8.0
QUARTER = 0.25

STANDARD_2017 = Source("ISO 14253-1:2017", "default: 95 % conformance probability, guard 1.645·u")
STANDARD_2013 = Source("ISO 14253-1:2013", "guard band of the expanded uncertainty U")
PROBABILITY = Source("JCGM 106:2012", "conformance probability", Status.PUBLISHED)
COARSE = Source("shop rule", "U at most a quarter of the tolerance", Status.COMMON_PRACTICE)


class Verdict(StrEnum):
    """What can be said of a reading against its limits."""

    CONFORMS = "conforms"
    DOES_NOT = "does not conform"
    UNDECIDED = "undecided"
    NO_SPEC = "no spec"


class Rule(StrEnum):
    """How uncertainty is set against the limits; the default is the 2017 rule."""

    CONFORMANCE_95 = "95 % conformance (ISO 14253-1:2017)"
    GUARD_U = "guard band U (ISO 14253-1:2013)"
    SIMPLE = "simple acceptance (uncertainty not counted)"


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict with its limits, uncertainty, guard band [mm] and one sentence for the user."""

    verdict: Verdict
    low_mm: float | None
    high_mm: float | None
    U_mm: float | None
    u_mm: float | None
    guard_mm: float
    conformance_probability: float | None
    too_coarse: bool
    sentence: str
    rule: Rule = Rule.CONFORMANCE_95
    complete: bool = True


def judge(
    value_mm: float,
    low_mm: float | None,
    high_mm: float | None,
    budget: Budget | None,
    rule: Rule = Rule.CONFORMANCE_95,
    *,
    unit: str = "mm",
) -> Worked[Judgement]:
    """Set one reading against its limits.

    Without a budget, or with one that knows no instrument, nothing can be proven: the verdict is *undecided*
    unless the rule is simple acceptance. ``unit`` is the unit of the sentence.

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
    u = decisive_u(budget)
    dof = budget.dof if budget else math.inf
    guard = _guard(rule, u, dof, budget.U_mm if budget else None)
    verdict = _outcome(value_mm, low_mm, high_mm, u, dof, guard, rule)
    shown_u = budget.u_mm if budget else None
    probability = conformance_probability(value_mm, low_mm, high_mm, shown_u, dof)
    expanded = budget.U_mm if budget else None
    coarse = expanded is not None and too_coarse(expanded, low_mm, high_mm)
    sentence = _sentence(value_mm, low_mm, high_mm, budget, verdict, guard, rule, coarse, unit)
    judgement = Judgement(
        verdict, low_mm, high_mm, expanded, shown_u, guard, probability, coarse, sentence, rule,
        budget is not None and budget.complete,
    )  # fmt: skip
    return Worked(judgement, _working(value_mm, judgement, dof, unit))


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
    infinite = math.inf
    verdicts = []
    for index, (value, low, high, u) in enumerate(zip(values, lows, highs, us, strict=True)):
        dof = dofs[index] if dofs is not None else infinite
        guard = _guard(rule, u, dof, expanded[index] if expanded is not None else None)
        verdicts.append(_outcome(value, low, high, u, dof, guard, rule))
    return verdicts


def decisive_u(budget: Budget | None) -> float | None:
    """The standard uncertainty a verdict may rest on, or None where the instrument is not known."""
    return budget.u_mm if budget is not None and budget.complete else None


def too_coarse(U_mm: float, low_mm: float | None, high_mm: float | None) -> bool:
    """Whether U is more than a quarter of the tolerance; a high limit alone counts from zero.

    >>> too_coarse(0.003, 25.0, 25.01), too_coarse(0.0025, 25.0, 25.01)
    (True, False)
    """
    tolerance = _tolerance(low_mm, high_mm)
    return tolerance is not None and U_mm > QUARTER * tolerance + ON_THE_LINE_MM


def conformance_probability(
    value_mm: float, low_mm: float | None, high_mm: float | None, u_mm: float | None, dof: float = math.inf
) -> float | None:
    """The chance that the true size lies inside the limits (JCGM 106), or None without u or limits.

    >>> round(conformance_probability(25.0079, 25.0, 25.01, 0.001), 5)
    0.98214
    """
    if not u_mm or (low_mm is None and high_mm is None):
        return None
    below = 1.0 if high_mm is None else student_below((high_mm - value_mm) / u_mm, max(dof, 1.0))
    under = 0.0 if low_mm is None else student_below((low_mm - value_mm) / u_mm, max(dof, 1.0))
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
    if u is None and rule is not Rule.SIMPLE:
        return Verdict.UNDECIDED
    line = ON_THE_LINE_MM
    if (low is not None and value < low - guard - line) or (high is not None and value > high + guard + line):
        return Verdict.DOES_NOT
    if (low is not None and value < low + guard - line) or (high is not None and value > high - guard + line):
        return Verdict.UNDECIDED
    narrow = rule is Rule.CONFORMANCE_95 and u and low is not None and high is not None
    if narrow and high - low < NARROW_IN_U * u:  # type: ignore[operator]
        probability = conformance_probability(value, low, high, u, dof)
        if probability is not None and probability < 0.95:
            return Verdict.UNDECIDED
    return Verdict.CONFORMS


def _tolerance(low: float | None, high: float | None) -> float | None:
    if high is None:
        return None
    if low is None:
        return high if high > 0 else None
    return high - low


def _refuse_bad(value: float, low: float | None, high: float | None) -> None:
    for number in (value, low, high):
        if number is not None and not math.isfinite(number):
            raise BadEntry("is not a size.", where="Verdict", value=f"{number}", way_out="Type a length.")
    if low is not None and high is not None and low > high:
        raise BadEntry(
            "lies above the high limit.",
            where="Low limit",
            value=f"{low:.6g} mm",
            way_out=f"The high limit is {high:.6g} mm; swap them.",
        )


def _sentence(
    value: float,
    low: float | None,
    high: float | None,
    budget: Budget | None,
    verdict: Verdict,
    guard: float,
    rule: Rule,
    coarse: bool,
    unit: str,
) -> str:
    if verdict is Verdict.NO_SPEC:
        return f"{_size(value, unit)}: no limits are set."
    place = _place(value, low, high, unit)
    words = f"{_size(value, unit)} {verdict.value}: it is {place}"
    if rule is Rule.SIMPLE:
        words += "; uncertainty is not counted (simple acceptance)."
    elif budget is None or not budget.complete:
        words += ", but no instrument is named, so its uncertainty is not known. Name the instrument."
    else:
        words += f"; the guard band is {_small(guard, unit)} ({rule.value})."
    tolerance = _tolerance(low, high)
    if coarse and budget and tolerance is not None:
        words += (
            f" The instrument is too coarse: its uncertainty of ±{_small(budget.U_mm, unit)} is more than"
            f" a quarter of the tolerance of {_small(tolerance, unit)}."
        )
    return words


def _place(value: float, low: float | None, high: float | None, unit: str) -> str:
    """Where the reading lies against its nearer limit."""
    room = [(value - low, "low")] if low is not None else []
    room += [(high - value, "high")] if high is not None else []
    margin, side = min(room)
    if abs(margin) <= ON_THE_LINE_MM:
        return f"on the {side} limit"
    beyond = "below" if side == "low" else "above"
    return f"{_small(abs(margin), unit)} {'inside' if margin > 0 else beyond} the {side} limit"


def _working(value: float, judgement: Judgement, dof: float, unit: str) -> Working:
    sheet = Sheet("Verdict")
    limits = [
        f"{name} {_size(limit, unit)}"
        for name, limit in (("low", judgement.low_mm), ("high", judgement.high_mm))
        if limit is not None
    ]
    sheet.read("reading", _size(value, unit))
    sheet.read("limits", ", ".join(limits) or "none")
    if judgement.u_mm is not None and judgement.U_mm is not None:
        sheet.read("uncertainty", f"u {_small(judgement.u_mm, unit)}, U {_small(judgement.U_mm, unit)}")
        _guard_lines(sheet, judgement, dof, unit)
    else:
        sheet.note("No uncertainty is known.")
    if judgement.conformance_probability is not None:
        sheet.equation(
            "conformance probability", f"{100 * judgement.conformance_probability:.2f} %", PROBABILITY
        )
    if judgement.too_coarse:
        sheet.note("U is more than a quarter of the tolerance.", COARSE)
    sheet.note("On the inner guard line counts as conforming; non-conformity must be passed strictly.")
    sheet.result("verdict", judgement.sentence)
    return sheet.close()


def _guard_lines(sheet: Sheet, judgement: Judgement, dof: float, unit: str) -> None:
    guard = _small(judgement.guard_mm, unit)
    if judgement.rule is Rule.GUARD_U:
        sheet.equation("guard band", f"U = {guard}", STANDARD_2013)
    elif judgement.rule is Rule.CONFORMANCE_95 and judgement.u_mm:
        factor = judgement.guard_mm / judgement.u_mm
        freedom = "" if math.isinf(dof) else f" (t, one-sided 95 %, {dof:.1f} degrees of freedom)"
        sheet.equation("guard band", f"{factor:.3f}·u{freedom} = {guard}", STANDARD_2017)
    else:
        sheet.note("Simple acceptance: the uncertainty is not counted.")


def _small(mm: float, unit: str) -> str:
    """A small difference, with one more digit than the size itself."""
    return show_length(mm, unit, 5 if unit == "in" else 4)


def _size(mm: float, unit: str) -> str:
    """A size with the usual digits, and one more where those would round it."""
    usual = show_length(mm, unit)
    finer = show_length(mm, unit, DECIMALS[unit] + 1)
    return usual if finer.split()[0] == usual.split()[0] + "0" else finer
