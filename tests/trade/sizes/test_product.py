"""Sizes multiplied out: whose unit a bare number is in."""

from __future__ import annotations

import pytest

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.figures.shop import FIGURES
from rebuild.trade.sizes.product import parse_product


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("50 x 1000", (50.0, 1000.0)),
        ("2 x 3 in", (50.8, 76.2)),
        ("2 in x 3 ft", (50.8, 914.4)),
        ("1-1/4 × 2 × 3 in", (31.75, 50.8, 76.2)),
        ("20 mm x 2 in", (20.0, 50.8)),
        ("2' x 3'", (609.6, 914.4)),
    ],
)
def test_read(text: str, sizes: tuple[float, ...]) -> None:
    assert parse_product(text) == pytest.approx(sizes)


@pytest.mark.parametrize("text", ["2 x 3 ft", "2 x 1.5 m", "2 x 4 x 3'"])
def test_feet_behind_the_last_are_asked_about(text: str) -> None:
    """Seen: ``2 x 3 ft`` was read as 2 mm by 3 ft."""
    with pytest.raises(Ambiguous, match="does not say in which unit") as asked:
        parse_product(text)
    for _words, again in asked.value.readings:
        assert all(size > 25 for size in parse_product(again)) or text == "2 x 1.5 m"


def test_the_weight_figure_asks_too() -> None:
    weight = next(figure for figure in FIGURES if figure.topic == "weight")
    with pytest.raises(Ambiguous):
        weight.run({**weight.example, "sizes": "2 x 3 ft"})


def test_nothing_is_refused() -> None:
    with pytest.raises(BadEntry, match="is empty"):
        parse_product("  x ")
