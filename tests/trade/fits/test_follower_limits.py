"""Properties of follower limits and of fits: whatever is made inside them gives what was wanted."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import OutOfRange
from rebuild.trade.fits.combining import SIZES, mesh_combining
from rebuild.trade.fits.follower_limits import follower_limits
from rebuild.trade.fits.now import evaluate
from rebuild.trade.fits.pairing import Pairing
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.fits.to_mate import fit_to_mate
from rebuild.trade.fits.words import range_words, working
from rebuild.trade.limits.sizes import Role
from rebuild.trade.limits.uncertainty import combine
from rebuild.trade.limits.verdict import Rule, Verdict

EXACT = combine([]).value
sizes = st.floats(5.0, 100.0).map(lambda x: round(x, 4))
small = st.floats(0.0, 0.05).map(lambda x: round(x, 4))


def read(size: float, station: str = "", at: float | None = None) -> SideReading:
    return SideReading(station, at, size, EXACT)


@given(sizes, small, small, st.booleans())
def test_one_reading_agrees_with_the_rule_of_making_to_a_mate(
    size: float, a: float, b: float, outer: bool
) -> None:
    low, high = sorted((a, b))
    found = follower_limits([read(size)], outer, low, high).value
    want = fit_to_mate(Role.HOLE if outer else Role.SHAFT, size, low, high).value
    assert (found.low_mm, found.high_mm) == (pytest.approx(want.low_mm), pytest.approx(want.high_mm))


@given(
    st.lists(st.floats(-0.01, 0.01), min_size=1, max_size=5),
    st.booleans(),
    st.booleans(),
    st.floats(0.0, 1.0),
)
def test_a_follower_anywhere_inside_its_limits_gives_the_wanted_range_everywhere(
    spread: list[float], outer: bool, gears: bool, share: float
) -> None:
    way = mesh_combining(2.0) if gears else SIZES
    master = [read(3.1 + off, f"s{n}") for n, off in enumerate(spread)]
    found = follower_limits(master, outer, 0.01, 0.06, combining=way).value
    assert found.low_mm is not None
    assert found.high_mm is not None
    made = [read(found.low_mm + share * (found.high_mm - found.low_mm))]
    now = evaluate(
        *((master, made) if outer else (made, master)), 0.01, 0.06, combining=way, rule=Rule.SIMPLE
    )
    assert now is not None
    assert now.verdict is Verdict.CONFORMS


@given(st.floats(0.021, 0.2))
def test_a_master_that_varies_more_than_the_range_is_always_refused(extra: float) -> None:
    with pytest.raises(OutOfRange, match="no single size"):
        follower_limits([read(20.0, "a"), read(20.0 + extra, "b")], True, 0.01, 0.03)


def test_stations_are_paired_by_name_by_distance_or_else_by_extremes() -> None:
    bores = [read(20.02, "near", 0.0), read(20.04, "far", 100.0)]
    by_name = evaluate(bores, [read(20.0, "Near"), read(19.99, "far "), read(19.9, "mid")], 0.0, 0.1)
    assert by_name is not None
    assert (by_name.pairing, by_name.unpaired) == (Pairing.BY_STATION, ("mid",))
    by_distance = evaluate(bores, [read(20.0, "0 in", 0.2), read(19.99, "4 in", 99.7)], 0.0, 0.1)
    assert by_distance is not None
    assert [pair.station for pair in by_distance.pairs] == ["near", "far"]
    neither = evaluate(bores, [read(20.0, "a"), read(19.99, "b")], 0.0, 0.1)
    assert neither is not None
    assert neither.pairing is Pairing.EXTREMES
    assert neither.least.value_mm == pytest.approx(0.02)
    assert neither.most.value_mm == pytest.approx(0.05)


def test_the_working_shows_each_pair_the_uncertainty_and_that_it_is_taken_as_independent() -> None:
    now = evaluate([read(20.02, "near"), read(20.04, "far")], [read(20.0)], 0.0, 0.1)
    assert now is not None
    text = working("Fit", ("bore", "shaft"), now, "mm", "0.0 to 0.1").text()
    assert "= 0.020 mm (0.0008 in), 0.020 mm clear" in text
    assert "taken as independent" in text
    assert "Paired one reading with every station." in text


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(-0.03, 0.02, "0.030 mm interference to 0.020 mm clear"), (0.0, 0.02, "0.000 to 0.020 mm clear"),
     (None, -0.01, "at most 0.010 mm interference"), (0.02, 0.02, "0.020 mm clear")],
)  # fmt: skip
def test_ranges_in_words(low: float | None, high: float | None, words: str) -> None:
    assert range_words(low, high, "mm") == words
