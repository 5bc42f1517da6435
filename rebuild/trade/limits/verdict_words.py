"""A verdict in words: what is found of a reading, and the lines of its working."""

from __future__ import annotations

import math

from rebuild.trade.limits.judgement import ON_THE_LINE_MM, Judgement, Rule, Verdict, tolerance_of
from rebuild.trade.limits.uncertainty import Budget
from rebuild.trade.limits.unnamed import UNNAMED
from rebuild.trade.results.working import Sheet, Source, Status, Working
from rebuild.trade.sizes.show import DECIMALS, show_length

STANDARD_2017 = Source("ISO 14253-1:2017", "default: 95 % conformance probability, guard 1.645·u")
STANDARD_2013 = Source("ISO 14253-1:2013", "guard band of the expanded uncertainty U")
PROBABILITY = Source("JCGM 106:2012", "conformance probability", Status.PUBLISHED)
COARSE = Source("shop rule", "U at most a quarter of the tolerance", Status.COMMON_PRACTICE)


def finding_of(
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
    """What is found of a reading, as the part of a sentence that stands behind it; lengths in mm, shown in ``unit``.

    >>> finding_of(25.003, 25.0, 25.01, None, Verdict.CONFORMS, 0.0, Rule.SIMPLE, False, "mm")
    'conforms; it is 0.0030 mm inside the low limit; uncertainty is not counted (simple acceptance).'
    """
    if verdict is Verdict.NO_SPEC:
        return "no limits are set."
    place = _place(value, low, high, unit)
    words = f"{verdict.value}; it is {place}"
    if budget is not None and budget.unfit:
        return f"{words}, but it {budget.unfit} Nothing is proven by it."
    if rule is Rule.SIMPLE:
        words += "; uncertainty is not counted (simple acceptance)."
    elif (budget is None or not budget.complete) and verdict is Verdict.DOES_NOT:
        words += f", by more than any instrument's doubt here ({_small(guard, unit)}), though none is named."
    elif budget is None or not budget.complete:
        words += ", but no instrument with a known error limit is named, so nothing is proven."
        words += " Name it or type its limit."
    else:
        words += f"; the guard band is {_small(guard, unit)} ({rule.value})."
    tolerance = tolerance_of(low, high)
    if coarse and budget and budget.complete and tolerance is not None:
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


def working_of(value: float, judgement: Judgement, dof: float, unit: str) -> Working:
    """The lines a verdict rests on: reading, limits, uncertainty, guard band, probability.

    >>> simple = Judgement(
    ...     Verdict.CONFORMS, 25.0, 25.01, None, None, 0.0, None, False, "25.003 mm", "conforms", Rule.SIMPLE
    ... )
    >>> [step.text for step in working_of(25.003, simple, math.inf, "mm").steps][:2]
    ['25.003 mm', 'low 25.000 mm, high 25.010 mm']
    """
    sheet = Sheet("Verdict")
    limits = [
        f"{name} {size_words(limit, unit)}"
        for name, limit in (("low", judgement.low_mm), ("high", judgement.high_mm))
        if limit is not None
    ]
    sheet.read("reading", size_words(value, unit))
    sheet.read("limits", ", ".join(limits) or "none")
    if judgement.u_mm is not None and judgement.U_mm is not None:
        sheet.read("uncertainty", f"u {_small(judgement.u_mm, unit)}, U {_small(judgement.U_mm, unit)}")
        _guard_lines(sheet, judgement, dof, unit)
    else:
        sheet.note("No uncertainty is known.")
        if judgement.verdict is not Verdict.NO_SPEC and judgement.rule is not Rule.SIMPLE:
            sheet.equation("out if past its limit by more than", _small(judgement.guard_mm, unit), UNNAMED)
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
    if not judgement.complete and judgement.rule is not Rule.SIMPLE:
        sheet.equation("out if past its limit by more than", guard, UNNAMED)
    elif judgement.rule is Rule.GUARD_U:
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


def size_words(mm: float, unit: str) -> str:
    """A size with the usual digits, and one more where those would round it."""
    usual = show_length(mm, unit)
    finer = show_length(mm, unit, DECIMALS[unit] + 1)
    return usual if finer.split()[0] == usual.split()[0] + "0" else finer
