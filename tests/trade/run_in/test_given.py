"""What a first run refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.run_in.cut_tests import facing, two_collars
from rebuild.trade.run_in.warming import heated, plan_run


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: two_collars("40.00", 40.02, 200), "Near [mm]: “40.00” is not a number."),
        (lambda: two_collars(40.0, 40.02, 200, centre_height_mm="100"), "Centre height [mm]: “100” is not a number."),
        (lambda: facing(None, 160), "Hollow [mm]: “None” is not a number."),
        (lambda: facing(0.02, 160, by="eye"), "By: “eye” is not a FacingBy."),
        (lambda: heated([0, 10], [20, "31"], 60), "Celsius: “31” is not a number."),
        (lambda: heated([0, math.nan], [20, 31], 60), "Minutes: “nan” is not a finite number."),
        (lambda: plan_run(True, 1000), "Slowest [rpm]: “True” is not a number."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert heated([0, 10], [20, 31], None).value.last_C == 31
    assert plan_run(None, None)[0].speed_rpm is None
