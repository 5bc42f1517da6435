"""What a bearing or bush refuses at the door: wrong kinds, each named with its value; and the right ones beside."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.bearings.bushes import Range, bush, press_interference
from rebuild.trade.bearings.identify import identify_bearing
from rebuild.trade.bearings.seats import shaft_seat
from rebuild.trade.bearings.table import bearing


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: bush("25", 20.0), "Housing [mm]: “25” is not a number."),
        (lambda: bush(25.0, 20.0, clearance=(0.02, 0.04)), "Clearance: “(0.02, 0.04)” is not a Range."),
        (lambda: Range("0.02", 0.04), "Low limit [mm]: “0.02” is not a number."),
        (lambda: Range(0.02, math.inf), "High limit [mm]: “inf” is not a finite number."),
        (lambda: press_interference(None), "Housing [mm]: “None” is not a number."),
        (lambda: identify_bearing(17.0, "40", 12.0), "Outside [mm]: “40” is not a number."),
        (lambda: shaft_seat(True, "inner-turns"), "Bore [mm]: “True” is not a number."),
        (lambda: bearing(6203), "Designation: “6203” is not a text."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert identify_bearing(17.02, 39.97, None).value[0].fits
    assert bush(25.0, 20.0, clearance=Range(0.02, 0.04)).value.clearance == Range(0.02, 0.04)
