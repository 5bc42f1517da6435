"""The numbers round an oil map: outside the field, in the order of their spots, apart while there is room."""

from __future__ import annotations

from math import hypot

from hypothesis import given, settings, strategies as some

from rebuild.trade.lubrication.leaders import around
from tests.depth import DEPTH

WIDE, HIGH, GAP, PITCH = 320.0, 180.0, 16.0, 22.0
#: So many numbers find room on all four sides at their distance.
ROOM = 2 * (int(HIGH / PITCH) + 1) + 2 * (int(WIDE / PITCH) + 1)
SPOT = some.tuples(some.floats(0.0, WIDE), some.floats(0.0, HIGH))


@given(some.lists(SPOT, max_size=ROOM))
@settings(max_examples=25 * DEPTH, deadline=None)
def test_outside_and_apart(spots: list[tuple[float, float]]) -> None:
    found = around(spots, WIDE, HIGH, GAP, PITCH)
    assert len(found) == len(spots)
    for at, (x, y) in enumerate(found):
        assert x in (-GAP, WIDE + GAP) or y in (-GAP, HIGH + GAP)
        assert -GAP <= x <= WIDE + GAP
        assert -GAP - 1e-6 <= y <= HIGH + GAP + 1e-6
        for other in found[:at]:
            assert hypot(other[0] - x, other[1] - y) > PITCH - 1e-6


def test_leaders_of_one_side_do_not_cross() -> None:
    spots = [(5.0, 60.0), (5.0, 58.0), (5.0, 62.0), (6.0, 59.0)]
    found = around(spots, WIDE, HIGH, GAP, PITCH)
    assert {x for x, _y in found} == {-GAP}
    assert sorted(range(4), key=lambda at: spots[at][1]) == sorted(range(4), key=lambda at: found[at][1])


def test_nothing_to_place() -> None:
    assert around([], WIDE, HIGH, GAP, PITCH) == []
