"""Lengths as they are shown: fixed decimals, never minus nought, the typed text where it fits."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.trade.sizes.quantity import FACTORS, Size, parse_length
from rebuild.trade.sizes.show import (
    DECIMALS,
    exact_text,
    in_unit,
    show_both,
    show_length,
    show_number,
    show_typed,
)


@pytest.mark.parametrize(
    ("mm", "unit", "shown"),
    [(31.75, "in", "1.2500 in"), (25.0, "mm", "25.000 mm"), (0.0254, "thou", "1.0 thou"), (0.00254, "tenth", "1 tenth"),
     (0.025, "µm", "25.0 µm"), (-0.00001, "mm", "0.000 mm"), (-0.01, "mm", "-0.010 mm")],
)  # fmt: skip
def test_each_unit_has_its_decimals(mm: float, unit: str, shown: str) -> None:
    assert show_length(mm, unit) == shown


def test_every_unit_can_be_shown() -> None:
    assert set(DECIMALS) == set(FACTORS)


def test_a_sign_on_request_but_never_on_nought() -> None:
    assert show_number(0.01, "mm", sign=True) == "+0.010"
    assert show_number(-0.01, "mm", sign=True) == "-0.010"
    assert show_number(0.0, "mm", sign=True) == "0.000"


def test_both_systems() -> None:
    assert show_both(25.4, "in") == "1.0000 in (25.400 mm)"
    assert show_both(25.4, "mm") == "25.400 mm (1.0000 in)"


@pytest.mark.parametrize(
    ("text", "own", "unit", "shown"),
    [("1-1/4", "in", "in", "1-1/4 in"), ("1-1/4", "in", "mm", "31.750 mm"), ('1 1/4"', "in", "in", '1 1/4"'),
     ("12.7 mm", "mm", "mm", "12.7 mm"), ("12.7 mm", "mm", "in", "0.5000 in")],
)  # fmt: skip
def test_the_typed_text_is_shown_in_its_own_unit(text: str, own: str, unit: str, shown: str) -> None:
    assert show_typed(parse_length(text, own), unit) == shown


def test_switching_the_display_changes_no_data() -> None:
    size = Size("1-1/4", "in", 31.75)
    show_typed(size, "mm")
    assert size == Size("1-1/4", "in", 31.75)


@given(st.floats(-1e6, 1e6), st.sampled_from(sorted(FACTORS)))
def test_nought_is_never_negative(mm: float, unit: str) -> None:
    shown = show_number(mm, unit)
    assert float(shown) != 0.0 or not shown.startswith("-")


@given(st.integers(-9_999_999, 9_999_999), st.sampled_from(sorted(FACTORS)))
def test_there_and_back(steps: int, unit: str) -> None:
    mm = steps / 10_000
    assert in_unit(mm, unit) * float(FACTORS[unit]) == pytest.approx(mm, rel=1e-14)
    assert parse_length(exact_text(mm, unit), unit).mm == pytest.approx(mm, rel=1e-15, abs=1e-12)


TYPED = ("12.7", "1-1/4 in", "3 thou", '1 1/4"', "-0.0005", "25 µm", "2 yards", "5 ft 3")


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("text", TYPED)
def test_a_typed_size_shown_in_its_own_unit_can_be_typed_again(text: str, unit: str) -> None:
    size = parse_length(text, unit)
    assert parse_length(show_typed(size, size.unit), unit).mm == size.mm
