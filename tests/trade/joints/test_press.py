"""Press fits: properties of Lamé, the traps of list B, and refusals beyond the material."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints import lame
from rebuild.trade.joints.close_in import bore_before, bush_close_in
from rebuild.trade.joints.interference import effective_interference, press_fit
from rebuild.trade.joints.lame import Elastic
from rebuild.trade.shop.materials import material

STEEL = Elastic(210_000, 0.3)
WALLS = st.tuples(st.floats(10, 200), st.floats(1.2, 5.0), st.floats(0.0, 0.8))


@given(WALLS, st.floats(0.001, 0.2))
def test_movements_of_both_parts_add_up_to_the_interference(
    walls: tuple[float, float, float], delta: float
) -> None:
    d, outer, inner = walls[0], walls[0] * walls[1], walls[0] * walls[2]
    p = lame.pressure_MPa(d, delta, outer, STEEL, STEEL, inner)
    hub = lame.bore_growth_mm(p, d, outer, STEEL)
    shaft = p * d / STEEL.E_MPa * (lame.inner_ratio(d, inner) - STEEL.nu)
    assert hub + shaft == pytest.approx(delta, rel=1e-9)


@given(WALLS, st.floats(0.001, 0.2), st.floats(1.05, 3.0))
def test_pressure_rises_with_interference_and_wall(
    walls: tuple[float, float, float], delta: float, more: float
) -> None:
    d, outer, inner = walls[0], walls[0] * walls[1], walls[0] * walls[2]
    p = lame.pressure_MPa(d, delta, outer, STEEL, STEEL, inner)
    assert lame.pressure_MPa(d, delta * more, outer, STEEL, STEEL, inner) == pytest.approx(p * more)
    assert lame.pressure_MPa(d, delta, outer * more, STEEL, STEEL, inner) > p
    assert lame.pressure_MPa(d, delta, math.inf, STEEL, STEEL, inner) > p
    thinner = inner + (d - inner) * 0.5
    assert lame.pressure_MPa(d, delta, outer, STEEL, STEEL, thinner) < p


@given(WALLS, st.floats(0.001, 0.2), st.sampled_from([25.4, 1000.0, 0.1]))
def test_unit_invariance(walls: tuple[float, float, float], delta: float, scale: float) -> None:
    d, outer, inner = walls[0], walls[0] * walls[1], walls[0] * walls[2]
    p = lame.pressure_MPa(d, delta, outer, STEEL, STEEL, inner)
    assert lame.pressure_MPa(d * scale, delta * scale, outer * scale, STEEL, STEEL, inner * scale) == (
        pytest.approx(p)
    )


@given(WALLS, st.floats(1.0, 300.0))
def test_hub_carries_the_pressure(walls: tuple[float, float, float], p: float) -> None:
    """Equilibrium: the mean hoop over the wall balances p d, found by integrating Lamé's field."""
    d, outer = walls[0], walls[0] * walls[1]
    a, b = d / 2, outer / 2
    steps = 2000
    radii = [a + (b - a) * (k + 0.5) / steps for k in range(steps)]
    hoops = (p * a * a / (b * b - a * a) * (1 + b * b / (r * r)) for r in radii)
    force = sum(hoops) * (b - a) / steps
    assert force == pytest.approx(p * a, rel=1e-4)
    stress = lame.hub_stress(p, d, outer)
    assert stress.hoop_bore == pytest.approx(p * a * a / (b * b - a * a) * (1 + b * b / (a * a)))
    assert stress.hoop_bore > stress.hoop_outside > 0


def test_trap_diametral_interference_goes_with_the_diameter() -> None:
    # Trap B: the published 51.1875 MPa belongs to 0.04 mm on diameter; radial 0.02 on diameter halves it.
    assert lame.pressure_MPa(50, 0.04, 80, STEEL, STEEL) == pytest.approx(51.1875)
    text = press_fit(50, 0.04, 40, 80, STEEL, STEEL).working.text()
    assert "diametral, not radial" in text


def test_trap_cast_iron_is_judged_by_tension_and_its_modulus_is_doubtful() -> None:
    iron, steel = material("grey cast iron"), material("steel 1045 / C45")
    fit = press_fit(40, 0.03, 40, 80, iron, steel)
    text = fit.working.text()
    assert "66 to 150 GPa" in text
    assert "tensile strength" in text
    assert fit.value.hub_use == pytest.approx(fit.value.hub.hoop_bore / 150.0)
    with pytest.raises(OutOfRange, match="cracks"):
        press_fit(40, 0.12, 40, 60, iron, steel)


def test_trap_roughness_counts_fully_when_pressed_and_less_when_shrunk() -> None:
    steel = material("steel 1045 / C45")
    smooth = press_fit(50, 0.04, 40, 80, steel, steel)
    pressed = press_fit(50, 0.04, 40, 80, steel, steel, hub_rz_um=10, shaft_rz_um=6.3)
    shrunk = press_fit(50, 0.04, 40, 80, steel, steel, hub_rz_um=10, shaft_rz_um=6.3, shrink=True)
    assert pressed.value.effective_mm == pytest.approx(0.04 - 0.8 * 16.3e-3)
    assert shrunk.value.torque_Nm == pytest.approx(pressed.value.torque_Nm), "grip is taken with the loss"
    assert shrunk.value.hub.hoop_bore == pytest.approx(smooth.value.hub.hoop_bore), "stress without it"
    assert "less roughness is lost" in shrunk.working.text()


def test_trap_friction_is_the_great_uncertainty() -> None:
    fit = press_fit(50, 0.04, 40, 80, STEEL, STEEL)
    low, high = fit.value.force_range_N
    assert high / low == pytest.approx(4.0)
    assert low < fit.value.force_N < high
    assert "Friction rules the result" in fit.working.text()


@given(st.floats(0.005, 0.4))
def test_a_fit_is_refused_exactly_when_it_passes_the_strength(delta: float) -> None:
    steel = material("steel 1045 / C45")
    limit = press_fit(50, 0.01, 40, 80, steel, steel).value.largest_mm
    assert limit is not None
    if delta <= limit * 0.999:
        fit = press_fit(50, delta, 40, 80, steel, steel).value
        assert fit.hub_use is not None
        assert fit.hub_use <= 1.0
    elif delta > limit * 1.001:
        with pytest.raises(OutOfRange, match=f"hold to {limit * 1000:.0f} µm"):
            press_fit(50, delta, 40, 80, steel, steel)


def test_roughness_that_takes_everything_leaves_no_fit() -> None:
    assert effective_interference(0.010, 6.3, 6.3).value < 0
    with pytest.raises(OutOfRange, match="no fit is left"):
        press_fit(50, 0.010, 40, 80, STEEL, STEEL, hub_rz_um=6.3, shaft_rz_um=6.3)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"interference_mm": -0.01}, "no interference"),
        ({"interference_mm": 0.0}, "no interference"),
        ({"length_mm": 0.0}, "length"),
        ({"hub_outer_mm": 45.0}, "nest"),
        ({"shaft_bore_mm": 50.0}, "nest"),
        ({"friction": 1.5}, "friction"),
    ],
)
def test_impossible_fits_are_refused(change: dict[str, float], says: str) -> None:
    typed = {"diameter_mm": 50.0, "interference_mm": 0.04, "length_mm": 40.0, "hub_outer_mm": 80.0}
    with pytest.raises(BadEntry, match=says):
        press_fit(**{**typed, **change}, hub=STEEL, shaft=STEEL)  # type: ignore[arg-type]


def test_pressing_carries_its_cautions_and_shrinking_others() -> None:
    pressed = press_fit(50, 0.04, 40, 80, STEEL, STEEL).working.cautions()
    shrunk = press_fit(50, 0.04, 40, 80, STEEL, STEEL, shrink=True).working.cautions()
    assert any("line of force" in line for line in pressed)
    assert any("120 °C" in line for line in shrunk)


@given(st.floats(0.3, 0.9), st.floats(0.002, 0.02))
def test_close_in_never_passes_the_interference_in_a_rigid_housing(share: float, delta: float) -> None:
    bronze, iron = Elastic(100_000, 0.34), Elastic(1e9, 0.26)
    found = bush_close_in(40, delta, 40 * share, 40, bronze, iron).value
    # In a rigid housing the bush's outside moves by delta; its bore by a little less or more of it.
    thin = 2 * share / (1 + share**2 - 0.34 * (1 - share**2))
    assert found.close_in_mm == pytest.approx(delta * thin, rel=1e-3)
    assert found.most_mm == delta


def test_close_in_of_the_trade_specimen_lies_under_the_rule() -> None:
    # Source: trade notes, bush AP-12: housing 0.8128, interference 0.0010, bore about 0.6257 in.
    bronze, iron = material("bearing bronze C93200"), material("grey cast iron")
    found = bush_close_in(0.8128 * 25.4, 0.0008 * 25.4, 0.6257 * 25.4, 25.4, bronze, iron)
    assert 0.6 < found.value.share < 1.0
    assert "whole" in found.working.text()
    assert bore_before(10.0, 0.01) == pytest.approx(10.01)


def test_a_thin_bush_past_its_yield_is_said_and_a_hopeless_one_refused() -> None:
    bronze, iron = material("bearing bronze C93200"), material("grey cast iron")
    past = bush_close_in(0.8128 * 25.4, 0.0012 * 25.4, 0.6257 * 25.4, 25.4, bronze, iron)
    assert past.value.bush_use is not None
    assert past.value.bush_use > 1.0
    assert "passes its yield" in past.working.text()
    with pytest.raises(OutOfRange, match="the bush of bearing bronze C93200 yields"):
        bush_close_in(0.8128 * 25.4, 0.003 * 25.4, 0.6257 * 25.4, 25.4, bronze, iron)
    with pytest.raises(BadEntry):
        bush_close_in(20, 0.01, 21, 25, bronze, iron)
