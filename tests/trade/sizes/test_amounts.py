"""Durations, temperatures and torques as typed."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.amounts import (
    _TORQUE_UNITS,
    exact_minutes,
    parse_celsius,
    parse_minutes,
    parse_torque,
    show_minutes,
)


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [("30", 30), ("30 min", 30), ("1.5 h", 90), ("1,5 h", 90), ("1 h 30 min", 90), ("1h30", 90), ("2 d", 2880),
     ("2 d 4 h", 3120), ("1 week", 10080), ("0", 0), (".5 h", 30)],
)  # fmt: skip
def test_durations(typed: str, minutes: float) -> None:
    assert parse_minutes(typed) == minutes


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "soon",
        "-5",
        "30 min x",
        "abc 30 min",
        "5 5",
        "30 min 5",
        "2 d 5",
        "1 fortnight",
        "9" * 99,
        "9" * 50,
    ],
)
def test_what_is_no_duration(typed: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        parse_minutes(typed, "Likely")
    assert str(refusal.value).startswith("Likely: ")
    assert "1.5 h" in refusal.value.way_out


@given(st.integers(0, 100_000) | st.floats(0.001, 1e6))
def test_a_duration_shown_to_be_typed_again_loses_nothing(minutes: float) -> None:
    assert parse_minutes(exact_minutes(float(minutes))) == pytest.approx(float(minutes), rel=1e-15, abs=1e-12)


@pytest.mark.parametrize(
    ("minutes", "shown"), [(0, "0 min"), (59, "59 min"), (60, "1 h"), (95, "1.6 h"), (2160, "1.5 d")]
)
def test_durations_shown_briefly(minutes: float, shown: str) -> None:
    assert show_minutes(minutes) == shown


@pytest.mark.parametrize(
    ("typed", "celsius"),
    [
        ("20", 20),
        ("18 C", 18),
        ("68 F", 20),
        ("-5", -5),
        ("21,5 °C", 21.5),
        ("65F", 18.333333),
        ("90 C", 90),
        ("32 deg F", 0),
    ],
)
def test_temperatures(typed: str, celsius: float) -> None:
    assert parse_celsius(typed) == pytest.approx(celsius, abs=1e-6)


def test_a_bare_number_a_thermometer_would_show_in_fahrenheit_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as question:
        parse_celsius("68")
    assert [parse_celsius(retyped) for _, retyped in question.value.readings] == [68.0, 20.0]


@pytest.mark.parametrize("typed", ["", "warm", "20 K", "-300", "-500 F", "5000 C", "20 C warm"])
def test_what_is_no_temperature(typed: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        parse_celsius(typed, "Temperature")
    assert str(refusal.value).startswith("Temperature: ")


@pytest.mark.parametrize(("spelling", "unit"), sorted(_TORQUE_UNITS.items()))
def test_every_torque_unit_agrees_with_pint(spelling: str, unit: str) -> None:
    theirs = pint.UnitRegistry().Quantity(25.0, unit).to("N*m").magnitude
    assert math.isclose(parse_torque(f"25 {spelling}").newton_metres, theirs, rel_tol=1e-12)


def test_a_torque_needs_its_unit() -> None:
    with pytest.raises(BadEntry, match="“25” has no unit"):
        parse_torque("25", "Torqued to")
    with pytest.raises(BadEntry, match="not a torque"):
        parse_torque("25 mm")
    assert parse_torque(" 20 lb-ft ").text == "20 lb-ft"


@given(st.text(max_size=12) | st.text(alphabet="0123456789.,-+ hmdinFC°·Nlbft", max_size=12))
def test_any_text_is_read_or_refused(text: str) -> None:
    for parse in (parse_minutes, parse_celsius, parse_torque):
        try:
            value = parse(text)
        except BadEntry:
            pass
        else:
            assert math.isfinite(value if isinstance(value, float) else value.newton_metres)
