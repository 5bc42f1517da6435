"""Readings over wires and between pins: both ways, against arithmetic by hand, and what is refused."""

from __future__ import annotations

from math import cos, pi, radians, sin, tan

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.threads.nesting import nesting_trouble, pitch_room
from rebuild.trade.threads.taken import pitch_diameter_of, read_how, reading_for, split_taken, wire_component

INCH = 25.4


def test_an_acme_screw_over_wires_is_no_pitch_diameter() -> None:
    """Derived by hand: E = M - w (1 + cosec 14.5°) + (P/2) cot 14.5°, then the lead angle's rise taken off.

    w = 0.0645, P = 0.125: 0.0645 x 4.99393 = 0.32211; 0.0625 x 3.86671 = 0.24167; E = 1.0064 - 0.08044 = 0.92596.
    The rise for the lead angle, by the second-order term (w/2) tan² s cos a cot a (Vogel's series, from memory)
    with s = atan(0.125 / (pi 0.926)) = 2.46°: 0.03225 x 0.001845 x 0.9681 x 3.8667 = 0.00022. So E = 0.9257.
    """
    how = read_how("over 0.0645 wires", "in")
    assert how is not None
    found = pitch_diameter_of(1.0064 * INCH, how, "1-8 ACME", "Screw").value / INCH
    assert found == pytest.approx(0.92596 - 0.00022, abs=0.00005)
    assert reading_for(found * INCH, how, "1-8 ACME", "Screw") / INCH == pytest.approx(1.0064, abs=1e-9)


def test_pins_in_a_nut_by_hand() -> None:
    """A pin's centre lies at E/2 + P/(4 tan a) - w/(2 sin a) from the axis; the gap is twice that less a pin.

    The lead angle brings both nearer the axis, by the second-order term (w/2) tan² s cos a cot a (see test_balls.py,
    where the same is found by laying the ball in the groove): 1 x 0.005003 x 0.96593 x 3.73205 = 0.0180 mm.
    """
    how, a, P, w, E = read_how("between 2 mm pins", "mm"), radians(15), 4.0, 2.0, 18.0
    assert how is not None
    centre = E / 2 + P / (4 * tan(a)) - w / (2 * sin(a))
    lead = (P / (pi * E)) ** 2 * cos(a) / tan(a)
    assert lead == pytest.approx(0.0180, abs=0.0001)
    gap = reading_for(E, how, "Tr 20x4", "Nut")
    assert gap == pytest.approx(2 * centre - w - lead, abs=0.0003)
    assert pitch_diameter_of(gap, how, "Tr 20x4", "Nut").value == pytest.approx(E, abs=1e-9)


@settings(max_examples=25)
@given(
    st.sampled_from(["1-8 ACME", "Tr 30x6", "M20x2.5", "1/2-13 UNC", "1/2 BSW", "1-5 2-start ACME"]),
    st.sampled_from(["over", "between"]),
    st.floats(0.95, 1.0),
)
def test_there_and_back(text: str, word: str, share: float) -> None:
    from rebuild.trade.threads.designation import parse_designation
    from rebuild.trade.threads.form import form

    thread = parse_designation(text)
    wire = form(thread.system).best_wire * thread.pitch_mm
    how = read_how(f"{word} {wire:.6f} mm {'wires' if word == 'over' else 'pins'}", "mm")
    assert how is not None
    room = pitch_room(text)
    E = room.low_mm + share * (room.high_mm - room.low_mm)
    assert pitch_diameter_of(reading_for(E, how, text, ""), how, text, "").value == pytest.approx(E, abs=1e-7)


@pytest.mark.parametrize(
    ("typed", "number", "how"),
    [
        ("1.0064 over 0.0645 wires", "1.0064", "over 0.0645 in wires"),
        ("1.0064; 1.0066 in over .0645", "1.0064; 1.0066 in", "over 0.0645 in wires"),
        ("23.9 mm over three 1.65 mm wires", "23.9 mm", "over 1.65 mm wires"),
        ("0.88 between 0.0645 pins", "0.88", "between 0.0645 in pins"),
        ("0.926 by thread mic", "0.926", "by thread micrometer"),
        ("0.926 by gauge", "0.926", "by thread gauge"),
        ("0.926 by its mate", "0.926", "by its mate"),
    ],
)
def test_what_people_write(typed: str, number: str, how: str) -> None:
    value, behind = split_taken(typed)
    found = read_how(behind, "in")
    assert (value, found.words if found else "") == (number, how)
    again = read_how(found.words, "mm") if found else None
    assert again == found or (again and found and again.words == found.words)


@pytest.mark.parametrize("plain", ["24.98", "1-1/4", "24.98; 24.99", "3 thou", '1.25"', "0,02"])
def test_a_plain_number_says_nothing_of_how(plain: str) -> None:
    assert split_taken(plain) == (plain, "")


def test_refusals() -> None:
    with pytest.raises(BadEntry, match="no way a thread is measured"):
        read_how("with a rule", "in")
    with pytest.raises(BadEntry, match="more than zero"):
        read_how("over 0 wires", "in")
    how = read_how("over 0.0645 wires", "in")
    assert how is not None
    with pytest.raises(BadEntry, match="names no thread"):
        pitch_diameter_of(25.0, how, " ", "Screw")
    for word, wire in (("wires", "over 0.2 wires"), ("pins", "between 0.2 pins")):
        big = read_how(wire, "in")
        assert big is not None, word
        with pytest.raises(OutOfRange, match="does not suit this pitch"):
            pitch_diameter_of(25.0, big, "1-8 ACME", "Screw")


def test_the_wire_itself_is_uncertain() -> None:
    """Half of the last digit, 0.00005 in, x (1 + cosec 14.5°) = 4.994, rectangular: /√3 = 0.000144 in."""
    how = read_how("over 0.0645 wires", "in")
    part = wire_component(how, "1-8 ACME") if how else None
    assert part is not None
    assert part.u_mm / INCH == pytest.approx(0.00005 * 4.99393 / 3**0.5, rel=1e-4)


def test_nesting_from_both_sides() -> None:
    def ends(*inches: float) -> tuple[float | None, float | None]:
        low, high = (inch * INCH for inch in inches)
        return low, high

    nothing = (None, None)
    assert nesting_trouble("1-8 ACME", "internal", ends(0.9277, 0.9302), ends(0.875, 0.8813), "in") == ""
    assert "cannot be cut" in nesting_trouble("1-8 ACME", "internal", ends(1.0084, 1.0109), nothing, "in")
    assert nesting_trouble("1-8 ACME", "internal", ends(0.96, 0.96874), nothing, "in") == ""
    assert "cannot be cut" in nesting_trouble("1-8 ACME", "internal", ends(0.96, 0.96876), nothing, "in")
    assert "cannot be cut" in nesting_trouble("1-8 ACME", "external", ends(0.8749, 0.92), nothing, "in")
    bored = ends(0.92, 0.9277)
    assert "the bore may be" in nesting_trouble("1-8 ACME", "internal", ends(0.9277, 0.9302), bored, "in")
    assert "the outside only" in nesting_trouble(
        "1-8 ACME", "external", ends(0.92, 0.93), ends(0.93, 0.95), "in"
    )
    assert nesting_trouble("1-8 ACME", "external", ends(0.92, 0.9299), ends(0.93, 0.95), "in") == ""
