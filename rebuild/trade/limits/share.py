"""How far a size lies inside or beyond its limits, as a share of what they allow: what makes 0.01 on a bore and on a
bed comparable.
"""

from __future__ import annotations


def share_beyond(value_mm: float, low_mm: float | None, high_mm: float | None) -> float | None:
    """The distance beyond the nearer limit over the tolerance; less than zero inside; None without a limit.

    With one limit alone (a largest runout, a least depth) the tolerance is that limit itself; a limit of nothing
    gives the distance in mm. Not from a standard: common practice for putting unlike sizes in one order, no source.

    >>> share_beyond(10.3, 10.0, 10.2), share_beyond(10.05, 10.0, 10.2), share_beyond(0.03, None, 0.01)
    (0.5, -0.25, 2.0)
    """
    beyond = [low_mm - value_mm] if low_mm is not None else []
    if high_mm is not None:
        beyond.append(value_mm - high_mm)
    if not beyond:
        return None
    span = high_mm - low_mm if low_mm is not None and high_mm is not None else abs(high_mm or low_mm or 0.0)
    return round(max(beyond) / (span or 1.0), 9)
