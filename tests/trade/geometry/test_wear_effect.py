"""What worn ways do to the work."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.geometry.wear_effect import carriage_drop, front_way_drop, tailstock_low

lathes = st.tuples(st.floats(60.0, 300.0), st.floats(80.0, 500.0), st.floats(5.0, 200.0))


@given(st.floats(0.001, 0.5), lathes)
def test_the_rule_of_thumb_is_near_the_exact(drop: float, lathe: tuple[float, float, float]) -> None:
    H, B, d = lathe
    assume(drop <= B / 20)
    effect = front_way_drop(drop, H, B, d).value
    reach = B / 2 + d / 2
    # The rest is of second order: turning about the rear way, and going below centre.
    rest = 2 * drop**2 * ((reach / B) ** 2 / d + H / B**2 + reach / B**2) + 1e-9
    assert abs(effect.diameter_error_mm - effect.approximate_mm) <= 1.5 * rest
    assert effect.tilt_deg > 0


@given(st.floats(0.001, 0.3), st.floats(0.001, 0.3), lathes)
def test_more_drop_more_error(one: float, two: float, lathe: tuple[float, float, float]) -> None:
    low, high = sorted((one, two))
    assume(high > low + 1e-6)
    assert (
        front_way_drop(low, *lathe).value.diameter_error_mm
        < front_way_drop(high, *lathe).value.diameter_error_mm
    )


@given(lathes)
def test_no_drop_no_error(lathe: tuple[float, float, float]) -> None:
    assert front_way_drop(0.0, *lathe).value.diameter_error_mm == pytest.approx(0.0, abs=1e-9)


@given(st.floats(0.001, 0.3), lathes, st.floats(0.3, 4.0))
def test_the_effect_scales_with_the_lathe(
    drop: float, lathe: tuple[float, float, float], factor: float
) -> None:
    H, B, d = lathe
    one = front_way_drop(drop, H, B, d).value.diameter_error_mm
    big = front_way_drop(drop * factor, H * factor, B * factor, d * factor).value.diameter_error_mm
    assert big == pytest.approx(one * factor, rel=1e-6, abs=1e-9)


def test_a_high_front_way_turns_small() -> None:
    assert front_way_drop(-0.1, 100.0, 150.0, 30.0).value.diameter_error_mm < 0
    assert "smaller" in front_way_drop(-0.1, 100.0, 150.0, 30.0).working.text()


@given(st.floats(0.01, 1.0), st.floats(5.0, 200.0))
def test_an_equal_drop_hardly_matters(drop: float, diameter: float) -> None:
    dropped = carriage_drop(drop, diameter).value
    assert dropped.diameter_error_mm == pytest.approx(2 * drop**2 / diameter, rel=0.05)
    assert dropped.leadscrew_off_mm == drop
    assert dropped.aligned == (drop <= 0.10)


def test_the_rack_mesh_follows_the_pressure_angle() -> None:
    assert carriage_drop(0.5, 25.0, rack_pressure_angle_deg=20.0).value.rack_backlash_mm == pytest.approx(
        0.36397
    )
    assert "Shim or skim" in carriage_drop(0.5, 25.0).working.text()


def test_a_tailstock_off_in_height_turns_large_either_way() -> None:
    assert tailstock_low(0.3, 25.0).value == pytest.approx(tailstock_low(-0.3, 25.0).value)
    assert tailstock_low(0.3, 25.0).value > 0


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="damage, not wear"):
        front_way_drop(30.0, 100.0, 150.0, 25.0)
    with pytest.raises(BadEntry, match="Way spacing"):
        front_way_drop(0.1, 100.0, 0.0, 25.0)
    with pytest.raises(BadEntry, match=r"Drop .*not a finite number"):
        front_way_drop(float("nan"), 100.0, 150.0, 25.0)
    with pytest.raises(BadEntry):
        carriage_drop(0.1, -5.0)
    with pytest.raises(OutOfRange, match="10 to 30"):
        carriage_drop(0.1, 25.0, rack_pressure_angle_deg=60.0)
    with pytest.raises(BadEntry):
        tailstock_low(0.1, 0.0)
