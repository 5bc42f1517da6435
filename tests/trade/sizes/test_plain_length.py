"""A plain decimal read at once comes to the very double exact fractions come to, and to what the whole reader says.

Source of the values: Python's ``fractions.Fraction`` (exact), rounded once; 1 in = 25.4 mm exactly.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.sizes import quantity
from rebuild.trade.sizes.quantity import Size, parse_length

_MM = {"mm": Fraction(1), "in": Fraction(254, 10)}


@given(
    sign=st.sampled_from(("", "+", "-")),
    whole=st.integers(0, 9_999),
    part=st.text("0123456789", min_size=1, max_size=9),
    said=st.sampled_from(("", " mm", "mm", " in", "in")),
    unit=st.sampled_from(("mm", "in")),
)
def test_it_is_the_exact_fraction_rounded_once(
    sign: str, whole: int, part: str, said: str, unit: str
) -> None:
    number = f"{sign}{whole}.{part}"
    used = said.strip() or unit
    exact = Fraction(number) * _MM[used]
    assert parse_length(number + said, unit) == Size(number + said, used, float(exact))


@pytest.mark.parametrize(
    "text", ["24.985", "+.5", "-0.02 in", "1-1/4", "0,02 mm", "3 thou", " 7.5 ", "25 µm", "1e-3"]
)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_short_way_and_the_whole_reader_say_the_same(
    text: str, unit: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def read() -> Size | str:
        try:
            return parse_length(text, unit)
        except BadEntry as refused:
            return str(refused)

    at_once = read()
    monkeypatch.setattr(quantity, "_plain_length", lambda _text, _unit: None)
    assert read() == at_once


def test_what_is_too_long_or_in_no_known_unit_is_left_to_the_whole_reader() -> None:
    assert quantity._plain_length("999999", "m") is None
    assert quantity._plain_length("12.5", "furlong") is None
    assert quantity._plain_length("1,250", "mm") is None
    with pytest.raises(BadEntry, match="longer than a kilometre"):
        parse_length("999999 in")
