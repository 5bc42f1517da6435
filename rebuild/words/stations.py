"""How a station is said behind what is measured there."""

from __future__ import annotations


def at_station(station: str) -> str:
    """`` at near``; a station that says *at* itself keeps its one; empty for none.

    >>> at_station("near"), at_station("at 300 mm"), at_station("")
    (' at near', ' at 300 mm', '')
    """
    if not station:
        return ""
    return f" {station}" if station.casefold().startswith("at ") else f" at {station}"
