"""What a taper refuses at the door: wrong kinds, each named with its value; and the right ones beside them."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.tapers.angles import ScaleZero, sine_bar, taper_setting
from rebuild.trade.tapers.gauging import over_rollers, stand_off
from rebuild.trade.tapers.identify import identify
from rebuild.trade.tapers.machine_tapers import dimensions, taper


@pytest.mark.parametrize(
    ("call", "sentence"),
    [
        (lambda: sine_bar("100", 30), "Length [mm]: “100” is not a number."),
        (lambda: sine_bar(100, math.inf), "Angle [°]: “inf” is not a finite number."),
        (lambda: taper_setting(1.4, "across"), "Zero: “across” is not a ScaleZero."),
        (lambda: over_rollers(31.0, None, 40.0, 6.0), "High [mm]: “None” is not a number."),
        (lambda: stand_off(math.nan, 0.05), "Diameter off [mm]: “nan” is not a finite number."),
        (lambda: identify(23.8, 19.7, True), "Apart [mm]: “True” is not a number."),
        (lambda: taper("MT", 3), "Number: “3” is not a text."),
        (lambda: dimensions("Morse 3"), "Wanted: “Morse 3” is not a Taper."),
    ],
)  # fmt: skip
def test_a_wrong_kind_is_refused_in_a_sentence(call: Callable[[], object], sentence: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        call()
    assert str(refusal.value).startswith(sentence)
    assert refusal.value.way_out


def test_the_right_kinds_pass() -> None:
    assert sine_bar(100, 30).value.height_mm == pytest.approx(50.0)
    assert taper_setting(1.4, ScaleZero.ALONG_BED).value.dial_deg == 1.4
