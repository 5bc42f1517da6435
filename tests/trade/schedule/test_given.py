"""What a schedule refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.pert import ThreePoint
from rebuild.trade.schedule.simulate import simulate
from rebuild.trade.schedule.week import Spell

NET = Network("AB", [("A", "B")])
POINTS = {"A": ThreePoint(1, 1, 1), "B": ThreePoint(2, 2, 2)}


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: ThreePoint("1", 2, 3), "Shortest duration: “1” is not a number."),
        (lambda: ThreePoint(1, None, 3), "Likely duration: “None” is not a number."),
        (lambda: ThreePoint(1, 2, math.inf), "Longest duration: “inf” is not a finite number."),
        (lambda: Spell(True, 0, 60), "Weekday of a spell: “True” is not a number."),
        (lambda: Spell(1, "19:00", 1260), "Start of a spell: “19:00” is not a number."),
        (lambda: NET.times({"A": 1.0, "B": "2 h"}), "Duration of B: “2 h” is not a number."),
        (lambda: NET.times({"A": 1.0, "B": math.nan}), "Duration of B: “nan” is not a finite number."),
        (lambda: simulate(NET, POINTS, draws="many"), "Draws: “many” is not a number."),
        (lambda: simulate(NET, POINTS, seed=None), "Seed: “None” is not a number."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert NET.times({"A": 1, "B": 2.0})["B"].earliest_finish == 3.0
    assert simulate(NET, POINTS, draws=0).mean_finish == 0.0
    assert simulate(NET, POINTS, draws=3, seed=0).mean_finish == 3.0
