"""What shop arithmetic refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.shop.blanks import round_blank
from rebuild.trade.shop.cutting import nearest_speed, rpm
from rebuild.trade.shop.drills import drills, largest_not_above
from rebuild.trade.shop.lifting import sling, weight_kg
from rebuild.trade.shop.materials import find_material, material

STEEL = material("steel")


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: rpm("30", 25.0), "Speed [m/min]: “30” is not a number."),
        (lambda: nearest_speed(458, "55, 110"), "Speeds: “55, 110” is not a list."),
        (lambda: sling(1000.0, 2, None), "Angle from horizontal [°]: “None” is not a number."),
        (lambda: sling(1000.0, 1.5, 60.0), "Legs: “1.5” is not a whole number."),
        (lambda: weight_kg("round", (50.0, 100.0), "steel"), "Material: “steel” is not a Material."),
        (lambda: weight_kg("round", (50.0, math.nan), STEEL), "Sizes [mm]: “nan” is not a finite number."),
        (lambda: round_blank(24.0, 40.0, None), "Material: “None” is not a Material."),
        (lambda: largest_not_above(True), "Limit [mm]: “True” is not a number."),
        (lambda: drills("letter"), "Drills: “letter” is not a series of drills. Choose inch or metric."),
        (lambda: find_material(None), "Text: “None” is not a text."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert weight_kg("round", (50, 1000), STEEL).value == weight_kg("round", (50.0, 1000.0), STEEL).value
    assert len(drills("metric")) > 100
