"""The code of a tag: its check character against the standard's use, and what a slip of one sign does."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.labels.code import DIGITS, LONGEST, MOST, Code, Tagged, check_character, read_code

MARKS = st.text(DIGITS, min_size=3, max_size=3)


def test_the_check_character_of_a_published_identifier() -> None:
    # Source: the example of the Global Release Identifier standard (ISO/IEC 7064 MOD 37,36), from memory:
    # A1-2425G-ABC1234002-M.
    assert check_character("A12425GABC1234002") == "M"


@given(st.sampled_from(Tagged), MARKS, st.integers(1, MOST), st.data())
def test_a_code_comes_back_and_no_single_wrong_sign_passes(
    sort: Tagged, mark: str, number: int, data: st.DataObject
) -> None:
    code = Code(sort, mark, number)
    text = code.text()
    assert len(text) <= LONGEST
    assert read_code(f" {text.lower()} ") == code
    at = data.draw(st.integers(1, len(text) - 1))
    wrong = data.draw(st.sampled_from([sign for sign in DIGITS if sign != text[at]]))
    with pytest.raises(BadEntry, match="has a wrong character"):
        read_code(text[:at] + wrong + text[at + 1 :])


def test_the_largest_number_has_a_code_and_the_next_has_none() -> None:
    assert read_code(Code(Tagged.PLACE, "000", MOST).text()).number == MOST
    for number in (0, MOST + 1):
        with pytest.raises(OutOfRange, match=f"“{number}” has no code"):
            Code(Tagged.PART, "000", number).text()


@pytest.mark.parametrize(
    "text", ["", "P", "X7QF15T", "P7QF", "P7QFÄ5T", "https://example.org/P7QF15T", "P7QF15T0000"]
)
def test_what_is_no_code_of_ours_is_said(text: str) -> None:
    with pytest.raises(BadEntry, match="is no code of a tag"):
        read_code(text)
