"""What a new making sheet starts with: each size of the shape with the limits that suit mate, spec or table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from rebuild.errors import RebuildError
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.inward import inward
from rebuild.trade.making.derive import Derived, before_pressing, derived
from rebuild.trade.making.roles import Role, answers, roles
from rebuild.words.making import LimitsFrom
from rebuild.work.making.proposed import Ground, OwnFeature, Proposed
from rebuild.work.making.proposed_free import free_lines
from rebuild.work.making.proposed_limits import of_feature, with_general

#: Sizes that belong together: with the first one on a sheet, the second is asked for too.
_PARTNERS = {
    "flange diameter": "flange thickness", "journal diameter": "journal length", "collar diameter": "collar length",
    "end journal diameter": "end journal length", "hub diameter": "hub length", "hub width": "lower height",
    "oil hole": "oil hole position", **{f"diameter {n}": f"length {n}" for n in range(1, 7)},
}  # fmt: skip


def propose(ground: Ground, typed: Mapping[str, Measure] | None = None) -> list[Proposed]:
    """Every line of the sheet: the sizes of the shape first, then features with a spec or fit of their own.

    ``typed`` holds sizes the user has given himself; what follows from another size follows from these.
    """
    found: dict[str, Proposed] = {}
    sizes: dict[str, Measure] = {}
    for role in roles(ground.shape):
        feature = _feature_for(role, ground)
        wanted = role.start or feature is not None or _partner_of(role.name) in found
        if wanted:
            found[role.name] = _of_role(role, feature, ground)
            sizes[role.name] = found[role.name].measure
    sizes |= typed or {}
    _put_derived(found, sizes, ground)
    if not _pressed(found, ground):
        found.pop("bore before pressing", None)
    return [ground.by_plug(line) for line in (*found.values(), *free_lines(ground, found))]


def _partner_of(name: str) -> str:
    return next((one for one, other in _PARTNERS.items() if other == name), "")


def _feature_for(role: Role, ground: Ground) -> OwnFeature | None:
    """The feature that answers to a role: by name before by kind, each used once."""
    free = [one for one in ground.features if one.id not in ground.used and answers(role, one.kind, one.name)]
    if not free:
        return None
    named = [one for one in free if role.name in one.name.lower() or one.name.lower() in role.name]
    # One a fit asks something of owns the size before one that only has its name.
    chosen = next((one for one in named or free if ground.of_feature(one.id)), (named or free)[0])
    ground.used.add(chosen.id)
    return chosen


def _of_role(role: Role, feature: OwnFeature | None, ground: Ground) -> Proposed:
    line = Proposed(
        role.name,
        role.name,
        feature.id if feature else None,
        None,
        LimitsFrom.OWN,
        Measure(role.name),
        role.measured_with,
        role.note,
    )
    if feature is not None:
        line = of_feature(line, feature, ground, copy_old=role.kind in ("length", "width"))
    if not line.measure.given and line.fit_id is None:
        line = _usual(line, role, ground.unit)
    return line


def _usual(line: Proposed, role: Role, unit: str) -> Proposed:
    if role.name == "bore before pressing":
        return replace(line, limits_from=LimitsFrom.TABLE)
    fixed = role.fixed(unit)
    return line if fixed is None else with_general(line, fixed, unit, LimitsFrom.GENERAL, role.kind)


def _put_derived(found: dict[str, Proposed], sizes: Mapping[str, Measure], ground: Ground) -> None:
    """Sizes that follow from the designations, or from another size of the sheet."""
    try:
        more = dict(derived(ground.shape, ground.named, sizes, ground.unit))
    except RebuildError:
        # A designation that cannot be read gives no sizes; the sheet's data block says why.
        more = {}
    pressed = _pressed(found, ground)
    bore = sizes.get("bore")
    if ground.shape == "bush" and pressed and bore is not None and bore.low_mm is not None:
        more["bore before pressing"] = before_pressing(bore)
    for name, derivation in more.items():
        line = found.get(name) or _line_of(name, ground.shape)
        if line is None or line.limits_from in (LimitsFrom.MATE, LimitsFrom.SPEC):
            continue
        found[name] = _derived_line(line, derivation, ground.unit)


def _derived_line(line: Proposed, derivation: Derived, unit: str) -> Proposed:
    worked = derivation.measure
    low, high = inward(worked.low_mm, worked.high_mm, unit)
    return replace(
        line, limits_from=LimitsFrom.TABLE, measure=Measure(line.name, worked.nominal_mm, low, high)
    )


def _line_of(name: str, shape: str) -> Proposed | None:
    role = next((one for one in roles(shape) if one.name == name), None)
    if role is None:
        return None
    return Proposed(name, name, None, None, LimitsFrom.OWN, Measure(name), role.measured_with, role.note)


def _pressed(found: Mapping[str, Proposed], ground: Ground) -> bool:
    """Whether the outside is a press fit, so that the bore closes when it goes in."""
    outside = found.get("outside diameter")
    if outside is None or outside.feature_id is None:
        return False
    return any(one.tight for one in ground.of_feature(outside.feature_id))
