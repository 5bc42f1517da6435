"""The end of a network without some of its work, timed anew only where that moves something."""

from __future__ import annotations

import random

from rebuild.trade.schedule.cpm import Network


def test_an_end_without_some_work_is_that_of_the_whole_timed_again() -> None:
    """Against the whole forward pass, itself held against textbook tables elsewhere; 300 drawn networks."""
    chance = random.Random(11)
    for _ in range(300):
        count = chance.randint(1, 12)
        keys = range(count)
        links = [(a, b) for a in keys for b in range(a + 1, count) if chance.random() < 0.3]
        net = Network(keys, links)
        lasting = [float(chance.randint(0, 6)) for _ in keys]
        finish = net.forward(lasting)[1]
        latest = sorted(range(count), key=finish.__getitem__, reverse=True)
        gone = [at for at in range(count) if chance.random() < 0.3]
        left = [0.0 if at in gone else lasting[at] for at in range(count)]
        slack = net.slack(lasting, finish)
        assert net.end_without(finish, lasting, gone, latest, slack) == max(net.forward(left)[1])
