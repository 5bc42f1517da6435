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


HEAD = f"{'measured':<58}{'ours':>10}{'against':>10}{'ratio':>8}  {'limit':<18}  said"


def row(line: Line) -> str:
    """One line as text."""
    return (
        f"{line.what:<58}{_shown(line.ours, line.unit):>10}{_shown(line.theirs, line.unit):>10}"
        f"{line.ratio:>8.2f}  {line.limit:<18}  {'kept' if line.kept else 'not kept'}"
    )


def _shown(value: float, unit: str) -> str:
    return f"{value * 1000:.2f} ms" if unit == "ms" else f"{value:.1f} {unit}"
