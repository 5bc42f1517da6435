"""Values on their way to a row: kept without one, put there with their time, moved, taken back; all undone exactly."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry, Implausible, NotThere
from rebuild.store.store import Store
from rebuild.words.readings import FeatureKind, Stage
from rebuild.words.surveys import SurveyMethod
from rebuild.work.landings.acts import keep_unplaced, move, place_unplaced, put, take_back, throw_away
from rebuild.work.landings.rows import unplaced
from rebuild.work.landings.stored import How
from rebuild.work.readings.acts_features import add_feature, add_instrument
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.surveys.acts import add_survey
from rebuild.work.surveys.rows import survey_data
from tests.conftest import Shop
from tests.support import readings_of


def near(shop: Shop, stage: Stage = Stage.AS_FOUND) -> Landing:
    return Landing(Surface.GRID, (shop.journal, shop.near), stage.value, words="near")


def far(shop: Shop) -> Landing:
    return Landing(Surface.GRID, (shop.journal, shop.far), Stage.AS_FOUND.value, words="far")


def typed(store: Store, feature: int, station: int) -> list[str]:
    with store.read() as connection:
        return [row[0].typed for row in readings_of(connection, (feature, station))]


def waiting(store: Store) -> list[str]:
    with store.read() as connection:
        return [one.typed for one in unplaced(connection)]


def test_a_value_without_a_row_is_kept_with_its_time_and_put_on_one_later(shop: Shop) -> None:
    store, sent = shop.store, dt.datetime(2026, 3, 14, 9, 26, 53)
    key = keep_unplaced(store, " 59.985 ", "fits", How(shop.micrometer, "18 C", taken_at=sent))
    with store.read() as connection:
        (row,) = unplaced(connection)
    assert (row.typed, row.sent_at, row.seen_on) == ("59.985", sent, "fits")
    stored = place_unplaced(store, key, near(shop))
    assert waiting(store) == []
    with store.read() as connection:
        (reading,) = connection.exec_driver_sql(
            "SELECT taken_at, instrument_id, temperature_c, typed FROM reading"
        ).all()
    assert tuple(reading) == ("2026-03-14T09:26:53", shop.micrometer, 18.0, "59.985")
    assert stored.replaced == ""
    store.undo()
    assert (waiting(store), typed(store, shop.journal, shop.near)) == (["59.985"], [])
    store.redo()
    assert (waiting(store), typed(store, shop.journal, shop.near)) == ([], ["59.985"])


def test_a_value_that_cannot_be_put_waits_on(shop: Shop) -> None:
    key = keep_unplaced(shop.store, "599.85", "fits")
    with pytest.raises(Implausible, match="ten times"):
        place_unplaced(shop.store, key, near(shop))
    assert waiting(shop.store) == ["599.85"]
    assert typed(shop.store, shop.journal, shop.near) == []
    place_unplaced(shop.store, key, near(shop), confirmed=True)
    assert waiting(shop.store) == []
    with pytest.raises(NotThere):
        place_unplaced(shop.store, key, far(shop))


def test_an_empty_value_is_refused_and_one_thrown_away_comes_back(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="is empty"):
        keep_unplaced(shop.store, "  ", "fits")
    assert waiting(shop.store) == []
    throw_away(shop.store, keep_unplaced(shop.store, "1.5", "fits"))
    assert waiting(shop.store) == []
    shop.store.undo()
    assert waiting(shop.store) == ["1.5"]


def test_a_value_moves_with_its_time_and_its_old_row_says_what_it_said_before(shop: Shop) -> None:
    put(shop.store, "59.981", near(shop))
    second = put(shop.store, "59.985", near(shop), How(shop.micrometer, note="burr"))
    assert second.replaced == "59.981"
    moved = move(shop.store, second, far(shop))
    assert typed(shop.store, shop.journal, shop.near) == ["59.981"]
    assert typed(shop.store, shop.journal, shop.far) == ["59.985"]
    with shop.store.read() as connection:
        kept = connection.exec_driver_sql(
            f"SELECT instrument_id, note FROM reading WHERE id = {moved.id}"
        ).one()
    assert tuple(kept) == (shop.micrometer, "burr")
    with pytest.raises(BadEntry, match="lies on this row already"):
        move(shop.store, moved, far(shop))
    assert typed(shop.store, shop.journal, shop.far) == ["59.985"]


def test_a_value_moved_to_a_row_in_another_unit_stays_the_length_it_was(shop: Shop) -> None:
    stored = put(shop.store, ".0035", Landing(Surface.GRID, (shop.lost_motion, 0), "as found"))
    move(shop.store, stored, near(shop))
    with shop.store.read() as connection:
        row = readings_of(connection, (shop.journal, shop.near))[0][0]
    assert row.typed == ".0035 in"
    assert row.value_mm == pytest.approx(0.0889, abs=1e-12), "1 in = 25.4 mm exactly"


def test_a_value_taken_back_after_others_leaves_them(shop: Shop) -> None:
    first = put(shop.store, "59.985", near(shop))
    put(shop.store, "59.981", far(shop))
    take_back(shop.store, first)
    assert typed(shop.store, shop.journal, shop.near) == []
    assert typed(shop.store, shop.journal, shop.far) == ["59.981"]
    with pytest.raises(NotThere):
        take_back(shop.store, first)
    shop.store.undo()
    assert typed(shop.store, shop.journal, shop.near) == ["59.985"]


def test_a_survey_place_gets_back_what_stood_there_and_never_a_gap(shop: Shop) -> None:
    survey = add_survey(shop.store, shop.machine, "Bed", SurveyMethod.LEVEL, lines=["front"])

    def run() -> list[str]:
        with shop.store.read() as connection:
            return [text for text, _ in survey_data(connection, survey).lines[0].runs.get(1, ())]

    with shop.store.read() as connection:
        line = survey_data(connection, survey).lines[0].id
    places = [Landing(Surface.SURVEY, (line, 1, at)) for at in range(3)]
    put(shop.store, "0.01", places[0])
    again = put(shop.store, "0.02", places[0])
    last = put(shop.store, "0.03", places[1])
    assert again.replaced == "0.01"
    take_back(shop.store, again)
    assert run() == ["0.01", "0.03"]
    first = put(shop.store, "0.05", places[0])
    with pytest.raises(BadEntry, match="is empty"):
        put(shop.store, "0.09", Landing(Surface.SURVEY, (line, 1, 5)))
    move(shop.store, last, places[0])
    assert run() == ["0.03"]
    assert first.replaced == "0.01"


# Instruments


@pytest.fixture
def one_to_two(shop: Shop) -> int:
    return add_instrument(
        shop.store, "1-2 in micrometer", {"kind": "outside micrometer", "unit": "in", "resolution": "0.0001"}
    )


def test_a_value_outside_the_range_of_its_micrometer_is_asked_about(shop: Shop, one_to_two: int) -> None:
    shaft = add_feature(shop.store, shop.cap, "spigot", unit="in")
    place, how = Landing(Surface.GRID, (shaft, 0), "as found"), How(one_to_two)
    with pytest.raises(
        Implausible, match=r"“0\.743” lies outside the range of 1-2 in micrometer, 1\.0000 in to 2"
    ):
        put(shop.store, "0.743", place, how)
    assert typed(shop.store, shaft, 0) == []
    put(shop.store, "0.743", place, how, confirmed=True)
    assert typed(shop.store, shaft, 0) == ["0.743"]


@pytest.mark.parametrize(
    ("value", "asked"), [("0.989", True), ("0.991", False), ("2.009", False), ("2.011", True)]
)
def test_a_thimble_runs_a_hundredth_of_its_range_over(
    shop: Shop, one_to_two: int, value: str, asked: bool
) -> None:
    shaft = add_feature(shop.store, shop.cap, "spigot", unit="in")
    place = Landing(Surface.GRID, (shaft, 0), "as found")
    if asked:
        with pytest.raises(Implausible, match="outside the range"):
            put(shop.store, value, place, How(one_to_two))
    else:
        put(shop.store, value, place, How(one_to_two))
    assert bool(typed(shop.store, shaft, 0)) is not asked


def test_an_outside_micrometer_in_a_bore_is_asked_about(shop: Shop, one_to_two: int) -> None:
    bore = add_feature(shop.store, shop.cap, "bore", unit="in")
    with pytest.raises(Implausible, match="which measures outside; this is a bore"):
        put(shop.store, "1.5", Landing(Surface.GRID, (bore, 0), "as found"), How(one_to_two))
    assert typed(shop.store, bore, 0) == []


def test_what_an_instrument_measures_is_in_known_words_and_its_range_runs_forward(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="is not something an instrument measures"):
        add_instrument(shop.store, "Gauge", {"measures": "weight"})
    with pytest.raises(BadEntry, match="is not below 1, the end of the range"):
        add_instrument(shop.store, "Gauge", {"least": "2", "most": "1"})
    with shop.store.read() as connection:
        names = connection.exec_driver_sql("SELECT name FROM instrument").scalars().all()
    assert names == ["Micrometer 50-75"]


# Kinds


def test_a_bore_is_told_by_its_name_and_a_class_of_holes_is_no_outside_diameter(shop: Shop) -> None:
    def kinds() -> list[str]:
        with shop.store.read() as connection:
            rows = connection.exec_driver_sql("SELECT kind FROM feature ORDER BY id").scalars().all()
        return [str(kind) for kind in rows][2:]

    add_feature(shop.store, shop.cap, "Bore", spec="25 H7")
    assert kinds() == ["bore"]
    with pytest.raises(Implausible, match="H7 is a class of holes, but this is an outside diameter"):
        add_feature(shop.store, shop.cap, "seat", FeatureKind.OUTSIDE_DIAMETER, spec="25 H7")
    with pytest.raises(Implausible, match="k6 is a class of shafts, but this is a bore"):
        add_feature(shop.store, shop.cap, "seat", FeatureKind.BORE, spec="25 k6")
    assert kinds() == ["bore"]
    add_feature(shop.store, shop.cap, "seat", FeatureKind.OUTSIDE_DIAMETER, spec="25 H7", confirmed=True)
    assert kinds() == ["bore", "outside diameter"]


def test_a_fraction_is_asked_about_when_a_micrometer_is_named(shop: Shop) -> None:
    tool = add_instrument(shop.store, "2-3 in micrometer", {"kind": "outside micrometer", "unit": "in"})
    with pytest.raises(Implausible, match="is a fraction, and 2-3 in micrometer reads decimals"):
        put(shop.store, "2-3/8 in", near(shop), How(tool))
    rule = add_instrument(shop.store, "Steel rule", {"kind": "rule", "unit": "in"})
    put(shop.store, "2-3/8 in", near(shop), How(rule))
    put(shop.store, "2-3/8 in", far(shop), How(tool), confirmed=True)
