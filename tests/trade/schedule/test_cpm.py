"""The end of a network without some of its work, timed anew only where that moves something."""

from __future__ import annotations

import random
from itertools import pairwise

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


def test_ends_without_what_lies_in_one_line_on_the_longest_way_are_those_of_the_whole_timed_again() -> None:
    """Against the whole forward pass; every place of the longest way, and every line of two, of 300 networks."""
    chance = random.Random(12)
    lines = 0
    for _ in range(300):
        count = chance.randint(1, 12)
        keys = range(count)
        links = [(a, b) for a in keys for b in range(a + 1, count) if chance.random() < 0.25]
        net = Network(keys, links)
        lasting = [float(chance.randint(0, 6)) for _ in keys]
        finish = net.forward(lasting)[1]
        slack = net.slack(lasting, finish)
        way = [net.place[key] for key in net.longest_way(finish)]
        assert all(slack[at] == 0 for at in way)
        twos = [list(two) for two in pairwise(way) if net.in_line(two)]
        lines += len(twos)
        gone = [*([at] for at in way), *twos]
        left = [[0.0 if at in one else lasting[at] for at in range(count)] for one in gone]
        assert net.ends_without_one(gone, lasting, finish, slack) == [
            max(net.forward(one)[1]) for one in left
        ]
    assert lines > 100
