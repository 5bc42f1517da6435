"""Speeds, feeds and drill points."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.shop.cutting import advice, drill_point_mm, materials, nearest_speed, operations, rpm

sizes = st.floats(0.1, 1000.0)


@given(st.floats(1.0, 500.0), sizes)
def test_the_turns_give_the_speed_back(speed: float, diameter: float) -> None:
    turns = rpm(speed, diameter).value
    assert turns.rpm * pi * diameter / 1000.0 == pytest.approx(speed)


@given(st.floats(1.0, 500.0), sizes)
def test_trap_f_the_rule_of_four_overstates_by_4_7_percent(speed: float, diameter: float) -> None:
    turns = rpm(speed, diameter).value
    assert turns.by_4 / turns.rpm == pytest.approx(1.0472, abs=1e-4)
    assert turns.by_382 / turns.rpm == pytest.approx(1.0, abs=1e-4)


def test_trap_f_is_said() -> None:
    assert "overstates by 4.7%" in rpm(30.0, 25.0).working.text()


@given(st.floats(1.0, 5000.0), st.lists(st.floats(20.0, 3000.0), min_size=1, max_size=12))
def test_a_machine_speed_is_never_faster_if_one_is_slower(wanted: float, speeds: list[float]) -> None:
    chosen = nearest_speed(wanted, speeds)
    assert chosen in speeds
    assert chosen <= wanted or chosen == min(speeds)


@given(sizes, st.floats(31.0, 174.0), st.floats(0.01, 1.0))
def test_flatter_points_are_shorter(diameter: float, angle: float, more: float) -> None:
    assert drill_point_mm(diameter, angle + more).value < drill_point_mm(diameter, angle).value


@pytest.mark.parametrize("tool", ["hss", "carbide"])
def test_every_material_and_operation_has_advice(tool: str) -> None:
    for material in materials():
        for operation in operations():
            found = advice(material, tool, operation, 10.0).value
            assert 0 < found.speed_low_m_min < found.speed_high_m_min
            assert found.feed_low_mm is None or found.feed_high_mm is not None


def test_old_shop_figures_lie_inside() -> None:
    # Source: a rebuilder's sheet: bronze 150, steel 90, cast iron 70 ft/min (common practice).
    for material, sfm in (("bronze", 150), ("mild steel", 90), ("grey cast iron", 70)):
        found = advice(material).value
        assert found.speed_low_m_min <= sfm * 0.3048 <= found.speed_high_m_min + 1e-9
        assert "common practice" in advice(material).working.text()


def test_drills_feed_by_diameter() -> None:
    small, large = (advice("mild steel", "hss", "drilling", d).value.feed_high_mm for d in (3.0, 20.0))
    assert small is not None
    assert large is not None
    assert small < large
    assert advice("mild steel", "hss", "drilling").value.feed_low_mm is None


def test_what_cannot_be_worked_is_refused() -> None:
    with pytest.raises(BadEntry, match="Diameter"):
        rpm(30.0, 0.0)
    with pytest.raises(BadEntry, match="Cutting speed"):
        rpm(0.0, 10.0)
    with pytest.raises(BadEntry, match=r"Speed .*not a finite number"):
        rpm(float("nan"), 10.0)
    with pytest.raises(OutOfRange, match="30 to 175"):
        drill_point_mm(10.0, 180.0)
    with pytest.raises(OutOfRange, match="0 to 2 in"):
        advice("mild steel", "hss", "drilling", 80.0)
    with pytest.raises(BadEntry, match="Known: mild steel"):
        advice("cheese")
    with pytest.raises(BadEntry, match="Known: hss"):
        advice("bronze", "wood")
    with pytest.raises(BadEntry, match="Known: turning"):
        advice("bronze", "hss", "chewing")
    with pytest.raises(BadEntry, match="list of speeds"):
        nearest_speed(100.0, [])
