"""Belts and drives: what must hold of any of them, and what is refused at the door."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.drives.belts import belt_length, centres_for
from rebuild.trade.drives.spindle_speeds import MOST_PAIRS, Pair, spindle_speeds


@settings(max_examples=40, deadline=None)
@given(st.floats(20, 600), st.floats(20, 600), st.floats(1.01, 8), st.sampled_from(["open", "crossed"]))
def test_centres_and_length_lead_to_one_another(first: float, second: float, apart: float, way: str) -> None:
    centres = apart * (first + second) / 2
    made = belt_length(first, second, centres, way).value
    assert centres_for(first, second, made.length_mm, way).value.centres_mm == pytest.approx(
        centres, rel=1e-7
    )
    assert made.length_mm > 2 * centres
    assert made.small_arc_deg <= made.large_arc_deg + 1e-9
    # Swapping driver and driven turns the ratio over and nothing else.
    swapped = belt_length(second, first, centres, way).value
    assert swapped.length_mm == pytest.approx(made.length_mm)
    assert swapped.ratio * made.ratio == pytest.approx(1.0)


def test_a_crossed_belt_is_longer_and_wraps_more() -> None:
    straight, crossed = (belt_length(100.0, 200.0, 400.0, way).value for way in ("open", "crossed"))
    assert crossed.length_mm > straight.length_mm
    assert crossed.small_arc_deg == crossed.large_arc_deg > 180.0 > straight.small_arc_deg


def test_a_little_wrapped_pulley_is_noted() -> None:
    said = belt_length(50.0, 400.0, 240.0).working.text()
    assert "of the small pulley are wrapped" in said
    assert "of the small pulley are wrapped" not in belt_length(100.0, 110.0, 400.0).working.text()


@pytest.mark.parametrize(
    ("call", "kind", "sentence"),
    [
        (lambda: belt_length("100", 200.0, 400.0), BadEntry, "First [mm]: “100” is not a number."),
        (lambda: belt_length(100.0, 200.0, 400.0, "round"), BadEntry, "Belt: “round” is no way to run a belt."),
        (lambda: belt_length(0.05, 200.0, 400.0), OutOfRange, "Driving pulley: “0.05 mm” is outside 0.1 to"),
        (lambda: spindle_speeds(1440.0, (), (), ()), BadEntry, "Steps of the cone: are not given."),
        (lambda: spindle_speeds(0.0, (), (Pair(1, 1),), ()), BadEntry, "Motor: “0” is not a speed above zero."),
        (lambda: spindle_speeds(1440.0, (), (Pair(1, 1),) * (MOST_PAIRS + 1), ()), OutOfRange, "more than 24 pairs."),
        (lambda: spindle_speeds(1440.0, (), (Pair(1e9, 1),), ()), OutOfRange, "is a speed no spindle has."),
        (lambda: spindle_speeds(1440.0, (), "140/60", ()), BadEntry, "Steps: “140/60” is not a list."),
    ],
)  # fmt: skip
def test_what_is_refused(call: Callable[[], object], kind: type[Exception], sentence: str) -> None:
    with pytest.raises(kind) as refusal:
        call()
    assert sentence in str(refusal.value)


def test_a_belt_that_just_reaches_and_one_that_does_not() -> None:
    assert belt_length(100.0, 200.0, 150.001).value.length_mm > 0
    with pytest.raises(OutOfRange, match=r"more than 150 mm"):
        belt_length(100.0, 200.0, 150.0)
    assert len(spindle_speeds(1440.0, (), (Pair(1, 1),) * MOST_PAIRS, ()).value) == MOST_PAIRS
