"""What a new making sheet starts with: each size of the shape with the limits that suit mate, spec or table."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from sqlalchemy import Connection, select

from rebuild.errors import OutOfRange, RebuildError
from rebuild.model.tables.features import Features
from rebuild.model.tables.readings import Readings
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.inward import inward
from rebuild.trade.making.derive import Derived, Designations, before_pressing, derived
from rebuild.trade.making.limits import general, general_in_shop
from rebuild.trade.making.roles import Role, answers, roles
from rebuild.trade.making.thread_block import side_of
from rebuild.trade.making.words import size_words
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.lookup import limits_of
from rebuild.trade.threads.taken import shown
from rebuild.words.making import LimitsFrom, PartShape
from rebuild.words.readings import FeatureKind, SpecOrigin, Stage
from rebuild.work.making.rows_limits import MateLimits, together
from rebuild.work.making.rows_owner import is_pitch_diameter, same_thread

#: The tables the lookups here ask.
READS = frozenset({"feature", "reading"})

#: What is read on the assembled machine is no size of one part.
_NOT_OF_ONE_PART = (FeatureKind.LOST_MOTION, FeatureKind.END_PLAY, FeatureKind.GAP)
_THREADED = (PartShape.NUT, PartShape.SCREW)
_PITCH = "pitch diameter"
#: Specs a sheet has put on a feature, or nobody has said where they come from.
_FROM_SHEETS = (None, SpecOrigin.MATE, SpecOrigin.JUDGEMENT)
#: Sizes that belong together: with the first one on a sheet, the second is asked for too.
_PARTNERS = {
    "flange diameter": "flange thickness", "journal diameter": "journal length", "collar diameter": "collar length",
    "end journal diameter": "end journal length", "hub diameter": "hub length", "hub width": "lower height",
    "oil hole": "oil hole position", **{f"diameter {n}": f"length {n}" for n in range(1, 7)},
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class OwnFeature:
    """A feature of the part: its kind, spec and what the old part reads [mm]."""

    id: int
    name: str
    kind: FeatureKind
    unit: str
    thread: str
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None
    old_mm: tuple[float, ...]
    old_words: str
    spec_origin: SpecOrigin | None = None


@dataclass(frozen=True, slots=True)
class Proposed:
    """One line of a sheet as proposed."""

    role: str
    name: str
    feature_id: int | None
    fit_id: int | None
    limits_from: LimitsFrom
    measure: Measure
    measured_with: str
    note: str


@dataclass(slots=True)
class Ground:
    """What proposals are made from."""

    features: Sequence[OwnFeature]
    asked: Sequence[MateLimits]
    shape: str
    unit: str
    named: Designations
    used: set[int] = field(default_factory=set)

    def of_feature(self, feature_id: int) -> list[MateLimits]:
        """What the fits with its mates ask of one feature."""
        return [one for one in self.asked if one.feature_id == feature_id and not one.proof]

    def by_plug(self, line: Proposed) -> Proposed:
        """A nut is no smaller than the plug that proves it, once that is read; its limits stay its mate's."""
        proofs = [one for one in self.asked if one.proof and one.feature_id == line.feature_id]
        plug, _high = inward(together(proofs)[0], None, self.unit)
        low, high = line.measure.low_mm, line.measure.high_mm
        if plug is None or low is None or (high is not None and plug > high):
            return line
        return replace(line, measure=replace(line.measure, low_mm=max(low, plug)))


def features_of(connection: Connection, part_id: int) -> list[OwnFeature]:
    """The features of a part with what the old part reads, newest reading at each station."""
    rows = connection.execute(
        select(*Features.columns())
        .where(Features.part_id == part_id)
        .order_by(Features.position, Features.id)
    ).all()
    read: dict[int, dict[int | None, tuple[float, str]]] = {}
    for row in connection.execute(
        select(
            Readings.feature_id,
            Readings.station_id,
            Readings.value_mm,
            Readings.typed,
            Readings.unit,
            Readings.how,
            Readings.read_mm,
        )
        .where(
            Readings.feature_id.in_([row.id for row in rows]),
            Readings.struck.is_(None),
            Readings.stage.not_in((Stage.AS_MADE, Stage.FITTED)),
        )
        .order_by(Readings.id)
    ):
        read.setdefault(row.feature_id, {})[row.station_id] = (
            row.value_mm,
            shown(Size(row.typed, row.unit, row.value_mm), 1, row.how or "", row.read_mm),
        )
    return [
        OwnFeature(
            row.id,
            row.name,
            row.kind,
            row.unit,
            row.thread,
            row.nominal_mm,
            row.low_mm,
            row.high_mm,
            tuple(value for value, _ in read.get(row.id, {}).values()),
            ", ".join(words for _, words in read.get(row.id, {}).values()),
            row.spec_origin,
        )
        for row in rows
    ]


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
    free = _of_the_mate(_free_lines(ground, found), ground)
    return [ground.by_plug(line) for line in (*found.values(), *free, *_pitch_line(ground, free))]


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
        line = _of_feature(line, feature, ground, copy_old=role.kind in ("length", "width"))
    if not line.measure.given and line.fit_id is None:
        line = _usual(line, role, ground.unit)
    return line


def _of_feature(line: Proposed, feature: OwnFeature, ground: Ground, *, copy_old: bool) -> Proposed:
    asked = ground.of_feature(feature.id)
    if asked:
        low, high, _trouble = together(asked)
        low, high = inward(low, high, ground.unit)
        measure = Measure(line.name, None, low, high)
        return replace(line, fit_id=asked[0].fit_id, limits_from=LimitsFrom.MATE, measure=measure)
    if feature.low_mm is not None or feature.high_mm is not None:
        measure = Measure(line.name, feature.nominal_mm, feature.low_mm, feature.high_mm)
        return replace(line, limits_from=LimitsFrom.SPEC, measure=measure)
    if feature.nominal_mm is not None:
        return _with_general(line, feature.nominal_mm, ground.unit, LimitsFrom.SPEC)
    if copy_old and feature.old_mm:
        made = _with_general(line, max(feature.old_mm), ground.unit, LimitsFrom.OLD_PART)
        return replace(made, note="; ".join(filter(None, (line.note, "taken from the old part"))))
    return line


def _usual(line: Proposed, role: Role, unit: str) -> Proposed:
    if role.name == "bore before pressing":
        return replace(line, limits_from=LimitsFrom.TABLE)
    fixed = role.fixed(unit)
    return line if fixed is None else _with_general(line, fixed, unit, LimitsFrom.GENERAL, role.kind)


def _with_general(
    line: Proposed, nominal_mm: float, unit: str, origin: LimitsFrom, kind: str = "length"
) -> Proposed:
    """A nominal with the general tolerance for its size; outside that table, the nominal alone."""
    low = high = None
    try:
        tolerance = general_in_shop(general(nominal_mm, kind).value, unit)
    except OutOfRange:
        pass
    else:
        low, high = round(nominal_mm - tolerance, 9), round(nominal_mm + tolerance, 9)
    return replace(line, limits_from=origin, measure=Measure(line.name, nominal_mm, low, high))


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


def _free_lines(ground: Ground, held: Collection[str]) -> list[Proposed]:
    """Features no size of the shape answers to, where a fit or a spec asks something of them."""
    found = []
    for feature in ground.features:
        asked = ground.of_feature(feature.id)
        spec = feature.low_mm is not None or feature.high_mm is not None
        if feature.id in ground.used or not (asked or spec) or feature.name in held:
            continue
        if feature.kind in _NOT_OF_ONE_PART:
            continue
        name = feature.name
        if feature.kind is FeatureKind.THREAD and "pitch" not in name.lower():
            name = f"{name}, pitch diameter"
        line = Proposed("", name, feature.id, None, LimitsFrom.OWN, Measure(name), "", "")
        found.append(_of_feature(line, feature, ground, copy_old=False))
    return found


def _of_the_mate(free: Sequence[Proposed], ground: Ground) -> list[Proposed]:
    """The lines without a second pitch diameter of the thread that a sheet once told a feature, beside the mate's."""
    own = {feature.id: feature for feature in ground.features}

    def thread(line: Proposed) -> bool:
        feature = own.get(line.feature_id or 0)
        return (
            ground.shape in _THREADED
            and feature is not None
            and is_pitch_diameter(line.name)
            and same_thread(feature.thread, ground.named.thread)
        )

    if not any(thread(line) and line.fit_id is not None for line in free):
        return list(free)
    return [
        line
        for line in free
        if line.fit_id is not None
        or not thread(line)
        or own[line.feature_id or 0].spec_origin not in _FROM_SHEETS
    ]


def _pitch_line(ground: Ground, free: Sequence[Proposed]) -> list[Proposed]:
    """The pitch diameter the designation gives, where the part is a thread and no mate or spec asks one of it."""
    if ground.shape not in _THREADED or not ground.named.thread.strip():
        return []
    if any(_PITCH in line.name for line in free):
        return []
    try:
        band = limits_of(parse_designation(ground.named.thread), side_of(ground.shape)).value.pitch_diameter
    except RebuildError:
        return []  # The sheet's data block says why it cannot be read.
    low, high = inward(band.low_mm, band.high_mm, ground.unit)
    own = next(
        (one for one in ground.features if one.kind is FeatureKind.THREAD and one.id not in ground.used), None
    )
    with_what = "thread wires" if ground.shape == PartShape.SCREW else "the screw, pins, or a plug"
    return [
        Proposed(
            "",
            _PITCH,
            own.id if own else None,
            None,
            LimitsFrom.TABLE,
            Measure(_PITCH, None, low, high),
            with_what,
            "",
        )
    ]


def not_to_copy(features: Sequence[OwnFeature], lines: Sequence[Proposed], unit: str) -> str:
    """What the old part must not teach: sizes it has worn out of the new limits, one per line."""
    own = {feature.id: feature for feature in features}
    words = []
    for line in lines:
        feature = own.get(line.feature_id or 0)
        low, high = line.measure.low_mm, line.measure.high_mm
        if feature is None or not feature.old_mm or line.limits_from is LimitsFrom.OLD_PART:
            continue
        outside = [
            value
            for value in feature.old_mm
            if (low is not None and value < low) or (high is not None and value > high)
        ]
        if outside:
            words.append(
                f"{line.name}: the old one reads {feature.old_words}; make {size_words(line.measure, unit)}"
            )
    return "\n".join(words)


def designations(features: Sequence[OwnFeature], part_name: str) -> Designations:
    """Thread and taper as they are written on the features."""
    thread = next((one.thread for one in features if one.kind is FeatureKind.THREAD and one.thread), "")
    if not thread:
        thread = next((one.thread for one in features if one.thread and one.kind not in _NAMED_OTHERWISE), "")
    taper = next((one.thread for one in features if one.kind is FeatureKind.TAPER and one.thread), "")
    if not taper and re.search(r"taper pin\D*\d", part_name.lower()):
        taper = part_name
    return Designations(thread, taper)


_NAMED_OTHERWISE = (FeatureKind.TAPER, FeatureKind.GEAR)
