"""What a making sheet refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.inward import inward
from rebuild.trade.making.blank import blank_of
from rebuild.trade.making.derive import read_gear, worked_key
from rebuild.trade.making.limits import general
from rebuild.trade.making.steps import cutting_name
from rebuild.trade.shop.materials import material

SIZES = {"outside diameter": Measure("outside", 24.0), "length": Measure("length", 40)}


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: blank_of("bush", SIZES, "bronze"), "Material: “bronze” is not a Material."),
        (lambda: blank_of("bush", {"length": 40.0}, material("steel")), "Sizes: “40.0” is not a Measure."),
        (lambda: general("40"), "Size [mm]: “40” is not a number."),
        (lambda: general(math.nan), "Size [mm]: “nan” is not a finite number."),
        (lambda: inward(24.9, True, "mm"), "High [mm]: “True” is not a number."),
        (lambda: cutting_name("steel"), "Material: “steel” is not a Material."),
        (lambda: read_gear(None), "Text: “None” is not a text."),
        (lambda: worked_key(30, "mm"), "Text: “30” is not a text."),
        (lambda: Measure("bore", "24"), "bore: “24” is not a number."),
        (lambda: Measure("bore", None, 24.0, math.inf), "bore: “inf” is not a finite number."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert blank_of("bush", SIZES, material("steel")).value.length_mm > 40
    assert inward(None, 25.0, "mm") == (None, 25.0)
