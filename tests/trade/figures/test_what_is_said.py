"""Figures say what a number is of: percent of which height, which root, which pitch, with or without the lead angle."""

from __future__ import annotations

from math import cos, radians

import pytest

from rebuild.trade.figures.gears import FIGURES as GEARS
from rebuild.trade.figures.joints import FIGURES as JOINTS
from rebuild.trade.figures.threads import FIGURES as THREADS
from rebuild.trade.results.figured import Answer


def answers(topic: str, **entries: str) -> dict[str, Answer]:
    figure = next(one for one in (*THREADS, *GEARS) if one.topic == topic)
    return {answer.label: answer for answer in figure.run({**figure.example, **entries}).answers}


@pytest.mark.parametrize(("thread", "height"), [("1/4 BSW", "1.281 P"), ("2 BA", "1.2 P")])
def test_british_drills_are_not_labelled_by_the_60_degree_heights(thread: str, height: str) -> None:
    """BS 84: depth 0.640327 P, twice 1.280654; BS 93: 0.6 P, twice 1.2. Neither is 1.299 P nor 1.0825 P."""
    found = answers("tap-drill", thread=thread)
    notes = " ".join(answer.note for answer in found.values())
    assert f"of {height}, the whole thread" in notes
    assert "1.299" not in notes
    assert "1.0825" not in notes
    assert "% of 1.299P" in answers("tap-drill", thread="1/4-20 UNC")["hole"].note


def test_the_rounded_root_of_a_unified_screw_is_shown() -> None:
    """ASME B1.1: d - 1.19078 P; 1/2-13 UNC-2A: 0.4985 - 0.0916 = 0.4069 in, 0.4152 with a flat root."""
    found = answers("thread", thread="1/2-13 UNC", side="external")
    rounded = found["screw minor diameter, greatest, rounded root"]
    assert isinstance(rounded.value, float)
    assert rounded.value / 25.4 == pytest.approx(0.4069, abs=0.00005)
    assert "UNR" in rounded.note


def test_the_best_wire_says_whether_the_lead_angle_is_in_it() -> None:
    found = answers("over-wires", thread="1-8 ACME")
    assert found["best wire"].note == "with the lead angle"
    plain = found["best wire, lead angle left out"].value
    assert isinstance(plain, float)
    assert plain == pytest.approx(3.175 / (2 * cos(radians(14.5))))  # 0.51645 P, as published
    found = answers("over-wires", thread="1/2-13 UNC")
    assert found["best wire"].note == "without the lead angle"
    assert "best wire, lead angle left out" not in found


def test_the_pitch_of_a_helical_gear_is_said_to_be_the_normal_one() -> None:
    blank = next(one for one in GEARS if any(entry.name == "pitch" for entry in one.inputs))
    pitch = next(entry for entry in blank.inputs if entry.name == "pitch")
    assert "normal pitch" in pitch.help


def test_127_teeth_are_indexed_with_a_plate_there_is() -> None:
    topic = next(one.topic for one in GEARS if "indexing" in answers_of(one))
    found = answers(topic, teeth="127")
    assert "differential" in str(found["indexing"].value)


def answers_of(figure) -> set[str]:  # type: ignore[no-untyped-def]
    return {answer.label for answer in figure.run(figure.example).answers}


def test_a_press_fit_speaks_pounds_to_who_measures_in_inches() -> None:
    """Trap B's published case, 50 mm, 0.04 mm, 40 long, hub 80: 51.1875 MPa, 38.59 kN at 0.12; NIST SP 811 turns them.

    51.1875 / 0.006894757 = 7 424 psi; 38 594 / 4.4482216 = 8 676 lbf.
    """
    figure = next(one for one in JOINTS if one.topic == "press-fit")
    sizes = {
        "diameter": "50 mm",
        "interference": "0.04 mm",
        "length": "40 mm",
        "hub-outer": "80 mm",
        "friction": "0.12",
    }
    typed = {
        **sizes,
        "hub": "1045",
        "shaft": "1045",
        "hub-E": "210",
        "hub-nu": "0.3",
        "shaft-E": "210",
        "shaft-nu": "0.3",
    }
    metric = {one.label: one for one in figure.run(typed, unit="mm").answers}
    inch = {one.label: one for one in figure.run(typed, unit="in").answers}
    assert (metric["pressure"].unit, metric["press force"].unit) == ("MPa", "kN")
    assert metric["pressure"].value == pytest.approx(51.1875)
    assert (inch["pressure"].unit, inch["press force"].unit, inch["torque it holds"].unit) == (
        "psi",
        "lbf",
        "lbf·ft",
    )
    assert inch["pressure"].value == pytest.approx(7424, abs=0.6)
    assert inch["press force"].value == pytest.approx(8676, abs=0.6)
    assert inch["pressure"].note == "51.19 MPa"
    assert inch["press force"].note.startswith("38.59 kN; ")
