"""Student's t and the normal distribution in plain floats: no scipy, no numpy.

The t distribution comes from the regularised incomplete beta function, by its continued fraction;
the factor for a coverage is found by bisection in a bracket that always holds it.
"""

from __future__ import annotations

import math
from functools import lru_cache

from rebuild.errors import OutOfRange
from rebuild.trade.sizes.given import number_of

_TINY = 1e-300
#: A Newton step smaller than this share of the factor leaves an error below the last digit.
_NEAR = 1e-9
_STEPS = 2000


def normal_below(z: float) -> float:
    """Share of a normal distribution below ``z`` standard deviations.

    >>> round(normal_below(1.645), 5)
    0.95002
    """
    return 0.5 * math.erfc(-z / math.sqrt(2.0))


def student_below(t: float, dof: float) -> float:
    """Share of Student's t distribution below ``t``; ``dof`` may be broken or infinite.

    >>> round(student_below(12.7062, 1), 4)
    0.975
    """
    if math.isinf(dof):
        return normal_below(t)
    tail = 0.5 * _incomplete_beta(t * t, dof)
    return 1.0 - tail if t > 0 else tail


def student_t(coverage: float, dof: float) -> float:
    """Two-sided factor t such that ``coverage`` of the distribution lies within ±t (GUM G.3.2).

    Args:
        coverage: share wanted, 0 < coverage < 1, e.g. 0.95.
        dof: effective degrees of freedom, broken numbers and ``math.inf`` allowed.

    Raises:
        OutOfRange: a coverage outside 0 to 1, or fewer than one degree of freedom.

    >>> round(student_t(0.95, 9), 4)
    2.2622
    """
    coverage, dof = number_of("Coverage", coverage, finite=False), number_of("Repeats", dof, finite=False)
    if not 0.0 < coverage < 1.0:
        raise OutOfRange(
            "is not a coverage between 0 and 1.", where="Coverage", value=f"{coverage:g}", way_out="Use 0.95."
        )
    if not dof >= 1.0:
        raise OutOfRange(
            "degrees of freedom are too few for a t factor.",
            where="Repeats",
            value=f"{dof:g}",
            way_out="Take at least two readings.",
        )
    return _two_sided(coverage, dof)


@lru_cache(maxsize=4096)
def _two_sided(coverage: float, dof: float) -> float:
    """Newton's steps in a bracket that holds the factor; a grid asks the same two figures again and again."""
    wanted, low, high = 0.5 + coverage / 2.0, 0.0, 2.0
    while student_below(high, dof) < wanted:
        low, high = high, high * 2.0
        if high > 1e12:
            raise OutOfRange(
                "is too near 1 for a factor.", where="Coverage", value=repr(coverage), way_out="Use 0.99."
            )
    at = 0.5 * (low + high)
    for _ in range(200):
        over = student_below(at, dof) - wanted
        low, high = (at, high) if over < 0.0 else (low, at)
        step = over / _density(at, dof)
        if abs(step) <= _NEAR * at:
            return at - step  # the step is squared by the next one: nothing is left to gain
        at = at - step if low < at - step < high else 0.5 * (low + high)
        if at in (low, high):
            break
    return at


def _density(t: float, dof: float) -> float:
    """Student's density at ``t``."""
    if math.isinf(dof):
        return math.exp(-0.5 * t * t) / math.sqrt(2.0 * math.pi)
    a = dof / 2.0
    return math.exp(_gamma_ratio(a) - 0.5 * math.log(math.pi * dof) - (a + 0.5) * math.log1p(t * t / dof))


def _incomplete_beta(t_squared: float, dof: float) -> float:
    """I_x(dof/2, 1/2) at x = dof/(dof + t²): the share outside ±t.

    ``1 - x`` is formed as t²/(dof + t²), so that it keeps its digits where x is near 1.
    """
    if t_squared == 0.0:
        return 1.0
    a, b = dof / 2.0, 0.5
    x, rest = dof / (dof + t_squared), t_squared / (dof + t_squared)
    log_x = -math.log1p(t_squared / dof)
    front = math.exp(_gamma_ratio(a) - 0.5 * math.log(math.pi) + a * log_x + b * math.log(rest))
    if x < (a + 1.0) / (a + b + 2.0):
        return front * _fraction(a, b, x) / a
    return 1.0 - front * _fraction(b, a, rest) / b


def _gamma_ratio(a: float) -> float:
    """ln Γ(a + 1/2) - ln Γ(a); by its series for large a, where the difference of logarithms loses digits."""
    if a < 1000.0:
        return math.lgamma(a + 0.5) - math.lgamma(a)
    return 0.5 * math.log(a) - 1.0 / (8.0 * a) + (1.0 / a) ** 3 / 192.0


def _fraction(a: float, b: float, x: float) -> float:
    """The continued fraction of the incomplete beta function (modified Lentz)."""
    c, d = 1.0, _kept(1.0 - (a + b) * x / (a + 1.0))
    d = 1.0 / d
    total = d
    for m in range(1, _STEPS):
        even = m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m))
        d, c = 1.0 / _kept(1.0 + even * d), _kept(1.0 + even / c)
        total *= d * c
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0))
        d, c = 1.0 / _kept(1.0 + odd * d), _kept(1.0 + odd / c)
        total *= d * c
        if abs(d * c - 1.0) < 1e-15:
            break
    return total


def _kept(value: float) -> float:
    """``value``, kept away from zero so that it can be divided by."""
    return value if abs(value) > _TINY else _TINY
