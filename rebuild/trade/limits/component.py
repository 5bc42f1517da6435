"""One part of an uncertainty budget, and the sources every part shares."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.trade.results.working import Source

GUM = "JCGM 100:2008 (GUM)"
RECTANGULAR = Source(GUM, "4.3.7: limits ±a, rectangular, a/√3")


@dataclass(frozen=True, slots=True)
class Component:
    """One part of a budget: standard uncertainty [mm], its degrees of freedom, and how it was got."""

    name: str
    u_mm: float
    dof: float
    how: str
    source: Source


def um_text(mm: float) -> str:
    """A small length in micrometres, three figures.

    >>> um_text(0.0012345)
    '1.23 µm'
    """
    return f"{mm * 1000:.3g} µm"
