"""What the wear rules look at in a part, their measures, and the proposal they make."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.results.working import Sheet, Source, Status, Working
from rebuild.trade.sizes.show import DECIMALS, show_length
from rebuild.trade.wear.rules import Criterion, Do, limit_words
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint, FitKind
from rebuild.words.readings import FeatureKind

INSIDE_KINDS = frozenset({FeatureKind.BORE, FeatureKind.KEYWAY})
GOOD, BAND, OVER = 0, 1, 2
LIMITS = Source("the part's own limits", "verdict by ISO 14253-1", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class FeatureFact:
    """What was measured on one feature [mm]: (station, value) as it speaks now, and its limits."""

    name: str
    kind: FeatureKind
    unit: str
    readings: tuple[tuple[str, float], ...]
    nominal_mm: float | None = None
    low_mm: float | None = None
    high_mm: float | None = None
    verdict: Verdict = Verdict.NO_SPEC
    #: Expanded uncertainty of each reading [mm], in their order; None where it has none. Empty: not asked for.
    U_mm: tuple[float | None, ...] = ()


@dataclass(frozen=True, slots=True)
class FitFact:
    """A fit the part is in [mm]. ``is_master``: whether this part is the side not to be touched."""

    title: str
    joint: FitJoint
    kind: FitKind
    unit: str
    own_feature: str
    mate: str
    is_master: bool | None
    verdict: Verdict
    size_mm: float | None
    most_mm: float | None
    least_mm: float | None
    low_mm: float | None
    high_mm: float | None
    own_uneven_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class PartFacts:
    """What is known of a part."""

    name: str
    features: tuple[FeatureFact, ...] = ()
    fits: tuple[FitFact, ...] = ()


@dataclass(frozen=True, slots=True)
class Proposal:
    """One way a rule points: the decision's word, how, why, and the working. ``weight`` orders them."""

    decision: Decision
    method: str
    why: str
    rule_key: str
    rule: str
    source: Source
    edited: bool
    weight: float
    value: str
    working: Working


def measure(rule: Criterion, feature: FeatureFact) -> tuple[float, str] | None:
    """The rule's measure of a feature [mm] and how it was got; None where it cannot be taken.

    >>> from rebuild.trade.wear.rules import rules
    >>> drop = next(rule for rule in rules().criteria if rule.key == "way-drop")
    >>> measure(drop, FeatureFact("front way", FeatureKind.WAY, "mm", (("near", 0.02), ("far", 0.05))))
    (0.05, 'largest reading 0.050 mm')
    """
    values = [value for _, value in feature.readings]
    if not values:
        return None
    if rule.measure == "reading":
        worst = max(values, key=abs)
        return abs(worst), f"largest reading {shown(worst, feature.unit)}"
    if rule.measure == "uneven":
        if len(values) < 2:
            return None
        return max(values) - min(values), (
            f"{shown(max(values), feature.unit)} - {shown(min(values), feature.unit)} between stations"
        )
    return _wear(feature, values) if rule.measure == "wear" else None


def _wear(feature: FeatureFact, values: Sequence[float]) -> tuple[float, str] | None:
    inside = feature.kind in INSIDE_KINDS
    if inside:
        base = feature.high_mm if feature.high_mm is not None else feature.nominal_mm
    else:
        base = feature.low_mm if feature.low_mm is not None else feature.nominal_mm
    against = "its limit" if base is not None and base != feature.nominal_mm else "nominal"
    if base is None:
        if len(values) < 2:
            return None
        base, against = (min(values) if inside else max(values)), "its least worn station"
    worst = max(values) if inside else min(values)
    worn = max(0.0, worst - base if inside else base - worst)
    words = f"{shown(worst, feature.unit)} against {against} {shown(base, feature.unit)}"
    return worn, words


def judged(rule: Criterion, names: str, got: tuple[float, str], size_mm: float, unit: str) -> Proposal | None:
    """What a rule proposes for its measure ``got`` (value [mm], how it was got); None without a size it needs.

    >>> from rebuild.trade.wear.rules import rules
    >>> drop = next(rule for rule in rules().criteria if rule.key == "way-drop")
    >>> [judged(drop, "bed", (mm, "read"), 0.0, "mm").method for mm in (0.05, 0.3)]
    ['leave it', 'regrind, plane or scrape the whole way']
    """
    good, rework = rule.good.at(size_mm), rule.rework.at(size_mm)
    if good is None or rework is None:
        return None
    value, how = got
    band = GOOD if value <= good + 1e-9 else BAND if value <= rework + 1e-9 else OVER
    do = (rule.good_do, rule.band_do, rule.over_do)[band]
    against = (good, rework, rework)[band]
    sheet = Sheet(f"{rule.title}: {names}")
    sheet.read(rule.measure, how)
    sheet.table("limits", limit_words(rule), rule.source)
    if rule.good.per_size or rule.rework.per_size:
        sheet.equation(
            "at this size", f"{shown(good, unit)} and {shown(rework, unit)} at {shown(size_mm, unit)}"
        )
    sign = "≤" if band != OVER else ">"
    sheet.equation("found", f"{shown(value, unit)} {sign} {shown(against, unit)}")
    if rule.note:
        sheet.note(rule.note)
    sheet.result("proposed", f"{do.decision}: {do.method}")
    said = ("good up to", "mended up to", "over")[band]
    why = f"{rule.title.lower()} {shown(value, unit)}, {said} {shown(against, unit)}"
    weight = band * 100 + min(value / against if against else 0.0, 50.0)
    return made(do, why, rule.key, rule.title, rule.source, rule.edited, weight, shown(value, unit), sheet)


def made(
    do: Do,
    why: str,
    key: str,
    title: str,
    source: Source,
    edited: bool,
    weight: float,
    value: str,
    sheet: Sheet,
) -> Proposal:
    """A proposal from what is to be done, why, and the sheet that shows it.

    >>> new = Do(Decision.BUY, "new")
    >>> made(new, "worn", "k", "Rule", LIMITS, False, 1.0, "", Sheet("Felt")).decision.value
    'buy'
    """
    return Proposal(do.decision, do.method, why, key, title, source, edited, weight, value, sheet.close())


def shown(mm: float, unit: str) -> str:
    """A length with the decimals of its unit.

    >>> shown(0.0254, "in")
    '0.0010 in'
    """
    return show_length(mm, unit, DECIMALS.get(unit, 3))
