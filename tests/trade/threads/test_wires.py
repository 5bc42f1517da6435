"""Three wires both ways: round trips, the lead angle's sense, unit invariance, refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.threads import helicoid, wires
from rebuild.trade.threads.form import FORMS, form
from rebuild.trade.threads.series import System

systems = st.sampled_from(sorted(FORMS, key=str))


@given(systems, st.floats(5, 100), st.floats(0.02, 0.2), st.integers(1, 4), st.floats(0.02, 0.98))
@settings(max_examples=150)
def test_reading_and_back(system: System, E: float, share: float, starts: int, place: float) -> None:
    """Size to reading to size, for any form, wire, starts and lead angle."""
    P = share * E
    sizes = wires.wire_sizes(system, P, E, starts).value
    w = sizes.smallest_mm + place * (sizes.largest_mm - sizes.smallest_mm)
    there = wires.over_wires(system, E, P, w, starts).value
    back = wires.pitch_diameter(system, there.over_wires_mm, P, w, starts, there.corrected).value
    assert back.pitch_diameter_mm == pytest.approx(E, rel=1e-10)


@given(systems, st.floats(5, 100), st.floats(0.02, 0.15))
def test_the_lead_angle_lifts_the_wires_and_more_starts_lift_more(
    system: System, E: float, share: float
) -> None:
    P = share * E
    w = form(system).best_wire * P
    lifts = [wires.over_wires(system, E, P, w, starts).value.lead_correction_mm for starts in (1, 2, 3)]
    assert 0 < lifts[0] < lifts[1] < lifts[2]


@given(systems, st.floats(0.2, 4), st.floats(0.02, 0.15))
def test_unit_invariance(system: System, E_in: float, share: float) -> None:
    P, w = share * E_in, form(system).best_wire * share * E_in
    mm = wires.over_wires(system, E_in * 25.4, P * 25.4, w * 25.4, lead_corrected=True).value.over_wires_mm
    plain = wires.over_wires(system, E_in, P, w, lead_corrected=True).value.over_wires_mm
    assert mm / 25.4 == pytest.approx(plain, rel=1e-12)


@given(systems, st.floats(5, 100), st.floats(0.02, 0.15), st.integers(1, 3))
def test_best_wire_touches_at_the_pitch_diameter(system: System, E: float, share: float, starts: int) -> None:
    P = share * E
    screw = helicoid.helicoid(E, P, starts, form(system).half_rad)
    best = helicoid.best_wire(screw, form(system).best_wire * P)
    assert helicoid.contact_diameter(screw, best) == pytest.approx(E, rel=1e-9)


@given(systems, st.floats(20, 100))
def test_a_vanishing_lead_angle_leaves_the_simple_rule(system: System, E: float) -> None:
    P = 0.002 * E
    w = form(system).best_wire * P
    found = wires.over_wires(system, E, P, w, lead_corrected=True).value
    assert found.lead_correction_mm == pytest.approx(0, abs=1e-6 * E)


def test_wire_flush_and_wire_on_the_corner() -> None:
    """The smallest wire's top is level with the crest, the largest touches at the crest's corner."""
    P, major = 2.54, 11.1125
    E = major - P / 2
    sizes = wires.wire_sizes(System.ACME, P).value
    flush = wires.over_wires(System.ACME, E, P, sizes.smallest_mm, lead_corrected=False).value
    assert flush.over_wires_mm == pytest.approx(major)
    a = math.radians(14.5)
    centre = (
        wires.over_wires(System.ACME, E, P, sizes.largest_mm, lead_corrected=False).value.over_wires_mm
        - sizes.largest_mm
    ) / 2
    contact = centre - sizes.largest_mm / 2 * math.sin(a)
    assert 2 * contact == pytest.approx(major, abs=1e-6)


def test_where_the_lead_angle_is_taken_in() -> None:
    fine = wires.over_wires(System.UNIFIED, 24.0, 1.27, 0.733).value
    assert not fine.corrected
    assert wires.over_wires(System.ACME, 24.0, 1.27, 0.656).value.corrected
    assert wires.over_wires(System.UNIFIED, 24.0, 1.27, 0.733, starts=2).value.corrected
    steep = wires.over_wires(System.UNIFIED, 6.0, 2.0, 1.155).value
    assert steep.corrected
    text = wires.over_wires(System.ACME, 24.0, 5.08, 2.62).working.text()
    assert "lifts the wires" in text


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: wires.over_wires(System.ACME, 20, 2.54, 0.5), OutOfRange, "Best wire"),
        (lambda: wires.over_wires(System.ACME, 20, 2.54, 2.5), OutOfRange, "Best wire"),
        (lambda: wires.over_wires(System.ACME, -1, 2.54, 1.3), BadEntry, "more than zero"),
        (lambda: wires.over_wires(System.ACME, 20, 0, 1.3), BadEntry, "Pitch"),
        (lambda: wires.over_wires(System.ACME, 20, 2.54, 1.3, starts=0), BadEntry, "Starts"),
        (lambda: wires.pitch_diameter(System.ACME, 1.0, 2.54, 1.3), BadEntry, "too small"),
        (lambda: wires.wire_sizes(System.PIPE_TAPER, 1.4), BadEntry, "tapered"),
    ],
)
def test_refusals(call, error: type[Exception], words: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(error, match=words):
        call()
