"""Bushes: the worked specimen, close-in, walls, oil holes."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.bearings.bush_oiling import oil_feed
from rebuild.trade.bearings.bushes import Range, bush, press_interference, running_clearance, use_names

INCH = 25.4
shafts = st.floats(6.0, 40.0)


def _inches(span: Range) -> list[float]:
    return [round(span.low_mm / INCH, 4), round(span.high_mm / INCH, 4)]


def test_the_worked_specimen() -> None:
    # Source: a rebuilder's sheet, apron bush: bore 0.8128, shaft 0.6247, clearance 0.0010-0.0015 in.
    made = bush(0.8128 * INCH, 0.6247 * INCH, clearance=Range(0.001 * INCH, 0.0015 * INCH)).value
    assert _inches(made.outside) == [0.8136, 0.8140]
    assert _inches(made.interference) == [0.0008, 0.0012]
    assert _inches(made.finished) == [0.6257, 0.6262]
    low, high = _inches(made.rough)
    assert low <= 0.612 <= high


@given(shafts, st.floats(3.0, 8.0), st.sampled_from(("slow", "running", "handwheel")))
def test_the_bush_follows_its_mates(shaft: float, more: float, use: str) -> None:
    housing = shaft + more
    made = bush(housing, shaft, use).value
    assert made.outside.low_mm > housing
    assert made.finished.low_mm > shaft
    assert made.rough.high_mm < made.finished.low_mm
    assert 2 * made.wall_mm == pytest.approx(housing - made.finished.high_mm)


@given(shafts, st.floats(3.0, 8.0), st.floats(0.0, 1.2), st.floats(0, 1), st.floats(0, 1))
def test_a_bore_made_ready_ends_inside_the_limits(
    shaft: float, more: float, close_in: float, size: float, grip: float
) -> None:
    hold = Range(0.02, 0.03)
    made = bush(shaft + more, shaft, clearance=Range(0.02, 0.06), interference=hold, close_in=close_in).value
    assert made.ready is not None
    bored = made.ready.low_mm + size * (made.ready.high_mm - made.ready.low_mm)
    after = bored - close_in * (hold.low_mm + grip * (hold.high_mm - hold.low_mm))
    assert made.finished.low_mm - 1e-9 <= after <= made.finished.high_mm + 1e-9


def test_no_ready_bore_where_the_interference_spreads_wider() -> None:
    worked = bush(25.0, 20.0, clearance=Range(0.02, 0.025), interference=Range(0.01, 0.04))
    assert worked.value.ready is None
    assert "finish the bore after pressing" in worked.working.text()


def test_clearance_by_use() -> None:
    # Source: rebuilders' accounts: about 0.0015 in per inch for constant running; 2 in pivot 0.002-0.006.
    running = running_clearance("running", INCH).clearance
    assert running.low_mm < 0.0015 * INCH < running.high_mm
    assert _inches(running_clearance("pivot", 2 * INCH).clearance) == [0.002, 0.006]
    assert _inches(running_clearance("pivot", 4 * INCH).clearance) == [0.003, 0.008]
    assert _inches(running_clearance("spindle", 1.75 * INCH).clearance) == [0.0007, 0.001]
    assert _inches(running_clearance("babbitt", 3 * INCH).clearance) == [0.003, 0.003]


def test_driving_fit_steps() -> None:
    # Source: a rebuilder's account: 0.0005 in to 1/2 in, 0.001 to 1 in, 0.0015 to 2 in.
    for size, middle in ((0.5, 0.0005), (0.75, 0.001), (1.0, 0.001), (1.5, 0.0015)):
        fit, _ = press_interference(size * INCH)
        assert (fit.low_mm + fit.high_mm) / 2 == pytest.approx(middle * INCH)


def test_every_use_says_it_is_practice() -> None:
    for use in use_names():
        found = running_clearance(use, 1.75 * INCH)
        assert "common practice" in found.source.cite()


def test_the_press_caution_is_there() -> None:
    assert any("Pressing" in line for line in bush(25.0, 20.0).working.cautions())


def test_walls_are_compared_with_standard_bushes() -> None:
    assert "usual, standard bushes of 20 mm bore" in bush(24.0, 19.95).working.text()
    assert "thinner than usual" in bush(21.5, 19.95).working.text()
    assert "thicker than usual" in bush(40.0, 19.95).working.text()
    assert (
        "only" in bush(120.0, 100.0, clearance=Range(0.1, 0.2), interference=Range(0.02, 0.04)).working.text()
    )


@pytest.mark.parametrize(
    ("housing", "shaft", "match"),
    [
        (20.0, 19.8, "a wall of"),
        (20.0, 25.0, "a wall of"),
        (0.0, 5.0, "positive"),
        (20.0, float("inf"), "Shaft .*not a finite number"),
    ],
)
def test_bushes_that_cannot_be(housing: float, shaft: float, match: str) -> None:
    with pytest.raises(BadEntry, match=match):
        bush(housing, shaft)


def test_outside_the_rules_is_refused_with_the_range() -> None:
    with pytest.raises(OutOfRange, match="0 to 2 in"):
        bush(60.0, 30.0)
    with pytest.raises(OutOfRange, match=r"1\.25 to 2\.5 in"):
        running_clearance("spindle", 10.0)
    with pytest.raises(BadEntry, match="Uses: slow"):
        running_clearance("flying", 10.0)
    with pytest.raises(OutOfRange, match=r"0 to 1\.2"):
        bush(25.0, 20.0, close_in=3.0)
    with pytest.raises(BadEntry, match="clearance range"):
        bush(25.0, 20.0, clearance=Range(0.05, 0.01))
    with pytest.raises(BadEntry, match="interference range"):
        bush(25.0, 20.0, interference=Range(0.05, 0.01))


@given(st.floats(8.0, 60.0), st.floats(6.0, 120.0), st.floats(1.0, 6.0), st.integers(1, 12))
def test_oil_goes_to_the_unloaded_side_and_stays_in(
    bore: float, length: float, wall: float, load: int
) -> None:
    feed = oil_feed(bore, length, wall, load).value
    assert (feed.clock - load) % 12 == 6
    assert 0 < feed.groove_start_mm < feed.groove_end_mm < length
    assert feed.groove_deep_mm <= wall / 3
    assert feed.hole_mm >= 1.5


def test_oil_feeds_refuse() -> None:
    with pytest.raises(BadEntry, match="hour"):
        oil_feed(20.0, 25.0, 2.0, 13)
    with pytest.raises(OutOfRange, match="too short"):
        oil_feed(20.0, 5.0, 2.0)
    with pytest.raises(BadEntry):
        oil_feed(20.0, 25.0, -2.0)
