"""ISO 286 for 10,000 size and class pairs in one call, as a multiple of the least such a call must do.

The floor reads the same 10,000 pairs, bisects each size and fills two lists from a prepared dictionary:
no rule, no cache, no check. Run: ``pytest tests/benchmarks/bench_iso286.py``.
"""

from __future__ import annotations

import random
import time
from bisect import bisect_left

import pytest

from rebuild.errors import OutOfRange
from rebuild.trade.limits import iso286, iso286_classes, iso286_rules
from rebuild.trade.limits.iso286_tables import GRADES, STEPS

COUNT = 10_000


@pytest.fixture(scope="module")
def pairs():
    chance = random.Random(286)
    classes = [
        f"{case(letters)}{grade}"
        for letters in iso286.LETTERS
        for case in (str, str.upper)
        for grade in GRADES
    ]
    sizes, names = [], []
    while len(sizes) < COUNT:
        size, name = chance.uniform(0.1, 500.0), chance.choice(classes)
        try:
            iso286.deviations_um(size, name)
        except OutOfRange:
            continue
        sizes.append(size)
        names.append(name)
    return sizes, names


def _floor(sizes, names):
    known = dict.fromkeys(range(len(STEPS) + 1), (0.0, 1.0))
    lowers, uppers = [], []
    for size, _name in zip(sizes, names, strict=True):
        lower, upper = known[bisect_left(STEPS, size)]
        lowers.append(lower)
        uppers.append(upper)
    return lowers, uppers


def _forget():
    iso286_classes.read_class.cache_clear()
    iso286_rules.deviations.cache_clear()


def _best(work, before=lambda: None, rounds=7):
    spent = []
    for _ in range(rounds):
        before()
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return min(spent)


def test_ten_thousand_pairs(pairs):
    lowers, uppers = iso286.deviations_many(*pairs)
    assert len(lowers) == len(uppers) == COUNT
    floor = _best(lambda: _floor(*pairs))
    cold = _best(lambda: iso286.deviations_many(*pairs), before=_forget)
    warm = _best(lambda: iso286.deviations_many(*pairs))
    print(
        f"\nfloor {floor * 1e3:.2f} ms, cold {cold * 1e3:.2f} ms = {cold / floor:.1f} x, "
        f"warm {warm * 1e3:.2f} ms = {warm / floor:.1f} x"
    )
    assert cold < 0.2
    assert cold / floor < 60
