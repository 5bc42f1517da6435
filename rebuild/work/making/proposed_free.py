"""Proposed lines that no size of the shape answers to: features a fit or spec asks something of, a thread's pitch."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from rebuild.errors import RebuildError
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.inward import inward
from rebuild.trade.making.thread_block import side_of
from rebuild.trade.threads.designation import parse_designation
from rebuild.trade.threads.lookup import limits_of
from rebuild.words.making import LimitsFrom, PartShape
from rebuild.words.readings import FeatureKind, SpecOrigin
from rebuild.work.making.proposed import Ground, Proposed
from rebuild.work.making.proposed_limits import of_feature
from rebuild.work.making.rows_owner import is_pitch_diameter, same_thread

#: What is read on the assembled machine is no size of one part.
_NOT_OF_ONE_PART = (FeatureKind.LOST_MOTION, FeatureKind.END_PLAY, FeatureKind.GAP)
_THREADED = (PartShape.NUT, PartShape.SCREW)
_PITCH = "pitch diameter"
#: Specs a sheet has put on a feature, or nobody has said where they come from.
_FROM_SHEETS = (None, SpecOrigin.MATE, SpecOrigin.JUDGEMENT)


def free_lines(ground: Ground, held: Collection[str]) -> list[Proposed]:
    """The lines beside the sizes of the shape, whose names are ``held``; a thread's pitch diameter last."""
    free = _of_the_mate(_of_features(ground, held), ground)
    return [*free, *_pitch_line(ground, free)]


def _of_features(ground: Ground, held: Collection[str]) -> list[Proposed]:
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
        found.append(of_feature(line, feature, ground, copy_old=False))
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
