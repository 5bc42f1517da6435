"""Coil springs: what must hold of any, and what is refused at the door."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.springs.coil import coil_spring, coils_for_rate, wires


@settings(max_examples=40, deadline=None)
@given(st.floats(0.3, 8), st.floats(3.6, 20), st.floats(4.5, 30), st.floats(0.1, 40))
def test_rates_scale_as_the_rule_says(wire: float, index: float, coils: float, moved: float) -> None:
    outside = wire * (index + 1)
    one = coil_spring("compression", wire, outside, coils, moved).value
    assert one.force_N == pytest.approx(one.rate_N_mm * moved)
    assert one.index == pytest.approx(index)
    # Everything twice as large: twice as stiff.
    twice = coil_spring("compression", 2 * wire, 2 * outside, coils, moved).value
    assert twice.rate_N_mm == pytest.approx(2 * one.rate_N_mm)
    # Two in a row are half as stiff: twice the active coils.
    row = coil_spring("compression", wire, outside, 2 * (coils - 2) + 2, moved).value
    assert row.rate_N_mm == pytest.approx(one.rate_N_mm / 2)
    if 2 <= one.active <= 200:
        assert coils_for_rate(one.rate_N_mm, wire, outside).value == pytest.approx(coils)


def test_wahl_grows_with_a_tight_coil() -> None:
    # Source: Wahl's factor in textbooks: C = 4 gives 1.404, C = 10 gives 1.145.
    for index, want in ((4.0, 1.404), (10.0, 1.145)):
        found = coil_spring("compression", 1.0, index + 1, 10.0, 1.0).value
        plain = 8 * found.force_N * index / 3.141592653589793
        assert found.stress_MPa / plain == pytest.approx(want, abs=5e-4)


@pytest.mark.parametrize(
    ("call", "kind", "sentence"),
    [
        (lambda: coil_spring("torsion", 2.0, 18.0, 10.0, 1.0), BadEntry, "Spring: “torsion” is no kind of spring."),
        (lambda: coil_spring("compression", "2", 18.0, 10.0, 1.0), BadEntry, "Wire [mm]: “2” is not a number."),
        (lambda: coil_spring("compression", 2.0, 18.0, 10.0, 1.0, wire="lead"), BadEntry, "Wire of: “lead” is no wire"),
        (lambda: coil_spring("compression", 2.0, 18.0, 10.0, 1.0, ends="bent"), BadEntry, "Ends: “bent” is no kind"),
        (lambda: coil_spring("compression", 2.0, 18.0, 10.0, -1.0), BadEntry, "by: “-1” is below nought."),
        (lambda: coil_spring("compression", 0.0001, 18.0, 10.0, 1.0), OutOfRange, "Wire: “0.0001” is outside"),
        (lambda: coils_for_rate(1e-3, 5.0, 20.0), OutOfRange, "active coils of this wire."),
    ],
)  # fmt: skip
def test_what_is_refused(call: Callable[[], object], kind: type[Exception], sentence: str) -> None:
    with pytest.raises(kind) as refusal:
        call()
    assert sentence in str(refusal.value)


def test_solid_from_both_sides() -> None:
    at = coil_spring("compression", 2.0, 18.0, 10.0, 40.0, free_mm=60.0).value
    assert at.solid_mm == 20.0
    with pytest.raises(OutOfRange, match="presses it solid"):
        coil_spring("compression", 2.0, 18.0, 10.0, 40.01, free_mm=60.0)
    assert len(wires()) == 5
