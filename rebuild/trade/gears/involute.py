"""The involute function and its inverse (angles in radians)."""

from __future__ import annotations

from math import atan, isfinite, tan

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door


@door()
def inv(angle: float) -> float:
    """inv φ = tan φ - φ.

    >>> from math import radians
    >>> round(inv(radians(20)), 6)
    0.014904
    """
    return tan(angle) - angle


@door()
def inverse_inv(value: float) -> float:
    """The angle φ [rad] with tan φ - φ = ``value``, by Newton on t = tan φ.

    Raises:
        OutOfRange: negative (the flank does not reach inside the base circle) or not a number.

    >>> from math import degrees
    >>> round(degrees(inverse_inv(0.0149043839)), 6)
    20.0
    """
    if not isfinite(value) or value < 0:
        raise OutOfRange(
            "means contact inside the base circle, where there is no involute.",
            where="Involute",
            value=f"{value:.6g}",
            way_out="Take another pin, or another number of teeth.",
        )
    if value == 0.0:
        return 0.0
    t = (3.0 * value) ** (1.0 / 3.0) if value < 1.0 else value + 1.5
    for _ in range(60):
        step = (t - atan(t) - value) / (t * t / (1.0 + t * t))
        t -= step
        if abs(step) <= 1e-16 * t:
            break
    return atan(t)
