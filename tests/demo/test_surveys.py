"""The demo's surveys tell the same wear as its way readings; its drawn photos lie beside it, marked."""

from __future__ import annotations

from pathlib import Path

import pytest

from rebuild.store.photo_copies import wanted_photos
from rebuild.store.photos import damaged_photos, photo_folder
from rebuild.store.store import Store
from rebuild.trade.geometry.straightness import Reference
from rebuild.words.photos import PhotoPhase
from rebuild.words.surveys import SurveyMethod
from rebuild.work.machines import rows_tree as tree
from rebuild.work.photos import rows as photos
from rebuild.work.readings import rows_grid as grid
from rebuild.work.records.rows_settings import verdict_rule
from rebuild.work.surveys import rows as survey
from rebuild.work.surveys.data import SurveyResult
from rebuild.work.surveys.worked import work_out


def results(store: Store) -> dict[str, SurveyResult]:
    with store.read() as connection:
        return {
            row.name: work_out(survey.survey_data(connection, row.id), Reference.ENDS)
            for machine in tree.machines(connection)
            for row in survey.surveys(connection, machine.id)
        }


def way_readings(store: Store, machine: int, feature: str) -> list[float]:
    """As found, station by station."""
    with store.read() as connection:
        keys = grid.keys(connection, grid.Asked(machine), verdict_rule(store), {})
        rows = grid.rows(connection, keys, verdict_rule(store), {})
    return [
        row.readings[0].value_mm for row in rows if row.feature == feature and row.readings[0] is not None
    ]


def test_every_survey_works_out_and_closes(demo: Store) -> None:
    found = results(demo)
    assert len(found) == 9
    assert {one.data.method for one in found.values()} == {
        SurveyMethod.LEVEL, SurveyMethod.ACROSS, SurveyMethod.INDICATOR, SurveyMethod.THICKNESS, SurveyMethod.PLATE,
    }  # fmt: skip
    for name, one in found.items():
        assert not one.trouble, name
        assert not [line.trouble for line in one.lines if line.trouble], name


def test_the_bed_is_worn_where_the_way_readings_say(demo: Store) -> None:
    """Lowest between 100 and 300 mm, the front way twice as much as the rear, by about a tenth of a millimetre."""
    found = results(demo)["Bed ways along"]
    front, rear = found.lines
    assert front.found is not None
    assert rear.found is not None
    assert front.heights is not None
    low = min(range(7), key=lambda at: front.found.residual_mm[at])  # type: ignore[union-attr]
    assert 100 <= front.heights.at_mm[low] <= 300
    assert front.closure_um is not None
    assert abs(front.closure_um) < 5
    drops = {
        name: -min(line.found.residual_mm)
        for name, line in (("front V way", front), ("rear flat way", rear))
        if line.found
    }
    for name, drop in drops.items():
        read = way_readings(demo, 2, f"{name}, drop from the tailstock end")
        # The survey's line runs through both ends, the readings hang from the tailstock end.
        assert 0.25 * max(read) < drop < max(read), name
    assert 1.6 < drops["front V way"] / drops["rear flat way"] < 3.0
    assert front.drop is not None
    assert front.drop.diameter_error_mm > 0


def test_levelling_took_no_metal_off_the_bed(demo: Store) -> None:
    found = results(demo)
    before, after = found["Bed ways along"], found["Bed ways along, levelled"]
    assert after.data.before_id == before.data.id
    for old, new in zip(before.lines, after.lines, strict=True):
        assert old.found is not None
        assert new.found is not None
        assert new.found.deviation_mm == pytest.approx(old.found.deviation_mm, abs=0.003)
    twist = found["Bed ways across"].twist_mm_per_m
    again = found["Bed ways across, levelled"].twist_mm_per_m
    assert twist is not None
    assert again is not None
    assert again < twist


def test_scraping_made_the_column_straight(demo: Store) -> None:
    found = results(demo)
    rows = zip(
        found["Ram ways of the column"].lines, found["Ram ways of the column, scraped"].lines, strict=True
    )
    for way, (old, new) in zip(("left", "right"), rows, strict=True):
        assert old.found is not None
        assert new.found is not None
        assert new.found.deviation_mm < 0.5 * old.found.deviation_mm
        assert new.found.deviation_mm < 0.0015 * 25.4
        read = way_readings(demo, 1, f"{way} ram way, drop from the rear end")
        assert [-value for value in read] == pytest.approx([value for _, value in old.line.runs[1]])


def test_the_plate_is_flat_within_its_hollow_and_closes(demo: Store) -> None:
    plate = results(demo)["Bench plate 24 x 18 in"].plate
    assert plate is not None
    assert 0.0001 < plate.flatness_mm / 25.4 < 0.0003
    assert max(abs(value) for value in plate.closure_mm.values()) / 25.4 < 0.0001


def test_photos_are_there_marked_and_one_waits_in_the_inbox(demo_file: Path) -> None:
    store = Store.open(demo_file)
    with store.read() as connection:
        rows = [row for key in (1, 2) for row in photos.photos(connection, key)]
        marks = [photos.marks(connection, row.id) for row in rows]
        inbox = photos.photos(connection, 1, photos.Which.INBOX)
    store.close()
    assert len(rows) == 7
    assert all(marks)
    assert [row.file_name for row in inbox] == ["oil tubes.png"]
    assert {row.phase for row in rows} >= {PhotoPhase.AS_FOUND, PhotoPhase.DURING, PhotoPhase.QUESTION}
    assert all(row.taken_at is not None and row.taken_at.year in (2025, 2026) for row in rows)
    assert damaged_photos(demo_file, list(wanted_photos(demo_file))) == []
    assert [path.name for path in demo_file.parent.iterdir() if path.is_dir()] == [
        photo_folder(demo_file).name
    ]
