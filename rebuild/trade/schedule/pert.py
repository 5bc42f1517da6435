"""Three-point durations: mean, variance, and the beta shape a simulation draws from.

mean = (a + 4m + b)/6 and standard deviation = (b - a)/6 (Malcolm, Roseboom, Clark, Fazar 1959, "Application
of a technique for research and development program evaluation", Operations Research 7(5)). The simulation
uses the beta distribution on [a, b] with p = 1 + 4(m - a)/(b - a), q = 1 + 4(b - m)/(b - a), whose mean is that
mean; its variance is near, not equal to, ((b - a)/6)².
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, TypeVar

from rebuild.errors import BadEntry
from rebuild.trade.sizes.given import number_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

K = TypeVar("K", bound=Hashable)

#: Steps of the shape (m - a)/(b - a) that have a table of their own, and quantiles in each table.
SHAPES = 128
QUANTILES = 2048


@dataclass(frozen=True, slots=True)
class ThreePoint:
    """A duration as shortest, likely and longest, in one unit."""

    shortest: float
    likely: float
    longest: float

    def __post_init__(self) -> None:
        for name, duration in (
            ("Shortest", self.shortest),
            ("Likely", self.likely),
            ("Longest", self.longest),
        ):
            number_of(f"{name} duration", duration)
        if not 0 <= self.shortest <= self.likely <= self.longest:
            raise BadEntry(
                "do not rise from shortest to likely to longest.",
                where="Durations",
                value=f"{self.shortest:g} / {self.likely:g} / {self.longest:g}",
                way_out="Give them in that order, none below nothing.",
            )

    @property
    def mean(self) -> float:
        """(a + 4m + b)/6.

        >>> round(ThreePoint(1, 10, 17).mean, 4)
        9.6667
        """
        return (self.shortest + 4 * self.likely + self.longest) / 6

    @property
    def variance(self) -> float:
        """((b - a)/6)².

        >>> round(ThreePoint(1, 10, 17).variance, 4)
        7.1111
        """
        return ((self.longest - self.shortest) / 6) ** 2

    def times(self, factor: float) -> ThreePoint:
        """So many times as long.

        >>> ThreePoint(1, 2, 4).times(0.5)
        ThreePoint(shortest=0.5, likely=1.0, longest=2.0)
        """
        return ThreePoint(self.shortest * factor, self.likely * factor, self.longest * factor)


@dataclass(frozen=True, slots=True)
class PathEstimate:
    """The closed-form estimate along one path: variances add, standard deviations do not."""

    mean: float
    variance: float


def along(path: Iterable[ThreePoint]) -> PathEstimate:
    """The estimate along a path (the critical one by the means); merges make it a little too hopeful.

    >>> found = along([ThreePoint(1, 10, 17), ThreePoint(2, 2, 2)])
    >>> round(found.mean, 4), round(found.variance, 4)  # 58/6 + 2, (16/6)²
    (11.6667, 7.1111)
    """
    points = list(path)
    return PathEstimate(sum(point.mean for point in points), sum(point.variance for point in points))


def shape_of(point: ThreePoint) -> int:
    """Which table a duration draws from, 0 to ``SHAPES``.

    >>> shape_of(ThreePoint(0, 5, 10)), shape_of(ThreePoint(3, 3, 3))
    (64, 0)
    """
    span = point.longest - point.shortest
    return 0 if span <= 0 else round((point.likely - point.shortest) / span * SHAPES)


@cache
def quantiles(shape: int) -> NDArray[np.float64]:
    """Mid-quantiles of the beta of one shape on [0, 1], corrected to the exact mean.

    >>> round(float(quantiles(64).mean()), 6), len(quantiles(0)) == QUANTILES
    (0.5, True)
    """
    import numpy as np

    mode = shape / SHAPES
    p, q = 1 + 4 * mode, 5 - 4 * mode
    edges = np.linspace(0.0, 1.0, 8 * QUANTILES + 1)
    density = edges ** (p - 1) * (1 - edges) ** (q - 1)
    below = np.concatenate(([0.0], np.cumsum((density[1:] + density[:-1]) / 2)))
    middle = (np.arange(QUANTILES) + 0.5) / QUANTILES
    drawn = np.interp(middle, below / below[-1], edges)
    return np.asarray(drawn + (p / (p + q) - drawn.mean()))
