"""The limits of one proposed line: its mate's, else the spec's, else the old part with the general tolerance."""

from __future__ import annotations

from dataclasses import replace

from rebuild.errors import OutOfRange
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.inward import inward
from rebuild.trade.making.limits import general, general_in_shop
from rebuild.words.making import LimitsFrom
from rebuild.work.making.proposed import Ground, OwnFeature, Proposed
from rebuild.work.making.rows_limits import together


def of_feature(line: Proposed, feature: OwnFeature, ground: Ground, *, copy_old: bool) -> Proposed:
    """The line with the limits its feature asks; ``copy_old``: a nominal may come from the old part."""
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
        return with_general(line, feature.nominal_mm, ground.unit, LimitsFrom.SPEC)
    if copy_old and feature.old_mm:
        made = with_general(line, max(feature.old_mm), ground.unit, LimitsFrom.OLD_PART)
        return replace(made, note="; ".join(filter(None, (line.note, "taken from the old part"))))
    return line


def with_general(
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
