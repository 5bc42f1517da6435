"""Heat and cold: integrated contraction, temperatures for assembly, limits, time, cautions."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.contraction import cold_factor, linear_change_mm, size_change, strain
from rebuild.trade.joints.heat_sources import heat_limit, media, medium
from rebuild.trade.joints.thermal import assemble, hub_temperature, what_each_gives
from rebuild.trade.joints.time_window import window_s
from rebuild.trade.shop.materials import material

STEEL, BRONZE, IRON = material("steel"), material("bearing bronze C93200"), material("grey cast iron")
METALS = [
    material(name)
    for name in ("steel", "grey cast iron", "stainless 304", "aluminium 6061", "free-cutting brass C36000")
]


@pytest.mark.parametrize("one", METALS, ids=lambda one: one.name)
def test_trap_a_constant_coefficient_overstates_the_cold(one: object) -> None:
    """Trap B: the mean coefficient down to nitrogen is about 20 to 35 % under the room value."""
    change = size_change(50.0, one, -195.8).value  # type: ignore[arg-type]
    short = 1.0 - change.change_mm / change.constant_mm
    # Copper alloys lie at the low end (18 %), iron and aluminium near a quarter.
    assert 0.17 < short < 0.35
    freezer = size_change(50.0, one, -18.0).value  # type: ignore[arg-type]
    assert 0.0 <= 1.0 - freezer.change_mm / freezer.constant_mm < 0.12


@pytest.mark.parametrize(
    ("name", "percent"),
    [("stainless 304", 0.281), ("aluminium 6061", 0.389), ("cartridge brass C26000", 0.353)],
)
def test_the_whole_contraction_to_77_kelvin(name: str, percent: float) -> None:
    # Source: national cryogenic tables of total contraction 293 K to 77 K (from memory), in per cent.
    assert -strain(material(name), -196.15) * 100 == pytest.approx(percent, abs=0.003)


@given(st.sampled_from(METALS), st.floats(-196.0, 299.0), st.floats(0.1, 40.0))
def test_size_rises_with_temperature(one: object, low: float, step: float) -> None:
    high = min(300.0, low + step)
    assert strain(one, high) > strain(one, low)  # type: ignore[arg-type]
    assert 0.5 < cold_factor(one, low) <= 1.0  # type: ignore[arg-type]


def test_nothing_moves_at_twenty_degrees() -> None:
    assert strain(STEEL, 20.0) == 0.0


@given(st.floats(1.0, 500.0), st.floats(-40, 250))
def test_change_is_in_proportion_to_size(size: float, temperature: float) -> None:
    one = size_change(size, STEEL, temperature).value.change_mm
    assert size_change(2 * size, STEEL, temperature).value.change_mm == pytest.approx(2 * one)


def test_trap_a_coefficient_per_fahrenheit_is_smaller_by_1_8() -> None:
    per_c = linear_change_mm(50, 11.5e-6, 20, 120)
    per_f = linear_change_mm(50, 11.5e-6 / 1.8, 68, 248)
    assert per_f == pytest.approx(per_c)
    text = assemble(50, 0.04, STEEL, STEEL).working.text()
    assert "1.8 °F" in text


def test_the_bore_grows_like_the_solid_and_volume_three_times_as_much() -> None:
    linear = strain(STEEL, 120)
    assert (1 + linear) ** 3 - 1 == pytest.approx(3 * linear, rel=2e-3)


@pytest.mark.parametrize("temperature", [-250.0, 400.0])
def test_temperatures_beyond_the_tables_are_refused(temperature: float) -> None:
    with pytest.raises(OutOfRange, match="-196 to 300 °C"):
        strain(STEEL, temperature)


def test_materials_without_cold_data_are_refused_in_the_cold_only() -> None:
    acetal = material("acetal")
    assert strain(acetal, -18.0) < 0
    with pytest.raises(OutOfRange, match="no contraction table"):
        strain(acetal, -78.5)
    text = what_each_gives(20.0, acetal).working.text()
    assert "no contraction table" in text
    assert "too hot for acetal" in text


@given(st.floats(10, 300), st.floats(0.0, 0.1), st.floats(0.0, 0.05), st.floats(8e-6, 24e-6))
def test_hub_temperature_and_gap_are_each_others_inverse(
    d: float, interference: float, clearance: float, alpha: float
) -> None:
    hot = hub_temperature(d, interference, clearance, alpha)
    gained = linear_change_mm(d, alpha, 20.0, hot)
    assert gained - interference == pytest.approx(clearance, abs=1e-9)


def test_gap_agrees_with_assemble() -> None:
    found = assemble(50, 0.04, IRON, STEEL, clearance_mm=0.03, cold="dry ice").value
    bore, shank = (
        size_change(50, of, at).value.change_mm for of, at in ((IRON, found.hub_C), (STEEL, found.shaft_C))
    )
    assert bore - shank - 0.04 == pytest.approx(0.03, abs=1e-6)


def test_chilling_saves_heat_and_may_do_it_alone() -> None:
    plain = assemble(50, 0.04, STEEL, STEEL).value
    chilled = assemble(50, 0.04, STEEL, STEEL, cold="dry ice").value
    assert chilled.hub_C < plain.hub_C
    alone = assemble(25, 0.010, STEEL, BRONZE, clearance_mm=0.01, cold="liquid nitrogen")
    assert alone.value.hub_C == 20.0
    assert "clears by itself" in alone.working.text()


def test_trap_heating_limits_by_kind_of_part() -> None:
    assert heat_limit("rolling bearing")[0] == 120.0
    assert heat_limit("sealed or greased bearing")[0] < 120.0
    assert heat_limit("hardened part")[0] == 150.0
    assert heat_limit("part with babbitt")[0] < 240.0
    hot = assemble(50, 0.04, STEEL, STEEL, clearance_mm=0.05, hub_kind="rolling bearing")
    assert not hot.value.within_limit
    assert "too hot for a rolling bearing" in hot.working.text()
    with pytest.raises(BadEntry, match="rolling bearing"):
        heat_limit("pudding")


def test_a_hub_that_would_glow_is_refused() -> None:
    with pytest.raises(OutOfRange, match="Chill the shaft too"):
        assemble(20, 0.08, STEEL, STEEL)


def test_cautions_follow_the_source_of_cold() -> None:
    dry = assemble(50, 0.04, STEEL, STEEL, cold="dry ice").working.cautions()
    nitrogen = assemble(50, 0.04, STEEL, STEEL, cold="liquid nitrogen").working.cautions()
    assert any(line.startswith("Dry ice") for line in dry)
    assert any("brittle" in line for line in dry)
    assert any(line.startswith("Liquid nitrogen") for line in nitrogen)
    assert not any(line.startswith("Dry ice") for line in nitrogen)


def test_each_medium_names_its_temperature_and_source() -> None:
    assert medium("dry ice").temperature_C == -78.5
    assert {one.kind for one in media()} == {"cold", "heat"}
    with pytest.raises(BadEntry, match="household freezer"):
        medium("snow")


@given(st.floats(40, 150), st.floats(0.1, 0.9), st.floats(10, 100))
def test_time_window_is_longer_for_thicker_parts(outside: float, share: float, length: float) -> None:
    brisk, slow = window_s(STEEL, outside, outside * share, length, 150, 100).value
    assert 0 < brisk < slow
    thicker = window_s(STEEL, outside * 2, outside * share, length, 150, 100).value
    assert thicker[0] > brisk
    assert window_s(STEEL, outside, outside * share, length, 150, 60).value[0] > brisk


@pytest.mark.parametrize(("start", "end"), [(150, 200), (150, 20), (150, -10), (-78, -100)])
def test_time_window_refuses_what_never_happens(start: float, end: float) -> None:
    with pytest.raises(BadEntry):
        window_s(STEEL, 80, 50, 40, start, end)
