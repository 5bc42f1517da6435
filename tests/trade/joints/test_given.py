"""What a joint refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.joints.bolts import bolt_thread, proof, tighten
from rebuild.trade.joints.close_in import bush_close_in
from rebuild.trade.joints.interference import press_fit
from rebuild.trade.joints.keys import key_metric
from rebuild.trade.joints.lame import Elastic
from rebuild.trade.joints.thermal import assemble
from rebuild.trade.shop.materials import material

STEEL = Elastic(210_000, 0.3)


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: press_fit(50, 0.04, 40, 80, "steel", "steel"), "Hub: “steel” is not a Material or an Elastic."),
        (lambda: press_fit(50, 0.04, 40, 80, STEEL, None), "Shaft: “None” is not a Material or an Elastic."),
        (lambda: press_fit("50", 0.04, 40, 80, STEEL, STEEL), "Diameter [mm]: “50” is not a number."),
        (lambda: press_fit(50, math.nan, 40, 80, STEEL, STEEL), "Interference [mm]: “nan” is not a finite number."),
        (lambda: press_fit(50, 0.04, math.inf, 80, STEEL, STEEL), "Length [mm]: “inf” is not a finite number."),
        (lambda: press_fit(50, 0.04, 40, 80, STEEL, STEEL, friction=True), "Friction: “True” is not a number."),
        (lambda: bush_close_in(40, 0.04, 30, 40, "bronze", STEEL), "Bush: “bronze” is not a Material or an Elastic."),
        (lambda: assemble(50, 0.04, "steel", material("steel")), "Hub: “steel” is not a Material."),
        (lambda: tighten("M10", proof("8.8", 10)), "Thread: “M10” is not a BoltThread."),
        (lambda: bolt_thread(10), "Text: “10” is not a text."),
        (lambda: key_metric("30"), "Shaft [mm]: “30” is not a number."),
        (lambda: Elastic("210", 0.3), "E [MPa]: “210” is not a number."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    found = press_fit(50, 0.04, 40, math.inf, material("grey cast iron"), STEEL).value
    assert found.force_N > 0
    assert (
        press_fit(50.0, 0.04, 40.0, 80.0, STEEL, STEEL).value
        == press_fit(50, 0.04, 40, 80, STEEL, STEEL).value
    )
