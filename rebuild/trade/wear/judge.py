"""What the wear rules propose for one part, each with its working. They propose; the owner decides."""

from __future__ import annotations

from dataclasses import replace

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.results.working import Sheet
from rebuild.trade.wear.direction import Metal, metal, outside_limits
from rebuild.trade.wear.facts import (
    LIMITS,
    FeatureFact,
    FitFact,
    PartFacts,
    Proposal,
    judged,
    made,
    measure,
    shown,
)
from rebuild.trade.wear.pairs import by_fit
from rebuild.trade.wear.rules import Criterion, Do, Preference, Rules, has_word, is_one
from rebuild.words.decisions import Decision

__all__ = ["FeatureFact", "FitFact", "PartFacts", "Proposal", "propose"]


def propose(facts: PartFacts, rules: Rules) -> tuple[Proposal, ...]:
    """What the rules say of a part, what presses most first.

    >>> from rebuild.trade.wear.rules import rules
    >>> from rebuild.words.readings import FeatureKind
    >>> journal = FeatureFact("journal A", FeatureKind.OUTSIDE_DIAMETER, "in", (("", 15.7759),), low_mm=15.8623)
    >>> [(p.decision.value, p.rule_key) for p in propose(PartFacts("AP-11 shaft", (journal,)), rules())]
    [('remake', 'shaft-journal')]
    """
    found: list[Proposal] = []
    for feature in facts.features:
        found += _by_feature(facts, feature, rules)
    for fit in facts.fits:
        found += by_fit(facts, fit, rules)
    if any(_reads_outside(feature) for feature in facts.features):
        found = [proposal for proposal in found if proposal.decision is not Decision.REUSE]
    found += _always_new(facts, rules)
    if not any(proposal.decision != Decision.REUSE for proposal in found):
        found += _reuse(facts)
    kept: dict[tuple[str, str], Proposal] = {}
    for proposal in sorted(found, key=lambda proposal: -proposal.weight):
        kept.setdefault((proposal.decision, proposal.rule_key), proposal)
    return tuple(kept.values())


def _reads_outside(feature: FeatureFact) -> bool:
    """Whether it reads outside its limits, though that may not be proven: then nothing leaves the part as it is."""
    if feature.verdict is not Verdict.UNDECIDED:
        return False
    values = [value for _, value in feature.readings]
    low, high = feature.low_mm, feature.high_mm
    return (low is not None and min(values) < low) or (high is not None and max(values) > high)


def _by_feature(facts: PartFacts, feature: FeatureFact, rules: Rules) -> list[Proposal]:
    found: list[Proposal] = []
    names = f"{facts.name}, {feature.name}"
    for rule in rules.criteria:
        if rule.left_out or feature.kind not in rule.kinds or not rule.speaks_of(names):
            continue
        got = measure(rule, feature)
        if got is not None:
            size = feature.nominal_mm or max(value for _, value in feature.readings)
            proposal = judged(rule, names, got, size, feature.unit)
            if proposal is not None and not _form_answers_for_size(rule, proposal, names, feature):
                found.append(proposal)
    out = feature.verdict is Verdict.DOES_NOT
    listed = [proposal for proposal in found if proposal.decision != Decision.REUSE or not out]
    if out:
        listed += _first_causes(names, feature, rules)
        listed += _other_side(facts, feature, rules)
        if not any(proposal.decision in (Decision.REMAKE, Decision.REWORK) for proposal in listed):
            listed.append(outside_limits(names, feature, rules.dear(facts.name)))
    return listed


def _form_answers_for_size(rule: Criterion, proposal: Proposal, names: str, feature: FeatureFact) -> bool:
    """A round bore may be worn round: its form leaves or trues it only where its size has the metal for it."""
    if not rule.form_only:
        return False
    if proposal.decision is Decision.REUSE:
        return feature.verdict is not Verdict.CONFORMS
    return proposal.decision is Decision.REWORK and metal(names, feature) is Metal.MISSING


def _first_causes(names: str, feature: FeatureFact, rules: Rules) -> list[Proposal]:
    rule = rules.preference("cheap-causes-first")
    if feature.kind not in rule.kinds:
        return []
    return [
        _plain(rule, Do(Decision.DEFER, "tighten, clean, oil; then measure again"), names, feature, 190.0)
    ]


def _other_side(facts: PartFacts, feature: FeatureFact, rules: Rules) -> list[Proposal]:
    """One-sided wear: stations differ, the part can be turned, and not every station lacks metal."""
    rule = rules.preference("other-side")
    values = [value for _, value in feature.readings]
    if len(values) < 2 or max(values) - min(values) < 0.0127 or not has_word(facts.name, rule.words, False):
        return []
    names = f"{facts.name}, {feature.name}"
    if all(metal(names, replace(feature, readings=(one,))) is Metal.MISSING for one in feature.readings):
        return []
    do = Do(Decision.REWORK, "use the other side: turn it end for end or flip it")
    return [_plain(rule, do, names, feature, 120.0)]


def _plain(rule: Preference, do: Do, names: str, feature: FeatureFact, weight: float) -> Proposal:
    values = [value for _, value in feature.readings]
    sheet = Sheet(f"{rule.title}: {names}")
    sheet.read(
        feature.name, f"{', '.join(shown(value, feature.unit) for value in values)}: {feature.verdict.value}"
    )
    sheet.table(rule.title, rule.text, rule.source)
    sheet.result("proposed", f"{do.decision}: {do.method}")
    worst = shown(max(values, key=abs), feature.unit)
    return made(
        do,
        rule.text[:1].lower() + rule.text[1:].rstrip("."),
        rule.key,
        rule.title,
        rule.source,
        False,
        weight,
        worst,
        sheet,
    )


def _always_new(facts: PartFacts, rules: Rules) -> list[Proposal]:
    rule = rules.preference("always-new")
    if not is_one(facts.name, rule.words):
        return []
    sheet = Sheet(f"{rule.title}: {facts.name}")
    sheet.table(rule.title, rule.text, rule.source)
    do = Do(Decision.BUY, "new, of the same size")
    sheet.result("proposed", f"{do.decision}: {do.method}")
    return [
        made(
            do,
            rule.text[:1].lower() + rule.text[1:].rstrip("."),
            rule.key,
            rule.title,
            rule.source,
            False,
            130.0,
            "",
            sheet,
        )
    ]


def _reuse(facts: PartFacts) -> list[Proposal]:
    every = [feature.verdict for feature in facts.features] + [fit.verdict for fit in facts.fits]
    known = {verdict for verdict in every if verdict is not Verdict.NO_SPEC}
    if known != {Verdict.CONFORMS}:
        return []
    sheet = Sheet(f"All of {facts.name} conforms")
    for feature in facts.features:
        if feature.verdict is not Verdict.NO_SPEC:
            sheet.read(feature.name, feature.verdict.value)
    for fit in facts.fits:
        if fit.verdict is not Verdict.NO_SPEC:
            sheet.read(fit.title, fit.verdict.value)
    sheet.result("proposed", "reuse: as it is, cleaned", LIMITS)
    return [
        made(
            Do(Decision.REUSE, "as it is, cleaned"),
            "everything measured conforms",
            "limits",
            "Within its limits",
            LIMITS,
            False,
            10.0,
            "",
            sheet,
        )
    ]
