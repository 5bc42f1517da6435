"""The plan of 4,000 steps and 12,000 links: critical path, one tick, 2,000 drawn finishes.

Run: ``pytest tests/benchmarks/bench_plan.py``. The floor walks the same links once in a plain loop.
"""

from __future__ import annotations

import random
import statistics
import time
from collections.abc import Callable
from typing import Any

import pytest

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.hands import in_turn, turn_of_work
from rebuild.trade.schedule.pert import ThreePoint, quantiles, shape_of
from rebuild.trade.schedule.simulate import simulate

STEPS, LINKS = 4000, 12_000


def made() -> tuple[list[tuple[int, int]], dict[int, ThreePoint]]:
    """A random network whose links all run forward, and its durations."""
    chance = random.Random(7)
    links: set[tuple[int, int]] = set()
    while len(links) < LINKS:
        after = chance.randrange(1, STEPS)
        links.add((max(0, after - chance.randrange(1, 80)), after))
    points = {key: ThreePoint(10 + key % 9, 30 + key % 17, 90 + key % 41) for key in range(STEPS)}
    return sorted(links), points


def median_ms(work: Callable[[], Any], turns: int = 9) -> float:
    times = []
    for _ in range(turns):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1e3)
    return statistics.median(times)


@pytest.fixture(scope="module")
def network() -> Any:
    links, points = made()
    built = Network(range(STEPS), links)
    for shape in {shape_of(point) for point in points.values()}:
        quantiles(shape)
    return built, links, points


def floor(links: list[tuple[int, int]]) -> float:
    """One pass over the links in plain Python."""
    latest = [0.0] * STEPS

    def walk() -> None:
        for before, after in links:
            if latest[before] > latest[after]:
                latest[after] = latest[before]

    return median_ms(walk)


def test_plan(network: Any, capsys: pytest.CaptureFixture[str]) -> None:
    built, links, points = network
    means = {key: point.mean for key, point in points.items()}
    order = turn_of_work(built, means)
    whole = median_ms(lambda: Network(range(STEPS), links).times(means))

    def tick() -> None:
        means[17] = 0.0
        built.times(means)
        in_turn(built, means, order=order)

    one_tick = median_ms(tick)
    drawn = median_ms(lambda: simulate(built, points, draws=2000, one_pair_of_hands=True), turns=3)
    least = floor(links)
    with capsys.disabled():
        print(
            f"\n{STEPS} steps, {LINKS} links: whole critical path {whole:.1f} ms ({whole / least:.0f}x one pass), "
            f"one tick {one_tick:.1f} ms ({one_tick / least:.0f}x), 2,000 finishes {drawn:.0f} ms "
            f"({drawn / least:.0f}x); one pass {least:.2f} ms"
        )
