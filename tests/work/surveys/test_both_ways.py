"""Both ways of a bed together, twist, verdicts and questions: recomputed with numpy, and said as they are."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

import numpy as np
import pytest

from rebuild.trade.geometry.straightness import Reference, Shape
from rebuild.trade.geometry.ways import Guide, Way
from rebuild.trade.limits.verdict import Rule, Verdict
from rebuild.words.surveys import SurveyMethod
from rebuild.work.readings.acts_features import add_instrument
from rebuild.work.surveys.acts import add_survey, enter_run
from rebuild.work.surveys.data import SurveyResult
from rebuild.work.surveys.rows import survey_data
from rebuild.work.surveys.stations import stations_of
from rebuild.work.surveys.worked import work_out

if TYPE_CHECKING:
    from tests.conftest import Shop

FRONT = "-0.290 0.040 0.350 0.295 0.160 0.080"
REAR = "-0.110 0.000 0.150 0.155 0.090 0.040"


def level(shop: Shop) -> str:
    """A precision level of the shop, 0.01 mm/m either way; its id."""
    made = add_instrument(
        shop.store,
        "Level 0.02",
        {"kind": "precision level", "unit": "mm", "resolution": "0.005", "mpe": "0.01"},
    )
    return str(made)


def survey(shop: Shop, lines: dict[str, tuple[str, ...]], method: SurveyMethod, **typed: str) -> SurveyResult:
    key = add_survey(
        shop.store,
        shop.machine,
        "Bed",
        method,
        lines=list(lines),
        typed={"unit": "mm/m", "step": "125", **typed},
    )
    with shop.store.read() as connection:
        ids = {line.name: line.id for line in survey_data(connection, key).lines}
    for name, runs in lines.items():
        for run, texts in enumerate(runs, start=1):
            enter_run(shop.store, ids[name], texts.split(), run)
    with shop.store.read() as connection:
        return work_out(survey_data(connection, key), Reference.ENDS)


def test_both_ways_recomputed_with_numpy(shop: Shop) -> None:
    lathe = {"height": "165", "spacing": "280", "work": "40"}
    found = survey(shop, {"front V": (FRONT,), "rear flat": (REAR,)}, SurveyMethod.LEVEL, **lathe)
    x = np.arange(7) * 125.0

    def off(text: str) -> np.ndarray:
        h = np.concatenate(([0.0], np.cumsum([float(one) for one in text.split()]))) * 0.125
        made: np.ndarray = h - h[-1] * x / x[-1]
        return made

    front, rear = off(FRONT), off(REAR)
    first_order = 2 * 165 / 280 * (rear - front)
    assert found.both is not None
    assert found.both.guide is Guide.FRONT
    assert found.both.effect_mm == pytest.approx(first_order, abs=6e-4), "second order: 2 w²/d and less"
    assert max(found.both.effect_mm) == pytest.approx(found.both.worst.diameter_error_mm)
    columns = {one.name: one.values for one in stations_of(found).columns}
    assert columns["front V, to remove"] == pytest.approx(front - front.min())
    assert columns["rear flat, to remove"] == pytest.approx(rear - rear.min())
    assert columns["both ways, on the diameter"] == pytest.approx(first_order, abs=6e-4)
    line_front, line_rear = found.lines
    assert (line_front.way, line_rear.way) == (Way.FRONT_V, Way.REAR_FLAT)
    assert line_front.drop is not None
    assert line_rear.drop is not None
    assert line_front.drop.diameter_error_mm == pytest.approx(2 * 165 / 280 * np.ptp(front), rel=0.02)
    assert line_rear.drop.diameter_error_mm == pytest.approx(-2 * 165 / 280 * np.ptp(rear), rel=0.02)


def test_one_way_alone_or_no_lathe_says_nothing_of_both(shop: Shop) -> None:
    assert survey(shop, {"front V": (FRONT,), "rear flat": (REAR,)}, SurveyMethod.LEVEL).both is None
    lathe = {"height": "165", "spacing": "280"}
    assert survey(shop, {"front V": (FRONT,)}, SurveyMethod.LEVEL, **lathe).both is None
    short = {"front V": (FRONT,), "rear flat": ("0.01 0.02",)}
    assert survey(shop, short, SurveyMethod.LEVEL, **lathe).both is None


def test_a_guide_gone_sideways_counts_twice(shop: Shop) -> None:
    flat = "0 0 0 0"
    lines = {"front V": (flat,), "rear flat": (flat,), "front V, sideways": ("0.04 0.04 -0.04 -0.04",)}
    found = survey(shop, lines, SurveyMethod.LEVEL, height="165", spacing="280")
    assert found.both is not None
    # By hand: 0.04 mm/m over 125 mm twice is 0.010 mm out in the middle, so 0.020 on the diameter.
    assert found.both.effect_mm == pytest.approx((0.0, 0.010, 0.020, 0.010, 0.0))


def test_twist_has_its_limit_its_doubt_and_its_effect(shop: Shop) -> None:
    typed = {"height": "165", "allowed": "0.04 mm", "instrument_id": level(shop)}
    found = survey(shop, {"across": ("0.080 0.020 0.000",)}, SurveyMethod.ACROSS, **typed)
    (twist,) = found.twists
    # By hand: u = √2 · √((0.005/√12)² + (0.01/√3)²) = 0.008416 mm/m, k = 1.96; 2 · 165 · 0.08/1000 = 0.0264.
    assert twist.span_mm_per_m == pytest.approx(0.08)
    assert twist.U_mm_per_m == pytest.approx(1.96 * math.sqrt(2 * (0.005**2 / 12 + 0.01**2 / 3)), rel=1e-3)
    assert twist.effect_mm == pytest.approx((0.0, -0.0198, -0.0264))
    assert twist.judgement is not None
    assert twist.judgement.verdict is Verdict.DOES_NOT
    near = survey(shop, {"across": ("0.040 0.010 0.000",)}, SurveyMethod.ACROSS, **typed)
    assert near.lines[0].verdict is Verdict.UNDECIDED
    good = survey(shop, {"across": ("0.010 0.005 0.000",)}, SurveyMethod.ACROSS, **typed)
    assert good.lines[0].verdict is Verdict.CONFORMS
    unnamed = survey(shop, {"across": ("0.010 0.005 0.000",)}, SurveyMethod.ACROSS, allowed="0.04 mm")
    assert unnamed.lines[0].verdict is Verdict.UNDECIDED


def test_conforms_needs_a_named_instrument_and_the_shape_allowed(shop: Shop) -> None:
    runs = ("0.04 0.02 -0.02 -0.04", "0.04 0.02 -0.02 -0.04")
    wide = {"allowed": "0.2 mm", "sense": "convex only"}
    named = {**wide, "instrument_id": level(shop)}
    assert survey(shop, {"front V": runs}, SurveyMethod.LEVEL, **named).lines[0].verdict is Verdict.CONFORMS
    unnamed = survey(shop, {"front V": runs}, SurveyMethod.LEVEL, **wide)
    assert unnamed.lines[0].verdict is Verdict.UNDECIDED
    simple = work_out(unnamed.data, Reference.ENDS, Rule.SIMPLE).lines[0]
    assert simple.verdict is Verdict.UNDECIDED
    assert simple.judgement is not None
    assert "no instrument is named" in simple.judgement.sentence


@pytest.mark.parametrize(
    ("texts", "verdict", "words"),
    [
        ("0.20 -0.40 0.40 -0.20", Verdict.DOES_NOT, "wavy, to be convex"),
        ("-0.20 -0.10 0.10 0.20", Verdict.DOES_NOT, "concave, to be convex"),
        ("0.04 -0.044 0.024 -0.02", Verdict.UNDECIDED, "wavy, undecided"),
    ],
)
def test_a_shape_not_allowed_is_never_beside_conforms(
    shop: Shop, texts: str, verdict: Verdict, words: str
) -> None:
    typed = {"allowed": "0.2 mm", "sense": "convex only", "instrument_id": level(shop)}
    line = survey(shop, {"front V": (texts,)}, SurveyMethod.LEVEL, **typed).lines[0]
    assert line.found is not None
    assert line.found.shape in (Shape.WAVY, Shape.CONCAVE)
    assert (line.verdict, line.shape_words) == (verdict, words)
    assert line.judgement is not None
    assert "it is to be convex" in line.judgement.sentence


@pytest.mark.parametrize(("allowed", "unit", "other"), [("0.001 in", "in", "mm"), ("0.025 mm", "mm", "in")])
def test_a_verdict_is_told_in_the_unit_its_limit_was_typed_in(
    shop: Shop, allowed: str, unit: str, other: str
) -> None:
    """The owner of an inch machine was told "0.0796 mm: does not conform"."""
    typed = {"allowed": allowed, "sense": "convex only", "instrument_id": level(shop)}
    line = survey(shop, {"front V": ("-0.20 -0.10 0.10 0.20",)}, SurveyMethod.LEVEL, **typed).lines[0]
    assert line.judgement is not None
    assert f" {unit}:" in line.judgement.sentence
    assert not re.search(rf"\d {other}\b", line.judgement.sentence)


def test_a_step_that_breaks_the_single_run_is_questioned_and_used(shop: Shop) -> None:
    # A worn run curves by itself, so its own middle says nothing: the fourth step was read 0.1 too low.
    line = survey(shop, {"front V": ("-0.29 -0.17 -0.06 -0.06 0.13 0.21 0.28",)}, SurveyMethod.LEVEL).lines[0]
    assert "Run 1, reading 4 (-0.06) breaks the run's own curve: about 0.035 would lie on it." in line.hint
    assert line.heights is not None
    assert line.heights.height_mm[4] - line.heights.height_mm[3] == pytest.approx(-0.06 * 0.125)
    assert not survey(shop, {"front V": (FRONT,)}, SurveyMethod.LEVEL).lines[0].hint


def test_the_value_of_a_division_is_typed_with_its_unit(shop: Shop) -> None:
    typed = {"unit": "divisions", "division_um_per_m": "0.02 mm/m"}
    found = survey(shop, {"front V": ("1 2 3",)}, SurveyMethod.LEVEL, **typed)
    assert found.data.division_um_per_m == 20.0
    assert found.lines[0].heights is not None
    # By hand: 1, 2, 3 divisions of 20 µm/m over 125 mm: 2.5, 7.5, 15 µm.
    assert found.lines[0].heights.height_mm == pytest.approx((0.0, 0.0025, 0.0075, 0.015))


def test_leadscrew_and_dial_are_judged_over_their_length(shop: Shop) -> None:
    typed = {"unit": "mm", "step": "100", "allowed": "0.03 mm"}
    texts = ("0 0.004 0.009 0.020 0.024 0.026 0.027",)
    found = survey(shop, {"leadscrew": texts}, SurveyMethod.LEADSCREW, **typed).lines[0]
    assert found.lead is not None
    assert found.lead.worst_mm == pytest.approx(0.020), "by hand: 0 to 300, and 100 to 400"
    assert found.verdict is Verdict.UNDECIDED, "no instrument named"
    dial = survey(shop, {"dial": ("0 0.004 0 -0.004 0",)}, SurveyMethod.DIAL, unit="mm", step="0.5").lines[0]
    assert dial.dial is not None
    assert dial.dial.wave_mm == pytest.approx(0.004)
    assert dial.verdict is Verdict.NO_SPEC
