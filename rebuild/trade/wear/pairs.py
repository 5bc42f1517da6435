"""What the wear rules say of a part by the fits it is in: which side gives way, and worn screws."""

from __future__ import annotations

from rebuild.trade.limits.judgement import Verdict
from rebuild.trade.results.working import Sheet
from rebuild.trade.wear.direction import CHEAP
from rebuild.trade.wear.facts import FitFact, PartFacts, Proposal, judged, made, shown
from rebuild.trade.wear.rules import Do, Preference, Rules, has_word
from rebuild.words.decisions import Decision
from rebuild.words.fits import FitJoint


def by_fit(facts: PartFacts, fit: FitFact, rules: Rules) -> list[Proposal]:
    """What the rules say of a part because of one fit.

    >>> from rebuild.trade.wear.rules import rules
    >>> from rebuild.words.fits import FitKind
    >>> fit = FitFact("bush on shaft", FitJoint.HOLE_AND_SHAFT, FitKind.RUNNING, "mm", "bore", "shaft", None,
    ...               Verdict.DOES_NOT, 20.0, 0.2, 0.2, 0.02, 0.05)
    >>> [proposal.decision.value for proposal in by_fit(PartFacts("apron bush"), fit, rules())][-1]
    'remake'
    """
    found = _by_clearance(facts, fit, rules)
    if fit.verdict is Verdict.DOES_NOT:
        found.append(_which_side(facts, fit, rules))
        found += _uneven_screw(facts, fit, rules)
    return found


def _by_clearance(facts: PartFacts, fit: FitFact, rules: Rules) -> list[Proposal]:
    names = f"{facts.name}, {fit.own_feature}"
    if fit.most_mm is None or not fit.size_mm:
        return []
    found = []
    for rule in rules.criteria:
        if rule.measure != "clearance" or rule.left_out or fit.joint not in rule.joints:
            continue
        if (rule.fit_kinds and fit.kind not in rule.fit_kinds) or not rule.speaks_of(names):
            continue
        how = f"loosest place of {fit.title}: {shown(fit.most_mm, fit.unit)}"
        proposal = judged(rule, names, (max(fit.most_mm, 0.0), how), fit.size_mm, fit.unit)
        if proposal is not None and (
            proposal.decision != Decision.REUSE or fit.verdict is not Verdict.DOES_NOT
        ):
            found.append(proposal)
    return found


def _which_side(facts: PartFacts, fit: FitFact, rules: Rules) -> Proposal:
    """The cheap part of a pair is sacrificed; a side the owner named master is not touched."""
    mine, theirs = rules.dear(facts.name), rules.dear(fit.mate)
    give_way = mine <= theirs if fit.is_master is None else not fit.is_master
    rule = _preference(facts, fit, rules)
    sheet = Sheet(f"Which side of {fit.title} to change")
    sheet.read("fit", f"{fit.verdict.value}: {_fit_value(fit)}")
    chosen = {True: f"{fit.mate} follows", False: f"{fit.mate} is the master", None: "none chosen"}[
        fit.is_master
    ]
    sheet.read("master", chosen)
    sheet.table(rule.title, rule.text, rule.source)
    sheet.equation("how dear to replace, 1 to 5", f"{facts.name} {mine}, {fit.mate} {theirs}")
    if give_way:
        do = _to_suit(fit, mine)
        why = f"{rule.title.lower()}: {fit.title} {fit.verdict.value}, and this is the part that follows"
    else:
        do = Do(Decision.REUSE, f"leave it, and put {fit.title} right with {fit.mate}")
        why = f"{rule.title.lower()}: {fit.title} {fit.verdict.value}, and {fit.mate} is the one to change"
    sheet.result("proposed", f"{do.decision}: {do.method}")
    weight = 150.0 if give_way else 40.0
    return made(do, why, rule.key, rule.title, rule.source, False, weight, _fit_value(fit), sheet)


def _to_suit(fit: FitFact, dear: int) -> Do:
    """A hole and shaft too loose want metal, which no rework of one side alone puts back; too tight, less of it."""
    if dear <= CHEAP:
        return Do(Decision.REMAKE, f"to suit {fit.mate} as it is")
    if fit.joint is FitJoint.HOLE_AND_SHAFT and fit.most_mm is not None:
        if fit.high_mm is not None and fit.most_mm > fit.high_mm:
            return Do(Decision.REWORK, f"sleeve, bush or build it up to suit {fit.mate} as it is")
        return Do(Decision.REWORK, f"take it down or open it out to suit {fit.mate} as it is")
    return Do(Decision.REWORK, f"to suit {fit.mate} as it is")


def _preference(facts: PartFacts, fit: FitFact, rules: Rules) -> Preference:
    for rule in rules.preferences:
        if rule.joint is fit.joint:
            return rule
    names = f"{facts.name} {fit.mate} {fit.own_feature}"
    if has_word(names, ("keyway", "key"), False):
        return rules.preference("key-before-keyway")
    bush = rules.preference("bush-before-casting")
    return bush if has_word(names, bush.words, False) else rules.preference("cheap-before-dear")


def _uneven_screw(facts: PartFacts, fit: FitFact, rules: Rules) -> list[Proposal]:
    """A screw whose wear is uneven beyond the wanted range cannot be suited by any nut."""
    low, high = fit.low_mm or 0.0, fit.high_mm
    if (
        fit.joint is not FitJoint.NUT_AND_SCREW
        or high is None
        or not has_word(facts.name, ("screw", "leadscrew"), False)
    ):
        return []
    if fit.own_uneven_mm <= high - low:
        return []
    rule = rules.preference("uneven-wear")
    sheet = Sheet(f"Uneven wear in {fit.title}")
    sheet.read("largest less smallest along the screw", shown(fit.own_uneven_mm, fit.unit))
    sheet.read("range to be", f"{shown(high - low, fit.unit)} wide")
    sheet.table(rule.title, rule.text, rule.source)
    sheet.equation(
        "loss a nut cannot take up", f"{shown(fit.own_uneven_mm, fit.unit)} > {shown(high - low, fit.unit)}"
    )
    do = Do(Decision.REMAKE, "new screw; then the nut to the new screw")
    sheet.result("proposed", f"{do.decision}: {do.method}")
    uneven = shown(fit.own_uneven_mm, fit.unit)
    why = f"worn unevenly by {uneven}, more than the range it is to be in: no nut suits it everywhere"
    return [
        made(
            do,
            why,
            rule.key,
            rule.title,
            rule.source,
            False,
            260.0,
            shown(fit.own_uneven_mm, fit.unit),
            sheet,
        )
    ]


def _fit_value(fit: FitFact) -> str:
    if fit.least_mm is None or fit.most_mm is None:
        return "not measured"
    least, most = shown(fit.least_mm, fit.unit), shown(fit.most_mm, fit.unit)
    return least if least == most else f"{least} to {most}"
