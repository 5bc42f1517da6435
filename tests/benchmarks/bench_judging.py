"""Verdicts of twenty thousand readings at once, against bare comparisons; a thread told from its sizes."""

from __future__ import annotations

import statistics
import time
from collections.abc import Iterator, Sequence

from rebuild.trade.limits.verdict import judge_many
from rebuild.trade.threads.identify import identify
from tests.benchmarks.table import Line

READINGS, TURNS, MOST = 20_000, 9, 20


def lines() -> Iterator[Line]:
    """One line each for a wide tolerance and for one so narrow that both tails count."""
    for u, what in ((0.001, "wide tolerance"), (0.002, "narrow tolerance, both tails")):
        ours, bare = measure(u)
        yield Line(f"{READINGS:,} verdicts, {what}", ours, bare, f"most {MOST} x", ours <= MOST * bare)
    took = statistics.median(_told(n) for n in range(20))
    yield Line("a thread told from its sizes", took, 0.020, "most 20 ms", took <= 0.020)


def _told(n: int) -> float:
    start = time.perf_counter()
    identify(6.0 + n, 1.0 + n / 10)
    return time.perf_counter() - start


def measure(u_mm: float) -> tuple[float, float]:
    """Median seconds of our verdicts and of the bare comparisons, by turns."""
    values = [25.0 + index * 5e-7 for index in range(READINGS)]
    lows, highs, us = [25.0] * READINGS, [25.01] * READINGS, [u_mm] * READINGS
    ours, bare = [], []
    for _ in range(TURNS):
        start = time.perf_counter()
        verdicts = judge_many(values, lows, highs, us)
        middle = time.perf_counter()
        compared(values, lows, highs, us)
        ours.append(middle - start)
        bare.append(time.perf_counter() - middle)
    if len(set(verdicts)) != 2:
        raise AssertionError("a run over a limit has two verdicts")
    return statistics.median(ours), statistics.median(bare)


def compared(
    values: Sequence[float], lows: Sequence[float], highs: Sequence[float], guards: Sequence[float]
) -> list[bool]:
    """The least any judging does: each value against its two guarded limits."""
    return [
        low + guard <= value <= high - guard
        for value, low, high, guard in zip(values, lows, highs, guards, strict=True)
    ]
