"""How long work usually takes when nobody has said: by kind, always shown as assumed.

Common practice, no source: what a part of a bench-size machine takes one pair of hands in a home shop.
"""

from __future__ import annotations

from functools import lru_cache

from rebuild.trade.schedule.pert import ThreePoint
from rebuild.words.steps import TaskKind

DAY = 24 * 60.0
_WEEK = 7 * DAY
#: Of a typed step without an estimate [minutes at the bench].
_BY_KIND = {
    TaskKind.BUY: ThreePoint(10, 20, 60),
    TaskKind.SEND_OUT: ThreePoint(15, 30, 60),
    TaskKind.MAKE: ThreePoint(60, 180, 480),
    TaskKind.REWORK: ThreePoint(45, 120, 360),
    TaskKind.PAINT: ThreePoint(60, 120, 300),
}
_ELSE = ThreePoint(15, 45, 120)
#: Of a delivery or a job sent out [minutes elapsed].
LEAD = {
    TaskKind.BUY: ThreePoint(0.5 * _WEEK, 2 * _WEEK, 6 * _WEEK),
    TaskKind.SEND_OUT: ThreePoint(2 * _WEEK, 4 * _WEEK, 12 * _WEEK),
}
#: Of work that follows from what is known [minutes at the bench].
DRAW_UP = ThreePoint(15, 40, 90)
MATERIAL = ThreePoint(10, 30, 120)
GET_TOOL = ThreePoint(15, 60, 240)
ACCEPT = ThreePoint(10, 20, 45)
MEASURE = ThreePoint(5, 15, 40)
DECIDE = ThreePoint(5, 15, 60)
LOOK = ThreePoint(5, 10, 30)
TEST = ThreePoint(20, 40, 120)
FETCH = ThreePoint(2, 5, 20)
ANSWER = ThreePoint(5, 15, 60)


def of_kind(kind: TaskKind) -> ThreePoint:
    """What a step of a kind usually takes [minutes].

    >>> of_kind(TaskKind.MAKE).likely
    180
    """
    return _BY_KIND.get(kind, _ELSE)


@lru_cache(maxsize=4096)
def spread(low: float | None, likely: float | None, high: float | None) -> ThreePoint | None:
    """Three points from what is given; one figure alone is spread half below, double above. None: nothing given.

    >>> spread(None, 90.0, None)
    ThreePoint(shortest=45.0, likely=90.0, longest=180.0)
    """
    given = [value for value in (likely, low, high) if value is not None]
    if not given:
        return None
    middle = given[0]
    if likely is None and low is not None and high is not None:
        middle = (low + high) / 2
    least = middle / 2 if low is None else low
    most = middle * 2 if high is None else high
    return ThreePoint(min(least, middle), middle, max(most, middle))
