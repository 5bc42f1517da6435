"""What a verdict is made of: its words, its rules, and the record of one judgement."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

#: Two sizes this near are the same size [mm]: far below any instrument, far above binary rounding.
ON_THE_LINE_MM = 1e-9


class Verdict(StrEnum):
    """What can be said of a reading against its limits."""

    CONFORMS = "conforms"
    DOES_NOT = "does not conform"
    UNDECIDED = "undecided"
    NO_SPEC = "no spec"


class Rule(StrEnum):
    """How uncertainty is set against the limits; the default is the 2017 rule."""

    CONFORMANCE_95 = "95 % conformance (ISO 14253-1:2017)"
    GUARD_U = "guard band U (ISO 14253-1:2013)"
    SIMPLE = "simple acceptance (uncertainty not counted)"


@dataclass(frozen=True, slots=True)
class Judgement:
    """A verdict with its limits, uncertainty and guard band [mm]; the reading in words, and what is found of it."""

    verdict: Verdict
    low_mm: float | None
    high_mm: float | None
    U_mm: float | None
    u_mm: float | None
    guard_mm: float
    conformance_probability: float | None
    too_coarse: bool
    reading: str
    finding: str
    rule: Rule = Rule.CONFORMANCE_95
    complete: bool = True

    @property
    def sentence(self) -> str:
        """One sentence for the user: the reading and what is found of it."""
        return f"{self.reading}: {self.finding}"


def tolerance_of(low: float | None, high: float | None) -> float | None:
    """The width a coarse instrument is set against [mm]; a high limit alone counts from zero.

    >>> tolerance_of(25.0, 25.5), tolerance_of(None, 0.02), tolerance_of(25.0, None)
    (0.5, 0.02, None)
    """
    if high is None:
        return None
    if low is None:
        return high if high > 0 else None
    return high - low
