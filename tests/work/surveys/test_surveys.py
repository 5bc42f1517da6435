"""Surveys: readings as typed, worked out from the store; gaps, units and closures said, never trimmed."""

from __future__ import annotations

import pytest

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.geometry.flatness import line_words
from rebuild.trade.geometry.straightness import Reference, Shape
from rebuild.trade.limits.verdict import Verdict
from rebuild.words.surveys import SurveyMethod
from rebuild.work.readings.acts_features import add_instrument
from rebuild.work.records.acts_settings import set_decimal_comma
from rebuild.work.surveys.acts import add_line, add_survey, enter_reading, enter_run
from rebuild.work.surveys.data import SurveyData
from rebuild.work.surveys.rows import survey_data
from rebuild.work.surveys.stations import stations_of
from rebuild.work.surveys.worked import work_out
from tests.conftest import Shop


def read(shop: Shop, key: int) -> SurveyData:
    with shop.store.read() as connection:
        return survey_data(connection, key)


def level(shop: Shop, **typed: str) -> tuple[int, int]:
    """A level survey with one line; its ids."""
    key = add_survey(
        shop.store,
        shop.machine,
        "Front V",
        SurveyMethod.LEVEL,
        lines=["front V"],
        typed={"unit": "mm/m", "step": "200 mm", **typed},
    )
    return key, read(shop, key).lines[0].id


def test_level_steps_become_heights_and_a_verdict(shop: Shop) -> None:
    kv = add_instrument(
        shop.store, "Level", {"kind": "precision level", "unit": "mm", "resolution": "0.001", "mpe": "0.002"}
    )
    key, line = level(
        shop, allowed="0.01 mm", sense="convex only", height="115 mm", spacing="160 mm", instrument_id=str(kv)
    )
    enter_run(shop.store, line, ["0.04", "0.02", "-0.02", "-0.04"])
    enter_run(shop.store, line, ["0.04", "0.02", "-0.02", "-0.04"], run=2)
    result = work_out(read(shop, key), Reference.ENDS).lines[0]
    assert result.heights is not None
    assert result.heights.height_mm == pytest.approx((0, 0.008, 0.012, 0.008, 0))
    assert result.found is not None
    assert (result.found.deviation_mm, result.found.shape) == (pytest.approx(0.012), Shape.CONVEX)
    assert result.judgement is not None
    assert result.judgement.verdict is Verdict.DOES_NOT
    assert result.drop is not None
    # 2wH/B: twice the drop times centre height over way spacing (first order; the exact geometry is near it).
    assert result.drop.diameter_error_mm == pytest.approx(2 * 0.012 * 115 / 160, rel=0.02)


def test_one_run_alone_leaves_the_verdict_undecided(shop: Shop) -> None:
    key, line = level(shop, allowed="0.05 mm")
    enter_run(shop.store, line, ["0.01", "0.02", "0.01"])
    found = work_out(read(shop, key), Reference.MINIMUM_ZONE).lines[0]
    assert found.judgement is not None
    assert found.judgement.verdict is Verdict.UNDECIDED


def test_readings_are_typed_one_by_one_and_undone(shop: Shop) -> None:
    key, line = level(shop)
    for place, text in enumerate(["0.01", "0,02", "−0.01"]):
        enter_reading(shop.store, line, place, text)
    assert [text for text, _ in read(shop, key).lines[0].runs[1]] == ["0.01", "0,02", "−0.01"]
    enter_reading(shop.store, line, 1, "0.05")
    shop.store.undo()
    assert read(shop, key).lines[0].runs[1][1] == ("0,02", 0.02)


def test_a_gap_is_refused_with_its_number(shop: Shop) -> None:
    key, line = level(shop)
    with pytest.raises(BadEntry, match="front V, run 1, reading 2: is empty"):
        enter_run(shop.store, line, ["0.01", "", "0.02"])
    with pytest.raises(BadEntry, match="reading 1: is empty"):
        enter_reading(shop.store, line, 2, "0.02")
    assert read(shop, key).lines[0].runs == {}


@pytest.mark.parametrize("text", ["inf", "-inf", "nan", "1e400", "1e999 mm/m"])
def test_nothing_endless_is_stored(shop: Shop, text: str) -> None:
    key, line = level(shop)
    with pytest.raises(BadEntry, match=r"front V, run 1, reading 2: “.*” is not a number"):
        enter_run(shop.store, line, ["0.01", text])
    with pytest.raises(BadEntry, match="is not a number"):
        enter_reading(shop.store, line, 0, text)
    assert read(shop, key).lines[0].runs == {}


def test_a_doubtful_comma_is_asked_about_unless_the_file_says(shop: Shop) -> None:
    key, line = level(shop)
    with pytest.raises(Ambiguous) as question:
        enter_reading(shop.store, line, 0, "1,500")
    assert [retyped for _, retyped in question.value.readings] == ["1.500 mm/m", "1500 mm/m"]
    assert read(shop, key).lines[0].runs == {}
    set_decimal_comma(shop.store, True)
    enter_reading(shop.store, line, 0, "1,500")
    assert read(shop, key).lines[0].runs[1] == (("1,500", 1.5),)


def test_wrong_text_and_mixed_units_name_the_reading(shop: Shop) -> None:
    _, line = level(shop)
    with pytest.raises(BadEntry, match=r"reading 2: “level” is not a number"):
        enter_run(shop.store, line, ["0.01", "level"])
    with pytest.raises(BadEntry, match="is in arcsec; this survey is in mm/m"):
        enter_run(shop.store, line, ["4 arcsec"])


def test_a_closure_beyond_its_limit_names_the_step(shop: Shop) -> None:
    key, line = level(shop, closure="2 µm")
    enter_run(shop.store, line, ["0.01", "0.02", "0.01"])
    enter_run(shop.store, line, ["0.01", "-0.02", "0.01"], run=2)
    assert "differ most at step 2" in work_out(read(shop, key), Reference.ENDS).lines[0].trouble


def test_a_slipped_sign_is_hinted_at_and_still_used(shop: Shop) -> None:
    key, line = level(shop)
    enter_run(shop.store, line, ["0.040", "0.041", "-0.040", "0.039", "0.042", "0.040"])
    found = work_out(read(shop, key), Reference.ENDS).lines[0]
    assert "reading 3 (-0.040) breaks the run's own curve" in found.hint
    assert "other sign it would fit" in found.hint
    assert found.heights is not None
    assert len(found.heights.height_mm) == 7


def test_divisions_need_their_value(shop: Shop) -> None:
    with pytest.raises(BadEntry, match=r"One division \[µm/m\]: is not given"):
        add_survey(
            shop.store, shop.machine, "x", SurveyMethod.LEVEL, typed={"unit": "divisions", "step": "100"}
        )
    with pytest.raises(BadEntry, match="is not a unit of"):
        add_survey(shop.store, shop.machine, "x", SurveyMethod.THICKNESS, typed={"unit": "arcsec"})


def test_thickness_in_inches_by_micrometer(shop: Shop) -> None:
    key = add_survey(
        shop.store,
        shop.machine,
        "Rear flat",
        SurveyMethod.THICKNESS,
        lines=["rear flat"],
        typed={"unit": "in", "step": "3 in"},
    )
    line = read(shop, key).lines[0].id
    enter_run(shop.store, line, ["1.2500", "1.2440", "1.2480", "1.2500"])
    found = work_out(read(shop, key), Reference.ENDS).lines[0].found
    assert found is not None
    assert found.deviation_mm / 25.4 == pytest.approx(0.006)
    assert found.shape is Shape.CONCAVE


def test_across_the_ways_gives_twist(shop: Shop) -> None:
    key = add_survey(
        shop.store, shop.machine, "Twist", SurveyMethod.ACROSS, typed={"unit": "mm/m", "step": "300"}
    )
    enter_run(shop.store, read(shop, key).lines[0].id, ["0.02", "0.03", "0.06"])
    assert work_out(read(shop, key), Reference.ENDS).twist_mm_per_m == pytest.approx(0.04)


def test_a_plate_lacking_a_line_says_which(shop: Shop) -> None:
    key = add_survey(
        shop.store, shop.machine, "Plate", SurveyMethod.PLATE, typed={"unit": "arcsec", "step": "100"}
    )
    data = read(shop, key)
    assert len(data.lines) == 8
    for line in data.lines[:-1]:
        enter_run(shop.store, line.id, ["1", "1"])
    assert "Line N to S: has no readings" in work_out(read(shop, key), Reference.ENDS).trouble
    enter_run(shop.store, data.lines[-1].id, ["1", "1"])
    found = work_out(read(shop, key), Reference.ENDS)
    assert found.plate is not None
    # Numbers the plan has no room for stand in the table of stations, a column a line.
    columns = {one.name: one.values for one in stations_of(found).columns}
    assert len(columns) == len(found.plate.heights_mm) == 8
    for name, heights in found.plate.heights_mm.items():
        told = [value for value in columns[f"{line_words(name)}, to remove"] if value is not None]
        assert tuple(told) == heights
    lowest = min(value for values in columns.values() for value in values if value is not None)
    assert lowest == pytest.approx(0.0, abs=1e-12)


def test_a_line_can_be_added(shop: Shop) -> None:
    key, _ = level(shop)
    add_line(shop.store, key, "rear flat")
    assert [line.name for line in read(shop, key).lines] == ["front V", "rear flat"]
