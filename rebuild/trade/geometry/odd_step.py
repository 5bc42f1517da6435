"""The reading that breaks its own run's curve: a slipped sign, a wrong division, a chip under the bridge.

Each reading is set against the straight line through its neighbours. One wrong by d in a smooth run leaves d there and
-d/2 on each side: that pattern, well above what the rest of the run leaves, is what is asked about. A bend of the way
itself leaves no such pair on both sides.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from rebuild.trade.results.door import door

#: Fewer readings say nothing of a curve.
FEWEST = 5
#: A break is this many times what the rest of the run leaves (common practice, no source).
TIMES = 4.0
#: How much of the break each neighbour shows, the other way round: a half, in this range.
LEAST_PART, MOST_PART = 0.2, 0.8


@dataclass(frozen=True, slots=True)
class OddStep:
    """Which reading (from 0) breaks the curve, what would fit there, and whether its other sign would."""

    at: int
    fits: float
    other_sign: bool


@door()
def odd_step(values: Sequence[float], finest: float = 0.0) -> OddStep | None:
    """The reading that breaks its run's curve, or None.

    Args:
        values: the readings of one run in order.
        finest: what one reading is read to; a break below three of these is none.

    >>> odd_step([-0.29, 0.04, 0.35, 0.295, 0.16, 0.08], 0.005) is None  # a worn bed, nothing wrong
    True
    >>> found = odd_step([0.10, 0.12, 0.14, -0.16, 0.18, 0.20, 0.22], 0.01)
    >>> found.at, round(found.fits, 3), found.other_sign
    (3, 0.16, True)
    """
    count = len(values)
    if count < FEWEST:
        return None
    left = [_off(values, at) for at in range(count)]
    at = max(range(1, count - 1), key=lambda one: abs(left[one]))
    if not _pattern(left, at, count):
        return None
    rest = [abs(left[one]) for one in range(1, count - 1) if abs(one - at) > 1]
    usual = max(median(rest) if rest else 0.0, finest)
    if abs(left[at]) <= max(TIMES * usual, 3 * finest):
        return None
    fits = values[at] - left[at]
    return OddStep(at, fits, abs(-values[at] - fits) < abs(left[at]) / 4)


def _off(values: Sequence[float], at: int) -> float:
    """How far a reading lies off the line through its neighbours; the two ends go on the line of the next two."""
    if at == 0:
        return values[0] - (2 * values[1] - values[2])
    if at == len(values) - 1:
        return values[-1] - (2 * values[-2] - values[-3])
    return values[at] - (values[at - 1] + values[at + 1]) / 2


def _pattern(left: Sequence[float], at: int, count: int) -> bool:
    """Whether the neighbours inside the run lean the other way, by about a half."""
    beside = [one for one in (at - 1, at + 1) if 0 < one < count - 1]
    return bool(beside) and all(LEAST_PART < -left[one] / left[at] < MOST_PART for one in beside if left[at])
