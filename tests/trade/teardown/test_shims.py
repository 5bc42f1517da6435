"""Packs of shims."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry
from rebuild.trade.teardown.shims import parse_leaves, total


@given(st.lists(st.integers(1, 40), min_size=1, max_size=6))
def test_a_pack_is_the_sum_of_its_leaves(thousandths: list[int]) -> None:
    text = " + ".join(f"0.{leaf:03d}" for leaf in thousandths)
    leaves = parse_leaves(text, "in")
    assert total(leaves, "in").value == pytest.approx(sum(thousandths) * 0.0254, rel=1e-12)


def test_what_is_no_shim_is_refused() -> None:
    assert len(parse_leaves("2 x 0.002 + 0.001", "in")) == 3
    with pytest.raises(BadEntry, match="“12” is not the thickness of a shim"):
        parse_leaves("0.5 + 12", "mm")
