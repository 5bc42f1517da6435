"""The one reader of typed numbers: what is read, what is asked about, what is refused, and how long it takes."""

from __future__ import annotations

import contextlib
import math
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Ambiguous, BadEntry, OutOfRange
from rebuild.trade.sizes.exact import LARGEST, exact, plain_text
from rebuild.trade.sizes.number import read_number, read_whole
from rebuild.trade.sizes.typed_text import LONGEST_TEXT
from rebuild.trade.sizes.unit_behind import split_unit


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("1.5", 1.5), ("1,5", 1.5), ("-0,02", -0.02), ("−2", -2.0), ("+3", 3.0), ("1 500", 1500.0), (".5", 0.5),
        ("25.", 25.0), ("0,500", 0.5), ("1,250.5", 1250.5), ("1.250,5", 1250.5), ("1,250,000", 1250000.0),
        ("2e-3", 0.002), ("2.1E5", 210000.0), ("12,5 kg", 12.5), ("12 KG", 12.0), ("999999999999", 999999999999.0),
    ],
)  # fmt: skip
def test_what_is_read(typed: str, value: float) -> None:
    assert read_number(typed, unit="kg") == value


@pytest.mark.parametrize(
    "typed",
    ["", " ", "two", "nan", "inf", "-inf", "Infinity", "1e400", "1e999", "1e13", "0x10", "1_000", "1.2.3", "1,2,3",
     "--3", "3-", "1/2", "12 lb", "½", "9" * 13, "9" * 81, "5 kg kg"],
)  # fmt: skip
def test_what_is_no_number_is_refused(typed: str) -> None:
    with pytest.raises(BadEntry) as refusal:
        read_number(typed, "Load", "kg")
    assert not isinstance(refusal.value, Ambiguous)
    assert str(refusal.value).startswith("Load: ")
    assert refusal.value.way_out


@pytest.mark.parametrize("typed", ["1,500", "-1,500", "12,345", "999,000"])
def test_a_doubtful_comma_is_asked_about_and_either_answer_can_be_typed(typed: str) -> None:
    with pytest.raises(Ambiguous) as question:
        read_number(typed, "Load", "kg")
    (decimal, first), (thousands, second) = question.value.readings
    assert (decimal, thousands) == ("decimal comma", "thousands")
    assert read_number(second, unit="kg") == pytest.approx(1000 * read_number(first, unit="kg"))
    assert first in str(question.value)
    assert second in str(question.value)


def test_the_file_settles_the_comma() -> None:
    assert read_number("1,500", decimal_comma=True) == 1.5
    assert read_number("1,500", decimal_comma=False) == 1500.0
    assert read_number("0,5", decimal_comma=False) == 0.5
    assert read_whole("1,500", decimal_comma=False) == 1500
    with pytest.raises(BadEntry, match="is not a whole number"):
        read_whole("1,500", decimal_comma=True)
    with pytest.raises(Ambiguous):
        read_whole("1,500")


@pytest.mark.parametrize("typed", ["2.0", "1,5", "1e3", "two", "", "1/1", "½", "1.5"])
def test_what_is_no_whole_number(typed: str) -> None:
    with pytest.raises(BadEntry):
        read_whole(typed, "Teeth")


@pytest.mark.parametrize(
    ("bounds", "inside", "outside", "said"),
    [
        ({"above": 0.0}, ("0.001",), ("0", "-1"), "is not above 0."),
        ({"at_least": 0.0, "at_most": 0.5}, ("0", "0.5"), ("-0.01", "0.51"), "is outside 0 to 0.5."),
        ({"at_least": 1.0}, ("1",), ("0.99",), "is below 1."),
        ({"at_most": 9.0}, ("9",), ("9.01",), "is above 9."),
        ({"above": 0.0, "at_most": 2.0}, ("2",), ("0", "2.01"), "is not above 0 and up to 2."),
    ],
)
def test_a_range_is_said_whole(
    bounds: dict[str, float], inside: tuple[str, ...], outside: tuple[str, ...], said: str
) -> None:
    for typed in inside:
        assert read_number(typed, **bounds) == float(typed)  # type: ignore[arg-type]
    for typed in outside:
        with pytest.raises(OutOfRange) as refusal:
            read_number(typed, "Share", **bounds)  # type: ignore[arg-type]
        assert said in str(refusal.value)
        assert f"read as {float(typed):g}" in str(refusal.value)


@pytest.mark.parametrize(("typed", "value"), [("0", 0), ("3", 3), ("12", 12)])
def test_a_count_keeps_to_its_range_from_both_sides(typed: str, value: int) -> None:
    assert read_whole(typed, at_least=value, at_most=value) == value
    with pytest.raises(OutOfRange, match="is below"):
        read_whole(typed, at_least=value + 1)
    with pytest.raises(OutOfRange, match="is above"):
        read_whole(typed, at_most=value - 1)


def test_the_largest_and_the_longest_from_both_sides() -> None:
    assert read_number(str(LARGEST)) == LARGEST
    with pytest.raises(BadEntry, match="is too large"):
        read_number(str(LARGEST + 1))
    assert read_number("0" * (LONGEST_TEXT - 1) + "1") == 1.0
    with pytest.raises(BadEntry, match="is too long"):
        read_number("0" * LONGEST_TEXT + "1")


@given(st.decimals(min_value=-(10**9), max_value=10**9, places=4))
def test_every_decimal_comes_back_exactly(value: Decimal) -> None:
    """Python's own Decimal is the oracle."""
    assert exact(f"{value:f}") == Fraction(value)


@given(st.integers(0, 500), st.integers(1, 63), st.sampled_from([8, 16, 32, 64]))
def test_every_mixed_number_comes_back_exactly(whole: int, top: int, bottom: int) -> None:
    top = top % bottom or 1
    for typed in (f"{whole} {top}/{bottom}", f"{whole}-{top}/{bottom}"):
        assert exact(typed) == whole + Fraction(top, bottom)
    assert exact(f"{top}/{bottom}", lost_space=False) == Fraction(top, bottom)


@given(st.text(max_size=30) | st.text(alphabet="0123456789.,-+ /eE°kg", max_size=30))
def test_any_text_is_read_finite_or_refused(text: str) -> None:
    for read in (read_number, read_whole, exact):
        reader: Callable[[str], float | int | Fraction] = read
        with contextlib.suppress(BadEntry):
            assert math.isfinite(reader(text))


def test_the_unit_is_told_from_the_number() -> None:
    assert split_unit("1,500 kg") == ("1,500", "kg")
    assert split_unit("- 5 °C") == ("- 5", "°C")
    with pytest.raises(BadEntry, match="is not an amount"):
        split_unit("kg 5")


def test_a_value_is_typed_again_without_an_exponent() -> None:
    assert plain_text(Fraction(1, 100_000)) == "0.00001"
    assert plain_text(0.0) == "0"
