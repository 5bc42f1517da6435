"""Where zone, reading, uncertainty bar and nominal line fall in a tolerance-zone picture.

Everything is a share of the picture's length, 0 at its small end and 1 at its large end. A zone with both
limits takes two fifths of the picture, so that a reading up to three quarters of a zone outside is drawn
where it lies; one farther out sits at the edge with an arrow. A zone with one limit runs open to the edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.words.readings import FeatureKind

ROOM = 0.75
#: Where the one limit of an open zone is drawn, from the open side.
ONE_LIMIT = 0.62
EDGE = 0.02

#: What counts from nothing upward: a high limit alone is drawn against zero.
FROM_ZERO = frozenset(
    {
        FeatureKind.FLAT,
        FeatureKind.STRAIGHTNESS,
        FeatureKind.RUNOUT,
        FeatureKind.GAP,
        FeatureKind.END_PLAY,
        FeatureKind.LOST_MOTION,
    }
)


@dataclass(frozen=True, slots=True)
class Drawn:
    """What a picture is made of [mm]: limits, nominal, reading and its expanded uncertainty."""

    low_mm: float | None = None
    high_mm: float | None = None
    nominal_mm: float | None = None
    value_mm: float | None = None
    U_mm: float | None = None
    from_zero: bool = False


@dataclass(frozen=True, slots=True)
class Placed:
    """Shares of the picture. ``out`` is -1 or +1 when the reading lies beyond that edge."""

    zone: tuple[float, float]
    open_low: bool
    open_high: bool
    nominal: float | None
    reading: float | None
    out: int
    bar: tuple[float, float] | None


def place(drawn: Drawn) -> Placed | None:
    """The picture's shares, or None when there is no limit to draw.

    >>> placed = place(Drawn(25.0, 25.02, value_mm=25.01))
    >>> placed.zone, placed.reading
    ((0.3, 0.7), 0.5)
    >>> place(Drawn(25.0, 25.02, value_mm=25.2)).out
    1
    """
    if drawn.low_mm is None and drawn.high_mm is None:
        return None
    start, span = _scale(drawn)

    def share(mm: float) -> float:
        return round((mm - start) / span, 6)

    low = 0.0 if drawn.low_mm is None else share(drawn.low_mm)
    high = 1.0 if drawn.high_mm is None else share(drawn.high_mm)
    nominal = share(drawn.nominal_mm) if drawn.nominal_mm is not None else None
    if nominal is not None and not EDGE <= nominal <= 1 - EDGE:
        nominal = None
    reading, out, bar = None, 0, None
    if drawn.value_mm is not None:
        reading = share(drawn.value_mm)
        out = -1 if reading < 0.0 else 1 if reading > 1.0 else 0
        if drawn.U_mm is not None and not out:
            bar = (max(0.0, share(drawn.value_mm - drawn.U_mm)), min(1.0, share(drawn.value_mm + drawn.U_mm)))
        reading = min(1 - EDGE, max(EDGE, reading)) if out else reading
    return Placed((low, high), drawn.low_mm is None, drawn.high_mm is None, nominal, reading, out, bar)


def _scale(drawn: Drawn) -> tuple[float, float]:
    """The size at the small end [mm], and the length of the picture [mm]."""
    low, high = drawn.low_mm, drawn.high_mm
    if low is not None and high is not None:
        width = high - low or max(abs(high) * 1e-4, 1e-3)
        return low - ROOM * width, width * (1 + 2 * ROOM)
    limit = high if high is not None else low
    assert limit is not None
    reach = _reach(drawn, limit)
    span = reach / (ONE_LIMIT - 0.1)
    return (limit - ONE_LIMIT * span if high is not None else limit - (1 - ONE_LIMIT) * span), span


def _reach(drawn: Drawn, limit: float) -> float:
    """How much of the open side is drawn [mm]: to zero, to the nominal, or a round step past the reading."""
    if drawn.from_zero and limit:
        return abs(limit)
    if drawn.nominal_mm is not None and abs(drawn.nominal_mm - limit) > 1e-9:
        return abs(drawn.nominal_mm - limit)
    need = 2 * abs(drawn.value_mm - limit) if drawn.value_mm is not None else 0.0
    need = max(need, 4 * (drawn.U_mm or 0.0))
    return round_step(need) if need > 0 else max(abs(limit) * 1e-3, 1e-3)


def round_step(value: float) -> float:
    """The next of 1, 2, 5, 10 ... at or above ``value``, so that neighbouring rows share a scale.

    >>> round_step(0.013)
    0.02
    """
    power = 10.0 ** math.floor(math.log10(value))
    for step in (1, 2, 5, 10):
        if step * power >= value * (1 - 1e-9):
            return float(f"{step * power:.12g}")
    return 10 * power
