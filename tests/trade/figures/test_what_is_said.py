"""Figures say what a number is of: percent of which height, which root, which pitch, with or without the lead angle."""

from __future__ import annotations

from math import cos, radians

import pytest

from rebuild.trade.figures.gears import FIGURES as GEARS
from rebuild.trade.figures.threads import FIGURES as THREADS
from rebuild.trade.results.figure import Answer


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
