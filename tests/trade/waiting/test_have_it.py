"""Whether what is there serves for what is wanted."""

from __future__ import annotations

import pytest

from rebuild.trade.waiting.have_it import ENOUGH, likeness


@pytest.mark.parametrize(
    ("wanted", "there", "serves"),
    [
        ("taper pins no. 4", "taper pin No 4, 25 off", True),
        ("taper pins no. 4", "taper pins No. 3", False),
        ("6203 bearing", "bearing 6203 x2", True),
        ("6203 bearing", "bearing 6204", False),
        ("M8 socket screws", "socket screws M8x1.25", True),
        ("M8 socket screws", "socket screws M10", False),
        ("phosphor bronze bushing 1 in", "bush, phosphor bronze, 25.4 mm", True),
        ("drive belt A38", "belt A42", False),
        ("felt 1/4", "paint, grey", False),
    ],
)
def test_likeness(wanted: str, there: str, serves: bool) -> None:
    assert (likeness(wanted, there).score >= ENOUGH) is serves
