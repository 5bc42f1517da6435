"""Cutting threads: depth and tool agree with the form, tap drills, bores, and every figure runs."""

from __future__ import annotations

from math import cos, radians, tan

import pytest
from hypothesis import given, strategies as st

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.figures.threads import FIGURES
from rebuild.trade.threads import making, tap_drill
from rebuild.trade.threads.lookup import for_designation
from rebuild.trade.threads.tap_drill import CONVENTIONS, hole_for_percent, percent_of_thread

SOME = [
    "7/16-10 ACME",
    "1-5 ACME",
    "3/4-6 STUB ACME",
    "1/2-13 UNC",
    "M10x1.5",
    "Tr 20x4",
    "Tr 40x7",
    "1/2 BSW",
    "2 BA",
]


@given(st.sampled_from(SOME), st.sampled_from(["external", "internal"]))
def test_settings_hang_together(text: str, side: str) -> None:
    found = making.single_point(text, side).value
    assert found.infeed_mm == pytest.approx(found.depth_mm / cos(radians(found.compound_deg)))
    assert found.compound_deg + found.compound_from_axis_deg == 90
    assert found.start_low_mm < found.start_high_mm
    assert 0 < found.depth_mm < found.lead_mm
    assert found.tool_flat_mm >= 0


@pytest.mark.parametrize("text", ["7/16-10 ACME", "1-5 ACME", "3/4-6 STUB ACME"])
def test_acme_screw_tool_cuts_the_pitch_diameter_when_it_reaches_the_root(text: str) -> None:
    """Cut to the greatest root diameter, the groove at basic less allowance is half the pitch wide."""
    found, limits = making.single_point(text).value, for_designation(text).value
    root = found.start_high_mm - 2 * found.depth_mm
    assert root == pytest.approx((limits.minor.high or 0) * 25.4, abs=0.003)
    pitch_top = limits.basic_pitch_diameter_mm - limits.allowance * 25.4
    width = found.tool_flat_mm + (pitch_top - root) * tan(radians(14.5))
    assert width == pytest.approx(limits.pitch_mm / 2, abs=0.001)


def test_v_thread_tool_cuts_the_pitch_diameter() -> None:
    found = making.single_point("M10x1.5").value
    groove_at_pitch = found.tool_flat_mm + 2 * (found.depth_mm - 0.32475953 * 1.5) * tan(radians(30))
    assert groove_at_pitch == pytest.approx(0.75, abs=1e-6)


@pytest.mark.parametrize(
    ("text", "compound"),
    [
        ("1/2-13 UNC", 29.5),
        ("M8", 29.5),
        ("1/2 BSW", 27.0),
        ("2 BA", 23.25),
        ("1-8 ACME", 14.5),
        ("Tr 20x4", 15.0),
    ],
)
def test_compound_by_form(text: str, compound: float) -> None:
    assert making.single_point(text).value.compound_deg == compound


def test_starts_and_hand_are_told() -> None:
    worked = making.single_point("1-5 2-start LH ACME")
    assert (worked.value.starts, worked.value.index_deg, worked.value.left_hand) == (2, 180, True)
    text = worked.working.text()
    assert "180° against the leadscrew" in text
    assert "away from the headstock" in text
    assert worked.working.cautions()


@given(st.floats(2, 60), st.floats(0.03, 0.2), st.floats(5, 110), st.sampled_from(CONVENTIONS))
def test_percent_and_hole_round_trip(d: float, share: float, percent: float, convention: str) -> None:
    hole = hole_for_percent(d, share * d, percent, convention)
    assert percent_of_thread(d, share * d, hole, convention) == pytest.approx(percent)
    assert hole_for_percent(d, share * d, percent - 1, convention) > hole


@pytest.mark.parametrize(
    ("text", "drill"),
    [("M6", "5.0 mm"), ("M8", "6.8 mm"), ("M10", "8.5 mm"), ("1/4-20 UNC", "No. 7"), ("3/8-16 UNC", "5/16 in"),
     ("10-32", "No. 21"), ("1/4-28 UNF", "No. 3")],
)  # fmt: skip
def test_the_usual_drills_come_up(text: str, drill: str) -> None:
    found = tap_drill.tap_drill(text).value
    assert drill in [choice.drill.name for choice in found.choices]
    assert any(choice.within_limits for choice in found.choices)


def test_drills_outside_the_nut_are_said() -> None:
    found = tap_drill.tap_drill("1/4-20 UNC", 50.0).value
    assert not any(choice.within_limits for choice in found.choices)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: tap_drill.tap_drill("1-8 ACME"), "no tap drill"),
        (lambda: tap_drill.tap_drill("M8", 75, "2P"), "1.0825P"),
        (lambda: tap_drill.tap_drill("M8", 300), "120"),
        (lambda: percent_of_thread(6, 1, 7), "between zero"),
        (lambda: making.nut_bore("G 1/4"), "pipe thread"),
    ],
)
def test_refusals(call, words: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(BadEntry, match=words):
        call()


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.topic)
def test_figures_answer_their_example(figure) -> None:  # type: ignore[no-untyped-def]
    found = figure.run(figure.example)
    assert found.answers
    assert found.working.sources()
    for answer in found.answers:
        assert answer.label
    for spec in found.specs:
        if spec.low_mm is not None and spec.high_mm is not None:
            assert spec.low_mm < spec.high_mm


def _run(topic: str, **typed: str):  # type: ignore[no-untyped-def]
    return next(figure for figure in FIGURES if figure.topic == topic).run(typed)


def test_figure_topics() -> None:
    assert [figure.topic for figure in FIGURES] == [
        "thread",
        "acme",
        "trapezoidal",
        "whitworth",
        "ba",
        "identify-thread",
        "over-wires",
        "tap-drill",
        "nut-bore",
        "single-point",
    ]


def test_a_reading_over_wires_is_judged() -> None:
    low = _run("over-wires", thread="1/2-13 UNC-2A", wire="0.045", reading="0.500")
    assert "below" in low.answers[-1].note
    high = _run("over-wires", thread="1/2-13 UNC-2A", wire="0.045", reading="0.530")
    assert "above" in high.answers[-1].note
    wanted = _run("over-wires", thread="1/2-13 UNC-2A", wire="0.045")
    least, greatest = (answer.value for answer in wanted.answers[-2:])
    middle = (float(least) + float(greatest)) / 2 / 25.4
    right = _run("over-wires", thread="1/2-13 UNC-2A", wire="0.045", reading=f"{middle:.5f}")
    assert "within" in right.answers[-1].note


def test_figures_refuse_in_the_users_words() -> None:
    with pytest.raises(BadEntry, match="Threads per inch"):
        _run("whitworth", diameter="1/2", series="other")
    with pytest.raises(Ambiguous):
        _run("identify-thread", diameter="0.495", pitch="12")
    assert _run("identify-thread", diameter="0.02", pitch="0.1 mm").answers[0].value == "none"


def test_same_thread_by_figure_and_by_designation() -> None:
    by_size = _run("acme", diameter="11.1125 mm", tpi="10").answers[2].value
    by_name = _run("thread", thread="7/16-10 ACME", side="external").answers[2].value
    assert by_size == by_name
