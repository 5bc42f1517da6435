"""A reading that speaks for one side of a fit."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.limits.uncertainty import Budget


@dataclass(frozen=True, slots=True)
class SideReading:
    """One reading that speaks for a side at one station: what it reads (``0.6247 in``), at which stage and when.

    Of a thread ``how`` it was taken, empty where that is not said.
    """

    station: str
    at_mm: float | None
    value_mm: float
    budget: Budget
    shown: str = ""
    taken: str = ""
    reading_id: int = 0
    how: str = ""

    @property
    def words(self) -> str:
        """``0.6247 in as made, 2026-03-14``."""
        return f"{self.shown} {self.taken}".strip()
