"""What an oil refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.lubrication.grades import iso_place, sae
from rebuild.trade.lubrication.old_oil import today
from rebuild.trade.lubrication.viscosity import Scale, celsius, to_cSt
from rebuild.trade.lubrication.viscosity_index import viscosity_index
from rebuild.trade.lubrication.walther import viscosity_at


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: celsius("100"), "Temperature [°F]: “100” is not a number."),
        (lambda: iso_place(None), "Viscosity 40C [mm²/s]: “None” is not a number."),
        (lambda: to_cSt(300.0, "seconds", 40.0), "Scale: “seconds” is not a Scale."),
        (lambda: to_cSt(math.nan, Scale.CST, 40.0), "Value: “nan” is not a finite number."),
        (lambda: viscosity_index(73.3, True), "Viscosity 100C [mm²/s]: “True” is not a number."),
        (lambda: viscosity_at(20, 40, 68, 100, math.inf), "Second [mm²/s]: “inf” is not a finite number."),
        (lambda: sae(20, "engine"), "Grade: “20” is not a text."),
        (lambda: today(None), "Text: “None” is not a text."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert to_cSt(68, Scale.CST, 40).value == 68
    assert viscosity_index(73, 9).value.whole > 0
