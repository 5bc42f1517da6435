"""Blanks and their weights."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.shop.blanks import gear_blank_kg, next_stock_mm, round_blank, skins, stock_sizes_mm
from rebuild.trade.shop.materials import material

STEEL = material("steel")


@given(st.floats(2.0, 290.0), st.sampled_from(("mm", "in")))
def test_stock_is_the_next_size_up(size: float, system: str) -> None:
    stock = next_stock_mm(size, system)
    assert stock >= size - 1e-6
    assert not any(size <= other < stock - 1e-6 for other in stock_sizes_mm(system))


def test_inch_stock_runs_by_sixteenths_then_eighths() -> None:
    inches = [round(size / 25.4, 6) for size in stock_sizes_mm("in")]
    assert 0.9375 in inches
    assert 1.0625 not in inches
    assert 1.125 in inches
    assert inches == sorted(set(inches))


@given(st.floats(3.0, 250.0), st.floats(2.0, 500.0), st.integers(1, 10), st.sampled_from(skins()))
def test_the_blank_holds_the_part(diameter: float, length: float, pieces: int, skin: str) -> None:
    blank = round_blank(diameter, length, STEEL, pieces=pieces, skin=skin).value
    assert blank.stock_mm >= diameter - 1e-6  # a micron over a stock size is that size
    assert blank.length_mm > pieces * length
    assert blank.weight_kg > blank.finished_kg


def test_chucking_and_parting_follow_the_habit() -> None:
    blank = round_blank(20.0, 30.0, STEEL, pieces=2, skin="as-is", chucking_mm=32.0, parting_mm=3.2).value
    assert blank.stock_mm == 20.0
    assert blank.length_mm == pytest.approx(2 * (30 + 2 + 3.2) + 32)
    assert "common practice" in round_blank(20.0, 30.0, STEEL).working.text()


@given(st.floats(10.0, 300.0), st.floats(1.0, 9.0), st.floats(2.0, 100.0), st.floats(1.1, 3.0))
def test_gear_blanks_weigh_by_their_size(outside: float, bore: float, face: float, factor: float) -> None:
    one = gear_blank_kg(outside, bore, face, STEEL).value
    assert gear_blank_kg(outside * factor, bore * factor, face * factor, STEEL).value == pytest.approx(
        one * factor**3
    )


def test_what_cannot_be_worked_is_refused() -> None:
    with pytest.raises(OutOfRange, match="300 mm, the largest round"):
        next_stock_mm(400.0, "mm")
    with pytest.raises(BadEntry, match="Skins: bright"):
        round_blank(20.0, 30.0, STEEL, skin="furry")
    with pytest.raises(BadEntry, match="Diameter"):
        round_blank(-20.0, 30.0, STEEL)
    with pytest.raises(BadEntry, match="pieces"):
        round_blank(20.0, 30.0, STEEL, pieces=0)
    with pytest.raises(BadEntry, match="neither mm nor in"):
        stock_sizes_mm("ft")
    with pytest.raises(BadEntry, match="bore not smaller"):
        gear_blank_kg(20.0, 30.0, 5.0, STEEL)
