"""Viscosity in old units and with temperature: round trips, order, refusals, traps."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.lubrication.viscosity import (
    Scale,
    celsius,
    engler_cSt,
    fahrenheit,
    from_cSt,
    redwood_cSt,
    saybolt_cSt,
    saybolt_factor,
    saybolt_seconds,
    to_cSt,
)
from rebuild.trade.lubrication.viscosity_index import line_of_index, viscosity_100C, viscosity_index
from rebuild.trade.lubrication.walther import line_through, viscosity_at

viscosities = st.floats(2.0, 5000.0)
temperatures = st.floats(-10.0, 150.0)


@given(viscosities, temperatures)
def test_saybolt_there_and_back(nu: float, at: float) -> None:
    assert saybolt_cSt(saybolt_seconds(nu, at), at) == pytest.approx(nu, rel=1e-9)


@given(viscosities, viscosities)
def test_thicker_oil_takes_longer(one: float, two: float) -> None:
    assert (saybolt_seconds(one) < saybolt_seconds(two)) == (one < two)


@given(st.floats(34.0, 2000.0))
def test_redwood_there_and_back(seconds: float) -> None:
    nu = redwood_cSt(seconds)
    # The two formulas differ by 0.01 mm²/s where they meet, at 100 s.
    assert from_cSt(nu, Scale.REDWOOD, 21.1).value == pytest.approx(seconds, rel=6e-4)


@given(st.floats(1.35, 600.0))
def test_engler_there_and_back(degrees: float) -> None:
    nu = engler_cSt(degrees)
    back = from_cSt(nu, Scale.ENGLER, 50.0).value
    # The two formulas overlap by 0.2 mm²/s at 3.2 °E, so one degree may answer for two there.
    assert back == pytest.approx(degrees, rel=1e-6 if abs(degrees - 3.2) > 0.03 else 0.01)


@given(st.floats(-40.0, 400.0))
def test_degrees_there_and_back(at: float) -> None:
    assert celsius(fahrenheit(at)) == pytest.approx(at, abs=1e-9)


def test_trap_a_saybolt_depends_on_temperature() -> None:
    assert saybolt_factor(celsius(210.0)) == pytest.approx(1.00671)
    assert saybolt_seconds(68, celsius(210)) / saybolt_seconds(68) == pytest.approx(1.00671)


def test_trap_a_100_F_is_not_40_C() -> None:
    assert celsius(100.0) == pytest.approx(37.7778, abs=1e-4)
    assert celsius(210.0) == pytest.approx(98.8889, abs=1e-4)


@pytest.mark.parametrize(
    ("value", "scale"), [(31.0, Scale.SAYBOLT), (33.0, Scale.REDWOOD), (1.2, Scale.ENGLER)]
)
def test_below_the_range_is_refused_with_it(value: float, scale: Scale) -> None:
    with pytest.raises(OutOfRange, match=r"lies outside .* the range of .*\((published|from memory)\)"):
        to_cSt(value, scale, 37.8)


def test_trap_a_saybolt_is_not_reported_below_1_81() -> None:
    with pytest.raises(OutOfRange, match=r"1\.81"):
        from_cSt(1.8, Scale.SAYBOLT, 37.8)


def test_nonsense_is_refused() -> None:
    with pytest.raises(BadEntry):
        to_cSt(-3.0, Scale.SAYBOLT, 37.8)
    with pytest.raises(BadEntry):
        to_cSt(float("nan"), Scale.REDWOOD, 37.8)
    with pytest.raises(OutOfRange, match="Temperature"):
        to_cSt(300.0, Scale.SAYBOLT, 500.0)


def test_the_working_shows_factor_and_source() -> None:
    working = to_cSt(315.0, Scale.SAYBOLT, 40.0).working
    assert "0.000061" in working.text()
    assert any(source.name == "ASTM D2161" for source in working.sources())


@given(st.floats(8.0, 3000.0), st.floats(3.0, 100.0), st.floats(-20.0, 120.0), st.floats(0.5, 30.0))
def test_warmer_oil_is_thinner(nu40: float, ratio: float, at: float, more: float) -> None:
    nu100 = nu40 / (1 + ratio * 0.1)
    if nu100 < 2.0:
        return
    line = line_through(40.0, nu40, 100.0, nu100)
    try:
        cool, warm = line.viscosity_cSt(at), line.viscosity_cSt(at + more)
    except OutOfRange:
        return
    assert warm < cool


@given(st.floats(8.0, 3000.0), st.floats(20.0, 180.0))
def test_index_there_and_back(nu40: float, index: float) -> None:
    try:
        nu100 = viscosity_100C(nu40, index)
    except OutOfRange:
        assert nu40 < 60.0
        return
    assert viscosity_index(nu40, nu100).value.exact == pytest.approx(index, abs=1e-4)


@given(st.floats(30.0, 1500.0), st.floats(20.0, 80.0), st.floats(60.0, 160.0))
def test_one_reading_and_the_index_give_the_oil(nu: float, at: float, index: float) -> None:
    line = line_of_index(at, nu, index)
    assert line.viscosity_cSt(at) == pytest.approx(nu, rel=1e-6)
    got = viscosity_index(line.viscosity_cSt(40.0), line.viscosity_cSt(100.0)).value.exact
    assert got == pytest.approx(index, abs=0.01)


def test_lines_that_cannot_be_are_refused() -> None:
    with pytest.raises(BadEntry, match="thickens when warmed"):
        line_through(40, 10, 100, 60)
    with pytest.raises(BadEntry, match="at least 1 °C apart"):
        line_through(40, 32, 40.2, 31.9)
    with pytest.raises(OutOfRange, match="2 to 2e"):
        line_through(40, 3.0, 100, 1.2)


def test_trap_a_the_simple_form_stops_at_2() -> None:
    with pytest.raises(OutOfRange, match=r"outside 2 to"):
        viscosity_at(200.0, 40.0, 32.0, 100.0, 5.4)
    with pytest.raises(OutOfRange, match=r"-34\.4 to 232\.2 °C"):
        viscosity_at(-60.0, 40.0, 32.0, 100.0, 5.4)


def test_outside_the_two_readings_is_said() -> None:
    working = viscosity_at(0.0, 40.0, 68.0, 100.0, 8.7).working
    assert "Outside the two readings" in working.text()


def test_the_index_refuses() -> None:
    with pytest.raises(OutOfRange, match="below 2 mm"):
        viscosity_index(5.0, 1.9)
    with pytest.raises(BadEntry, match="not above"):
        viscosity_index(8.0, 9.0)
