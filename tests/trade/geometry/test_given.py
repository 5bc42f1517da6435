"""What a geometry line refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.geometry.lost_motion import split
from rebuild.trade.geometry.roundness import v_block_factor
from rebuild.trade.geometry.squareness import by_reversal
from rebuild.trade.geometry.steps import SlopeUnit, heights_of, slope_um_per_m
from rebuild.trade.geometry.straightness import straightness
from rebuild.trade.geometry.wear_effect import tailstock_low


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: heights_of([10, "20"], 100), "Slopes [µm/m]: “20” is not a number."),
        (lambda: heights_of("1020", 100), "Slopes [µm/m]: “1020” is not a list."),
        (lambda: heights_of([10, math.nan], 100), "Slopes [µm/m]: “nan” is not a finite number."),
        (lambda: heights_of([10, 20], None), "Step [mm]: “None” is not a number."),
        (lambda: slope_um_per_m(5.0, "furlongs"), "Unit: “furlongs” is not a SlopeUnit."),
        (lambda: straightness((0.0, 1.0, 0.0)), "Line: “(0.0, 1.0, 0.0)” is not a Heights."),
        (lambda: split({"end": 0.3, "middle": "0.9"}, 0.1), "At places [mm]: “0.9” is not a number."),
        (lambda: by_reversal(0.012, True, 200), "Turned [mm]: “True” is not a number."),
        (lambda: v_block_factor(2.5, 90), "Lobes: “2.5” is not a whole number."),
        (lambda: tailstock_low(math.inf, 25.0), "Low [mm]: “inf” is not a finite number."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert heights_of((10, 20.0), 100).value.height_mm == (0.0, 0.001, 0.003)
    assert slope_um_per_m(5.0, SlopeUnit.UM_PER_M, None) == 5.0
