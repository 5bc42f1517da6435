"""Critical path, three-point draws, the owner's week: against networkx and scipy, and by property."""

from __future__ import annotations

import datetime as dt
import itertools
import random

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, strategies as st
from scipy import stats

from rebuild.errors import BadEntry, BrokenOrder
from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.pert import QUANTILES, SHAPES, ThreePoint, along, quantiles, shape_of
from rebuild.trade.schedule.simulate import hands_order, simulate
from rebuild.trade.schedule.week import Clock, Spell, Week

START = dt.datetime(2026, 11, 23, 8, 0)  # a Monday
EVENINGS = Week((Spell(1, 19 * 60, 21 * 60), Spell(3, 19 * 60, 22 * 60), Spell(5, 9 * 60, 12 * 60)))


@st.composite
def networks(draw: st.DrawFn) -> tuple[list[int], list[tuple[int, int]], dict[int, float]]:
    count = draw(st.integers(1, 14))
    pairs = [(a, b) for b in range(count) for a in range(b)]
    links = [pair for pair in pairs if draw(st.booleans())]
    durations = {key: draw(st.integers(0, 50)) * 1.0 for key in range(count)}
    return list(range(count)), links, durations


@given(networks())
def test_longest_path_agrees_with_a_graph_library(
    made: tuple[list[int], list[tuple[int, int]], dict[int, float]],
) -> None:
    # Source: networkx.dag_longest_path_length on the same graph, node weights put on edges.
    keys, links, durations = made
    graph = nx.DiGraph()
    graph.add_nodes_from(keys)
    graph.add_weighted_edges_from((a, b, durations[a]) for a, b in links)
    graph.add_weighted_edges_from((key, "end", durations[key]) for key in keys)
    network = Network(keys, links)
    times = network.times(durations)
    assert max(one.earliest_finish for one in times.values()) == nx.dag_longest_path_length(graph)
    path = network.critical_path(durations)
    assert sum(durations[key] for key in path) == nx.dag_longest_path_length(graph)
    assert all(times[key].critical for key in path)
    assert all(pair in set(links) for pair in itertools.pairwise(path))


@given(networks(), st.integers(0, 13))
def test_slipping_within_free_slack_moves_nothing_and_beyond_total_slack_moves_the_finish(
    made: tuple[list[int], list[tuple[int, int]], dict[int, float]], which: int
) -> None:
    keys, links, durations = made
    key = keys[which % len(keys)]
    network = Network(keys, links)
    before = network.times(durations)
    finish = max(one.earliest_finish for one in before.values())
    free = network.times(durations | {key: durations[key] + before[key].free_slack})
    assert all(free[other].earliest_start == before[other].earliest_start for other in keys)
    late = network.times(durations | {key: durations[key] + before[key].total_slack + 1})
    assert max(one.earliest_finish for one in late.values()) == finish + 1


def test_a_target_earlier_than_the_finish_gives_negative_slack() -> None:
    # Trap E: negative float when a target date is earlier.
    times = Network("AB", [("A", "B")]).times({"A": 4.0, "B": 6.0}, target=7.0)
    assert times["A"].total_slack == -3.0
    assert times["A"].critical


def test_a_loop_is_spelled_out() -> None:
    with pytest.raises(BrokenOrder) as caught:
        Network("ABC", [("A", "B"), ("B", "C"), ("C", "A")])
    assert len(caught.value.chain) == 4
    assert caught.value.chain[0] == caught.value.chain[-1]


def test_durations_must_be_there_and_must_rise() -> None:
    with pytest.raises(BadEntry, match="“B” has no duration"):
        Network("AB", []).times({"A": 1.0})
    with pytest.raises(BadEntry, match="5 / 3 / 9"):
        ThreePoint(5, 3, 9)


@pytest.mark.parametrize("shape", [0, 17, SHAPES // 2, SHAPES])
def test_quantiles_are_those_of_the_beta(shape: int) -> None:
    # Source: scipy.stats.beta.ppf.
    mode = shape / SHAPES
    beta = stats.beta(1 + 4 * mode, 5 - 4 * mode)
    wanted = beta.ppf((np.arange(QUANTILES) + 0.5) / QUANTILES)
    assert np.abs(quantiles(shape) - wanted).max() < 2e-3
    assert quantiles(shape).mean() == pytest.approx(beta.mean(), abs=1e-9)
    assert quantiles(shape).var() == pytest.approx(beta.var(), rel=0.01)


def chain(count: int) -> tuple[Network[int], dict[int, ThreePoint]]:
    points = {key: ThreePoint(10 + key % 3, 20 + key % 5, 60 + key % 7) for key in range(count)}
    return Network(range(count), [(key, key + 1) for key in range(count - 1)]), points


def test_a_long_chain_agrees_with_the_closed_form() -> None:
    # The sum of 60 independent durations: mean exact, spread near the beta's own variances, shape near normal.
    network, points = chain(60)
    drawn = simulate(network, points, draws=8000, seed=3)
    estimate = along(points.values())
    variance = sum(
        (p.longest - p.shortest) ** 2 * float(quantiles(shape_of(p)).var()) for p in points.values()
    )
    assert drawn.mean_finish == pytest.approx(estimate.mean, abs=4 * (variance / 8000) ** 0.5)
    assert drawn.finishes.var() == pytest.approx(variance, rel=0.06)
    assert stats.kstest((drawn.finishes - drawn.mean_finish) / drawn.finishes.std(), "norm").statistic < 0.02
    assert drawn.by(0.5) == pytest.approx(estimate.mean, rel=0.01)


def test_parallel_branches_finish_later_than_the_closed_form_of_one() -> None:
    # Trap E: merge-event bias. Ten like branches: the mean of the greatest, by scipy on the same shape.
    point = ThreePoint(10, 20, 60)
    network = Network(range(11), [(key, 10) for key in range(10)])
    points = dict.fromkeys(range(10), point) | {10: ThreePoint(0, 0, 0)}
    drawn = simulate(network, points, draws=6000, seed=5)
    beta = stats.beta(1 + 4 * 0.2, 1 + 4 * 0.8, loc=10, scale=50)
    grid = np.linspace(10, 60, 4001)
    greatest = 60 - np.trapezoid(beta.cdf(grid) ** 10, grid)
    assert drawn.mean_finish == pytest.approx(greatest, rel=0.01)
    assert drawn.mean_finish > point.mean * 1.4
    assert sum(drawn.driven_by[key] for key in range(10)) == pytest.approx(1.0, abs=0.05)


def test_the_same_seed_gives_the_same_draws() -> None:
    network, points = chain(12)
    first, second = (simulate(network, points, draws=300, seed=9).finishes for _ in range(2))
    assert (first == second).all()


def test_one_pair_of_hands_does_one_thing_at_a_time() -> None:
    points = {key: ThreePoint(10, 10, 10) for key in "ABC"}
    network = Network("ABC", [])
    assert simulate(network, points, draws=5).mean_finish == 10
    assert simulate(network, points, draws=5, one_pair_of_hands=True).mean_finish == 30


def test_a_wait_runs_beside_the_work_and_counts_elapsed_time() -> None:
    clock = Clock(EVENINGS, START, 400)
    week_of_waiting = 7 * 24 * 60.0
    points = {
        "order": ThreePoint(*([week_of_waiting] * 3)), "work": ThreePoint(60, 60, 60), "fit": ThreePoint(30, 30, 30),
    }  # fmt: skip
    network = Network(points, [("order", "fit"), ("work", "fit")])
    drawn = simulate(
        network, points, draws=3, waits=frozenset({"order"}), clock=clock, one_pair_of_hands=True
    )
    ordered_until = START + dt.timedelta(days=7)
    assert drawn.mean_finish == pytest.approx(EVENINGS.between(START, ordered_until) + 30)
    assert drawn.driven_by["work"] == 0.0


@given(networks())
def test_the_hands_order_respects_every_link(
    made: tuple[list[int], list[tuple[int, int]], dict[int, float]],
) -> None:
    keys, links, durations = made
    network = Network(keys, links)
    points = [ThreePoint(durations[key], durations[key], durations[key]) for key in network.keys]
    place = {network.keys[at]: turn for turn, at in enumerate(hands_order(network, points))}
    assert sorted(place.values()) == list(range(len(keys)))
    assert all(place[a] < place[b] for a, b in links)


@given(st.floats(0, 20_000), st.floats(0, 5_000))
def test_bench_time_and_dates_turn_into_each_other(minutes: float, more: float) -> None:
    end = EVENINGS.after(START, minutes)
    assert EVENINGS.between(START, end) == pytest.approx(minutes, abs=1e-3)
    clock = Clock(EVENINGS, START, 700)
    assert clock.to_bench(clock.to_elapsed(minutes)) == pytest.approx(minutes, abs=1e-6)
    assert clock.to_elapsed(minutes + more) >= clock.to_elapsed(minutes) - 1e-9


def test_days_off_are_skipped() -> None:
    off = Week(EVENINGS.spells, frozenset({dt.date(2026, 11, 24)}))
    assert EVENINGS.after(START, 60) == dt.datetime(2026, 11, 24, 20, 0)
    assert off.after(START, 60) == dt.datetime(2026, 11, 26, 20, 0)


def test_a_week_without_hours_says_so() -> None:
    with pytest.raises(BadEntry, match="Week: holds no hours"):
        Week(()).after(START, 10)
    with pytest.raises(BadEntry, match="is not a spell of a day"):
        Spell(2, 600, 600)


def test_a_big_random_network_is_ordered_as_a_graph_library_would_allow() -> None:
    chance = random.Random(4)
    links = [(a, b) for b in range(1, 400) for a in chance.sample(range(b), min(b, 3))]
    network = Network(range(400), links)
    assert all(network.place[a] < network.place[b] for a, b in links)
    graph = nx.DiGraph(links)
    assert nx.is_directed_acyclic_graph(graph)
