"""Splits and grades at their edges: end play, points an inch, the square turned over, lobes a block cannot see."""

from __future__ import annotations

import pytest

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.geometry.contact import contact
from rebuild.trade.geometry.lost_motion import split
from rebuild.trade.geometry.roundness import from_v_block
from rebuild.trade.geometry.squareness import by_reversal


def test_end_play_may_be_all_of_the_lost_motion_and_not_more() -> None:
    found = split({"end": 0.30, "middle": 0.90}, 0.30).value
    assert found.nut_mm == 0.0
    with pytest.raises(BadEntry, match=r"End play: “0\.301 mm” is larger than the lost motion at the end"):
        split({"end": 0.30, "middle": 0.90}, 0.301)
    assert split({"end": 0.0, "middle": 0.5}, 0.0).value.screw_mm["middle"] == 0.5
    with pytest.raises(BadEntry, match=r"end: “-0\.001” is below nothing"):
        split({"end": -0.001, "middle": 0.5}, 0.0)


# Common practice as told by reconditioners: 20, 12 and 5 points an inch are where each use begins.
@pytest.mark.parametrize(
    ("points", "use"),
    [(20, "fine"), (19, "general"), (12, "general"), (11, "a joint"), (5, "a joint"), (4, "rough"), (0, "rough")],
)  # fmt: skip
def test_where_each_use_of_a_scraped_surface_begins(points: int, use: str) -> None:
    assert contact(points).value.use.startswith(use)
    assert contact(2 * points, 2.0).value.use.startswith(use)


def test_turned_over_the_square_changes_sign_and_the_machine_does_not() -> None:
    true_square = by_reversal(0.010, 0.010, 200).value
    assert (true_square.machine_mm, true_square.square_mm) == (0.010, 0.0)
    true_machine = by_reversal(0.010, -0.010, 200).value
    assert (true_machine.machine_mm, true_machine.square_mm) == (0.0, 0.010)


# Source: contact geometry: in a 90° block seven lobes read nothing, three and five twice.
def test_a_block_says_which_lobes_it_cannot_see() -> None:
    found = from_v_block(0.010, 90, (3, 5, 7)).value.by_lobes
    assert found == {3: 0.005, 5: 0.005, 7: None}
    with pytest.raises(OutOfRange, match="one lobe is eccentricity"):
        from_v_block(0.010, 90, (1,))
