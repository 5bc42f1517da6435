"""What a gear refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.gears.change_gears import find_trains, read_lead
from rebuild.trade.gears.identify import GearReadings, identify_gear
from rebuild.trade.gears.mesh import mesh
from rebuild.trade.gears.pitches import read_pitch
from rebuild.trade.gears.rack import rack
from rebuild.trade.gears.span import span_mm, span_target
from rebuild.trade.gears.spur import SpurGear

GEAR = SpurGear(20, 2.0, 20.0)


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: SpurGear("20", 2.0, 20.0), "Teeth: “20” is not a number."),
        (lambda: SpurGear(20, None, 20.0), "Module: “None” is not a number."),
        (lambda: SpurGear(20, 2.0, math.nan), "Pressure angle: “nan” is not a finite number."),
        (lambda: span_mm(GEAR, "3"), "Over: “3” is not a number."),
        (lambda: span_mm(GEAR, 2.5), "Over: “2.5” is not a whole number."),
        (lambda: span_target("20 T module 2"), "Gear: “20 T module 2” is not a SpurGear."),
        (lambda: mesh(GEAR, GEAR, True), "Centre [mm]: “True” is not a number."),
        (lambda: rack("DP 14", 14), "Pitch: “DP 14” is not a Pitch."),
        (lambda: read_pitch(None), "Text: “None” is not a text."),
        (lambda: find_trains(read_lead("1.5 mm"), read_lead("8 tpi"), "20-100"), "Wheels: “20-100” is not a list."),
        (lambda: identify_gear(GearReadings(32, outside_mm="59.5")), "Size read on the gear: “59.5” is not a number."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert span_mm(GEAR, 3, None) == span_mm(GEAR, 3)
    assert mesh(GEAR, GEAR).value.tight_centre_mm == pytest.approx(40.0)
