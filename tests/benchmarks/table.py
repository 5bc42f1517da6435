"""One table for every benchmark: what was measured, against what, the ratio, and the limit."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """One line: ``ours`` beside ``theirs`` [s, or MB], and whether the limit is kept."""

    what: str
    ours: float
    theirs: float
    limit: str
    kept: bool
    unit: str = "ms"

    @property
    def ratio(self) -> float:
        """Ours by theirs."""
        return self.ours / self.theirs if self.theirs else float("inf")


HEAD = f"{'measured':<70}{'ours':>11}{'against':>12}{'ratio':>7}  {'limit':<12}  said"


def row(line: Line) -> str:
    """One line as text."""
    return (
        f"{line.what:<70}{_shown(line.ours, line.unit):>11}{_shown(line.theirs, line.unit):>12}"
        f"{line.ratio:>7.2f}  {line.limit:<12}  {'kept' if line.kept else 'not kept'}"
    )


def _shown(value: float, unit: str) -> str:
    return f"{value * 1000:.2f} ms" if unit == "ms" else f"{value:.1f} {unit}"
