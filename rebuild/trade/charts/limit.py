"""What is allowed at a position over the length really read, and the verdict with its sign in words."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import OutOfRange
from rebuild.trade.charts.entry import SignWords
from rebuild.trade.charts.geometry_tests import limit_source
from rebuild.trade.limits.judgement import Judgement, Rule, Verdict
from rebuild.trade.limits.uncertainty import Budget
from rebuild.trade.limits.verdict import judge
from rebuild.trade.results.working import Sheet, Source, Status, Worked, joined
from rebuild.trade.sizes.given import maybe_number_of, record_of, word_of
from rebuild.trade.sizes.show import show_length
from rebuild.words.charts import LimitLength, LimitSign, LimitStatus

SCALED = Source(
    "ISO 230-1", "a tolerance over one length holds for another in proportion", Status.FROM_MEMORY
)
#: Lengths nearer to each other than this share are the same length.
SAME = 0.005


@dataclass(frozen=True, slots=True)
class Allowed:
    """A limit as stored: a size [mm] over a length [mm], how it scales, and where it comes from."""

    allowed_mm: float | None
    per_mm: float | None
    along: LimitLength
    origin: str
    status: LimitStatus
    text: str


def allowed_over(
    limit: Allowed, over_mm: float | None, where: str = "Length read over"
) -> Worked[float | None]:
    """What is allowed over the length read [mm]; None when no figure is known.

    Raises:
        OutOfRange: a limit that holds over its own length only, read over a longer or shorter one.

    >>> limit = Allowed(0.02, 300, LimitLength.PROPORTION, "", LimitStatus.OWN, "0.02 mm per 300 mm")
    >>> round(allowed_over(limit, 150).value, 6)
    0.01
    """
    record_of("Limit", limit, Allowed)
    sheet = Sheet("The limit over the length read")
    if limit.allowed_mm is None:
        sheet.note("No figure is known for this position; type one with where it comes from.")
        return Worked(None, sheet.close())
    sheet.table("limit", limit.text, limit_source(limit.origin, limit.status))
    per, over_mm = limit.per_mm, maybe_number_of(where, over_mm)
    if over_mm is None or per is None or abs(over_mm - per) <= SAME * per:
        return Worked(limit.allowed_mm, sheet.close())
    if limit.along is LimitLength.FIXED:
        raise OutOfRange(
            f"is not the {per:g} mm the limit {limit.text} is given over, and that limit does not scale.",
            where=where,
            value=f"{over_mm:g} mm",
            way_out="Read it over that length, or change the limit with its origin.",
        )
    allowed = limit.allowed_mm * over_mm / per
    sheet.equation(
        "in proportion", f"{limit.allowed_mm:g} mm · {over_mm:g} / {per:g} = {allowed:.4g} mm", SCALED
    )
    if over_mm > per:
        sheet.note(f"Read over more than the {per:g} mm the limit is given for.")
    return Worked(allowed, sheet.close())


def bounds(sign: LimitSign, allowed_mm: float | None) -> tuple[float | None, float | None]:
    """Low and high limit [mm] of a signed limit.

    >>> bounds(LimitSign.EITHER, 0.02), bounds(LimitSign.PLUS_ONLY, 0.02), bounds(LimitSign.SIZE, 0.02)
    ((-0.02, 0.02), (0.0, 0.02), (None, 0.02))
    """
    sign, allowed_mm = word_of("Sign", sign, LimitSign), maybe_number_of("Limit", allowed_mm)
    if allowed_mm is None:
        return (0.0, None) if sign is LimitSign.PLUS_ONLY else (None, None)
    return {LimitSign.EITHER: -allowed_mm, LimitSign.PLUS_ONLY: 0.0, LimitSign.SIZE: None}[sign], allowed_mm


def judge_deviation(
    value_mm: float,
    limit: Allowed,
    words: SignWords,
    over_mm: float | None,
    budget: Worked[Budget] | None,
    rule: Rule,
    unit: str,
) -> Worked[Judgement]:
    """A deviation against its signed limit over the length read.

    Raises:
        OutOfRange: the limit does not hold for that length.

    >>> limit = Allowed(0.02, 300, LimitLength.PROPORTION, "", LimitStatus.OWN, "0.02 mm per 300 mm")
    >>> rising = SignWords(LimitSign.PLUS_ONLY, "rising", "falling")
    >>> judge_deviation(-0.005, limit, rising, 300, None, Rule.SIMPLE, "mm").value.verdict.value
    'does not conform'
    """
    allowed = allowed_over(limit, over_mm)
    low, high = bounds(words.sign, allowed.value)
    judged = judge(value_mm, low, high, budget.value if budget else None, rule, unit=unit)
    sheet = Sheet("The sign")
    sheet.note(sign_sentence(words, value_mm, unit))
    parts = [allowed.working, sheet.close(), *([budget.working] if budget else []), judged.working]
    return Worked(judged.value, joined(judged.working.title, parts))


def sign_sentence(words: SignWords, value_mm: float, unit: str) -> str:
    """What the sign of a deviation says.

    >>> sign_sentence(SignWords(LimitSign.PLUS_ONLY, "hollow", "proud in the middle"), -0.01, "mm")
    'Only hollow is allowed; 0.010 mm is proud in the middle.'
    """
    said = words.says(value_mm)
    size = show_length(abs(value_mm), unit)
    if words.sign is LimitSign.PLUS_ONLY:
        return f"Only {words.plus or 'plus'} is allowed; {size} is {said or 'neither way'}."
    if words.sign is LimitSign.EITHER and said:
        return f"Either way is allowed; {size} is {said}."
    return "A size without a sign: the whole swing counts."


def wrong_way(words: SignWords, value_mm: float, verdict: Verdict) -> str:
    """``falling toward the free end``: said beside a verdict when the sign alone fails it; else empty.

    >>> wrong_way(SignWords(LimitSign.PLUS_ONLY, "rising", "falling"), -0.005, Verdict.DOES_NOT)
    'falling'
    """
    if verdict is Verdict.DOES_NOT and words.sign is LimitSign.PLUS_ONLY and value_mm < 0:
        return words.minus or "the wrong way"
    return ""
