"""Keys: rows by shaft, depths as properties, the worn keyway."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.keys import (
    RECTANGULAR,
    chord_mm,
    depth_s_mm,
    depth_t_mm,
    key_inch,
    key_metric,
)
from rebuild.trade.joints.step_key import step_key

IN = 25.4


@given(st.floats(8, 200), st.floats(0.1, 0.45), st.floats(0.5, 1.0))
def test_s_and_t_enclose_the_key(shaft: float, share: float, flat: float) -> None:
    width = shaft * share
    height = width * flat
    s, t = depth_s_mm(shaft, width, height), depth_t_mm(shaft, width, height)
    # Between the two floors lies the key and the 0.005 in of top clearance.
    assert t - s == pytest.approx(height + 0.005 * IN)
    assert depth_t_mm(shaft, width, height, "taper") == pytest.approx(t - 0.025 * IN)
    assert s < shaft - chord_mm(shaft, width)


@given(st.floats(0.32, 6.4))
def test_inch_keys_grow_with_the_shaft(shaft: float) -> None:
    here, larger = key_inch(shaft * IN).value, key_inch(min(6.5, shaft * 1.5) * IN).value
    assert larger.width_mm >= here.width_mm
    assert here.key_width.high_mm <= here.shaft_slot.low_mm + 1e-9, "class 1 is a clearance fit"


@given(st.floats(6.01, 499.0))
def test_metric_keys_fit_their_slots(shaft: float) -> None:
    easy, tight = key_metric(shaft).value, key_metric(shaft, tight=True).value
    assert tight.shaft_slot.high_mm <= easy.shaft_slot.high_mm
    assert easy.t.low_mm - easy.s.high_mm == pytest.approx(easy.shaft_depth_mm + easy.hub_depth_mm)
    # The key is a little lower than the room for it.
    assert 0.1 <= easy.shaft_depth_mm + easy.hub_depth_mm - easy.height_mm <= 0.5


@pytest.mark.parametrize("shaft_in", [0.2, 7.0])
def test_shafts_outside_the_table_are_refused_with_its_range(shaft_in: float) -> None:
    with pytest.raises(OutOfRange, match=r"0\.3125 to 6\.5 in \(ASME B17\.1"):
        key_inch(shaft_in * IN)


def test_refusals() -> None:
    with pytest.raises(OutOfRange, match="6 to 500 mm"):
        key_metric(600)
    with pytest.raises(OutOfRange, match="rectangular"):
        key_inch(0.4 * IN, RECTANGULAR)
    with pytest.raises(OutOfRange, match="Classes 1 and 2"):
        key_inch(1.0 * IN, fit_class="9")
    with pytest.raises(BadEntry):
        key_inch(1.0 * IN, form="woodruff")
    with pytest.raises(OutOfRange):
        chord_mm(10, 12)


def test_a_key_exactly_on_a_boundary_belongs_below() -> None:
    assert key_inch(0.875 * IN).value.width_mm == pytest.approx(0.1875 * IN)
    assert key_metric(30).value.width_mm == 8.0
    assert key_metric(30.01).value.width_mm == 10.0


def test_worn_keyway_advice() -> None:
    key = key_inch(1.0 * IN).value
    assert step_key(key, 0.2505 * IN, 0.2508 * IN).value.advice == "standard key"
    assert step_key(key, 0.258 * IN, 0.258 * IN).value.advice == "oversize key"
    step = step_key(key, 0.262 * IN, 0.2505 * IN).value
    assert step.advice == "step key"
    assert step.shaft_width.low_mm < 0.262 * IN < step.shaft_width.high_mm
    assert step.lower_mm + step.upper_mm == pytest.approx(key.height_mm)
    assert step.lower_mm < key.height_mm / 2
    assert step_key(key, 0.295 * IN, 0.25 * IN).value.advice == "recut"


@given(st.floats(0.25, 0.39), st.floats(0.25, 0.39))
def test_recut_begins_at_fifteen_per_cent(shaft_slot: float, hub_slot: float) -> None:
    key = key_inch(1.0 * IN).value
    advice = step_key(key, shaft_slot * IN, hub_slot * IN).value.advice
    assert (advice == "recut") == (max(shaft_slot, hub_slot) / 0.25 - 1.0 > 0.15)


def test_slots_of_another_key_are_refused() -> None:
    key = key_inch(1.0 * IN).value
    with pytest.raises(BadEntry, match="narrower"):
        step_key(key, 0.19 * IN, 0.25 * IN)
    with pytest.raises(OutOfRange, match="far wider"):
        step_key(key, 0.25 * IN, 0.45 * IN)
