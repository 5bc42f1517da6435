"""Round values along an axis, and their words."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, log10


def ticks(low: float, high: float, most: int = 8) -> list[float]:
    """Round values in even steps that reach past both ends.

    >>> ticks(0, 7.2)
    [0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0]
    >>> ticks(3.0, 3.0)
    [2.0, 3.0, 4.0]
    """
    if high - low < 1e-12:
        low, high = low - 1.0, high + 1.0
        return [low, (low + high) / 2, high]
    rough = (high - low) / most
    power = 10.0 ** floor(log10(rough))
    step = next(power * times for times in (1, 2, 2.5, 5, 10) if power * times >= rough * (1 - 1e-9))
    first, last = floor(low / step + 1e-9), -floor(-high / step + 1e-9)
    return [round(at * step, 10) + 0.0 for at in range(int(first), int(last) + 1)]


def tick_words(value: float, among: Sequence[float]) -> str:
    """A tick's number, with the decimals the steps of its axis need.

    >>> tick_words(0.5, [0.0, 0.25, 0.5])
    '0.50'
    """
    step = abs(among[1] - among[0]) if len(among) > 1 else 1.0
    places = next((places for places in range(6) if abs(round(step, places) - step) < 1e-9), 6)
    return f"{value:.{places}f}"
