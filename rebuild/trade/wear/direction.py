"""A reading outside its limits, by its direction: metal is missing, is to come off, or only the form is out.

No cutting puts metal back: a bore over its high limit or a shaft under its low one is sleeved, bushed or built up,
made new, or its mate is fitted to it. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum, auto

from rebuild.trade.results.working import Sheet
from rebuild.trade.wear.facts import INSIDE_KINDS, LIMITS, FeatureFact, Proposal, made, shown
from rebuild.trade.wear.rules import Do, has_word
from rebuild.words.decisions import Decision
from rebuild.words.readings import FeatureKind

#: Up to this dear to replace (1 to 5) a part is made new rather than built up.
CHEAP = 2
_CUT_IN = INSIDE_KINDS | {FeatureKind.DEPTH}
_ROUND_OUT = frozenset(
    {FeatureKind.OUTSIDE_DIAMETER, FeatureKind.LENGTH, FeatureKind.HEIGHT, FeatureKind.GEAR}
)
_BY_NAME = frozenset({FeatureKind.WIDTH, FeatureKind.THREAD})
_INSIDE_WORDS = ("slot", "groove", "recess", "mouth", "nut", "tapped", "internal", "female")
_FORM = {
    FeatureKind.FLAT: "scrape, lap or grind it flat, and allow for the height it loses",
    FeatureKind.STRAIGHTNESS: "scrape or grind it straight; a shaft or screw is straightened cold first",
    FeatureKind.WAY: "scrape, plane or grind the way, and allow for the height it loses",
    FeatureKind.RUNOUT: "clean it and look for burrs, then true it",
}
_BUILT_UP = {
    FeatureKind.BORE: "bore it true and sleeve or bush it, or make the mate to the larger bore",
    FeatureKind.KEYWAY: "true the keyway and make a wider or stepped key to it",
    FeatureKind.OUTSIDE_DIAMETER: "sleeve it or build it up and bring it to size, or fit the bush or bore to it",
    FeatureKind.DEPTH: "face what is round it where there is metal to spare, or pack it up",
}
_TAKEN_OFF = {
    FeatureKind.BORE: "ream, hone or bore it out to size",
    FeatureKind.KEYWAY: "open it out to size, or ease the key to it",
    FeatureKind.DEPTH: "cut it deeper to size",
}


class Metal(Enum):
    """What is between a reading and its limits."""

    MISSING = auto()
    TO_COME_OFF = auto()
    FORM = auto()
    UNKNOWN = auto()


def metal(names: str, feature: FeatureFact) -> Metal:
    """What lies between the worst reading outside the limits and the limit.

    >>> bore = FeatureFact("bore", FeatureKind.BORE, "in", (("", 19.15),), low_mm=19.05, high_mm=19.06)
    >>> metal("SP-05 front bush, bore", bore)
    <Metal.MISSING: 1>
    """
    if not feature.readings:
        return Metal.UNKNOWN
    worst = worst_of(feature)
    over = feature.high_mm is not None and worst > feature.high_mm
    under = feature.low_mm is not None and worst < feature.low_mm
    if feature.kind in _FORM:
        return Metal.FORM if over else Metal.UNKNOWN
    if not (over or under):
        return Metal.UNKNOWN
    inside = feature.kind in _CUT_IN or has_word(names, _INSIDE_WORDS, False)
    if feature.kind in _CUT_IN or feature.kind in _BY_NAME:
        return Metal.MISSING if over is inside else Metal.TO_COME_OFF
    if feature.kind in _ROUND_OUT:
        return Metal.MISSING if under else Metal.TO_COME_OFF
    return Metal.UNKNOWN


def outside_limits(names: str, feature: FeatureFact, dear: int) -> Proposal:
    """What can bring a feature back that reads outside its limits; ``dear`` is how dear its part is, 1 to 5."""
    worst = shown(worst_of(feature), feature.unit)
    sheet = Sheet(f"Outside its limits: {names}")
    sheet.read(feature.name, worst)
    ends = (feature.low_mm, feature.high_mm)
    sheet.read("limits", " to ".join(shown(end, feature.unit) if end is not None else "open" for end in ends))
    what = metal(names, feature)
    do = _do(what, feature.kind, dear)
    why = f"{feature.name} {worst} lies outside its limits"
    if what is Metal.MISSING:
        why += ": metal is missing"
        sheet.note("No cutting puts metal back: sleeve, bush, build up, make new, or fit the mate to it.")
    sheet.result("proposed", f"{do.decision}: {do.method}; no rule of thumb is held for this kind", LIMITS)
    return made(do, why, "limits", "Outside its limits", LIMITS, False, 110.0, worst, sheet)


def _do(what: Metal, kind: FeatureKind, dear: int) -> Do:
    if what is Metal.FORM:
        return Do(Decision.REWORK, _FORM[kind])
    if what is Metal.TO_COME_OFF:
        return Do(Decision.REWORK, _TAKEN_OFF.get(kind, "take it down to size"))
    if what is Metal.UNKNOWN:
        return Do(Decision.REWORK, "set or shim it within its limits, or remake what bounds it")
    if dear <= CHEAP or kind in (FeatureKind.THREAD, FeatureKind.GEAR):
        return Do(Decision.REMAKE, "new, to suit its mate as that measures")
    return Do(
        Decision.REWORK, _BUILT_UP.get(kind, "pack or shim it where its place allows; else make it new")
    )


def worst_of(feature: FeatureFact) -> float:
    """The reading that lies farthest outside the limits [mm]."""

    def outside(value: float) -> float:
        low = (feature.low_mm - value) if feature.low_mm is not None else float("-inf")
        high = (value - feature.high_mm) if feature.high_mm is not None else float("-inf")
        return max(low, high)

    values: Sequence[float] = [value for _, value in feature.readings]
    return max(values, key=outside)
