"""What the old part must not teach the new one: sizes it has worn out of their limits."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.trade.making.words import size_words
from rebuild.words.making import LimitsFrom
from rebuild.work.making.proposed import OwnFeature, Proposed


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
