"""One pair of hands is never idle while some work can be begun: checked step by step on the times given.

Common practice, no source: list scheduling (a free hand takes the first of the list that can be begun). What is
checked is the definition itself, on the starts and finishes alone, not the way they were found.
"""

from __future__ import annotations

import datetime as dt

from hypothesis import given, strategies as st

from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.hands import in_turn
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.simulate import simulate
from rebuild.trade.schedule.week import Clock, Spell, Week

KEYS = range(9)
LINKS = st.lists(
    st.tuples(st.sampled_from(KEYS), st.sampled_from(KEYS)).filter(lambda pair: pair[0] < pair[1]),
    max_size=14,
)
MINUTES = st.lists(st.integers(0, 400).map(float), min_size=9, max_size=9)
CLOCK = Clock(Week((Spell(1, 1140, 1260), Spell(5, 540, 720))), dt.datetime(2026, 12, 1, 18), 400)


@given(LINKS, MINUTES, st.frozensets(st.sampled_from(KEYS)), st.booleans())
def test_the_hands_wait_only_when_nothing_can_be_begun(
    links: list[tuple[int, int]], minutes: list[float], waits: frozenset[int], by_the_clock: bool
) -> None:
    network = Network(KEYS, links)
    lasting = {key: minutes[key] * (30 if key in waits else 1) for key in KEYS}
    clock = CLOCK if by_the_clock else None
    times = in_turn(network, lasting, waits, clock)
    assert set(times) == set(KEYS)
    assert all(times[before][1] <= times[after][0] for before, after in links), "every link holds"
    work = sorted(times[key] for key in KEYS if key not in waits)
    free = 0.0
    for start, finish in work:
        if start > free + 1e-6:
            could = [
                key
                for key in KEYS
                if key not in waits
                and times[key][0] >= start
                and all(times[before][1] <= free for before, after in links if after == key)
            ]
            assert not could, f"idle from {free} to {start} while {could} could be begun"
        assert start >= free - 1e-6, "one thing at a time"
        free = finish
    end = max(finish for _, finish in times.values())
    fixed = {key: ThreePoint(lasting[key], lasting[key], lasting[key]) for key in KEYS}
    drawn = simulate(network, fixed, draws=1, waits=waits, clock=clock, one_pair_of_hands=True)
    assert abs(drawn.mean_finish - end) < 1e-6


def test_what_waits_for_a_delivery_keeps_the_hands_from_nothing_else() -> None:
    """Ordered first, the long step still has to wait six weeks: the short ones are done meanwhile."""
    network = Network(["order", "delivery", "long", "short"], [("order", "delivery"), ("delivery", "long")])
    lasting = {"order": 15.0, "delivery": 42 * 1440.0, "long": 6000.0, "short": 60.0}
    times = in_turn(network, lasting, frozenset({"delivery"}), CLOCK)
    assert times["order"] == (0.0, 15.0)
    assert times["short"] == (15.0, 75.0)
    assert times["long"][0] > 75.0
