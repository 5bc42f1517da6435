"""Indexing: simple divisions come out on a plate's circle, the others by differential gearing, by the rule by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from rebuild.errors import OutOfRange
from rebuild.trade.gears.indexing import CIRCLES, indexing


def test_127_teeth_is_no_40_over_127() -> None:
    """By hand: no plate has 127 holes. Set for 120: 40/120 = 5 holes of 15; 40 (120 - 127)/120 = -7/3."""
    found = indexing(127).value
    assert (found.circle, found.holes, found.near, found.gearing) == (15, 5, 120, Fraction(-7, 3))
    assert "against the crank" in found.words


@pytest.mark.parametrize("divisions", range(2, 361))
def test_the_work_comes_round_exactly(divisions: int) -> None:
    """N times the crank's move, less what the plate turned, is the 40 turns of one revolution of the work."""
    found = indexing(divisions).value
    if found.circle is None:
        return
    moved = found.turns * divisions + found.gearing
    assert moved == 40
    assert found.circle in CIRCLES
    part = found.turns - found.turns.numerator // found.turns.denominator
    assert Fraction(found.holes, found.circle) == part
    if found.gearing == 0:
        assert found.near == divisions


def test_few_are_left_without_a_way() -> None:
    left = [n for n in range(2, 361) if indexing(n).value.circle is None]
    assert left == []


def test_one_division_is_refused() -> None:
    with pytest.raises(OutOfRange):
        indexing(1)
