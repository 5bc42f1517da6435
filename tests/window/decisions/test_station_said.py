"""A station that says *at* itself is not told at at."""

from __future__ import annotations

import pytest

from rebuild.words.stations import at_station


@pytest.mark.parametrize(
    ("station", "told"),
    [("at 300 mm", "MT 5 socket runout at 300 mm"), ("At the nose", "MT 5 socket runout At the nose"),
     ("near", "MT 5 socket runout at near"), ("", "MT 5 socket runout"),
     ("attic end", "MT 5 socket runout at attic end")],
)  # fmt: skip
def test_one_at(station: str, told: str) -> None:
    assert f"MT 5 socket runout{at_station(station)}" == told
