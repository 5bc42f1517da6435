"""The journal as the history a person can read, per record and per part."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from rebuild.work.decisions import acts as decide
from rebuild.work.editing import acts as edit
from rebuild.work.machines.acts import add_place, put
from rebuild.work.making.rows_story import part_story
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records import acts_undo, rows_history
from rebuild.work.records.field import show_day
from rebuild.work.records.wall_clock import now

if TYPE_CHECKING:
    from tests.conftest import Shop


def test_the_newest_acts_come_first_and_undone_ones_stay(shop: Shop) -> None:
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    assert acts_undo.undo(shop.store) == "reading 59.98 mm on HS-01 spindle, front journal, near, as found"
    listed = rows_history.acts(shop.store, most=2)
    assert [(act.label, act.undone) for act in listed] == [
        ("undo reading 59.98 mm on HS-01 spindle, front journal, near, as found", False),
        ("reading 59.98 mm on HS-01 spindle, front journal, near, as found", True),
    ]
    assert acts_undo.redo(shop.store) == "reading 59.98 mm on HS-01 spindle, front journal, near, as found"
    assert acts_undo.redo(shop.store) is None


def test_any_act_is_found_by_the_words_it_is_listed_with(shop: Shop) -> None:
    listed = rows_history.acts(shop.store, most=10_000)
    assert rows_history.how_many(shop.store) == len(listed) > 5
    for act in listed:
        assert act in rows_history.acts(shop.store, most=10_000, find=act.label), act.label
    readings = rows_history.acts(shop.store, find="reading ")
    assert readings == [act for act in listed if "reading" in act.label]
    assert rows_history.acts(shop.store, find="%") == []


def test_a_records_history_tells_field_by_field(shop: Shop) -> None:
    edit.edit(shop.store, "part", [shop.spindle], {"material": "42CrMo4", "quantity": "2"})
    newest = rows_history.history(shop.store, "part", shop.spindle)
    assert [(change.field, change.before, change.after) for change in newest[:2]] == [
        ("Quantity", "1", "2"),
        ("Material", "C45", "42CrMo4"),
    ]
    assert newest[0].label == "edit of material, quantity on HS-01 spindle"
    assert (newest[-1].field, newest[-1].after) == ("", "spindle")


def test_a_parts_history_has_its_features_and_readings(shop: Shop) -> None:
    taken = measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    spec.set_spec(shop.store, [shop.journal], "60 h6")
    measure.strike_reading(shop.store, taken.reading_id, "on a burr")
    decide.concede(shop.store, shop.spindle, "runs cool")
    newest = [change.record for change in rows_history.history_of_part(shop.store, shop.spindle)[:3]]
    assert newest[0] == "concession"
    assert newest[1] == "reading"
    told = {
        (change.record, change.field, change.before, change.after)
        for change in rows_history.history_of_part(shop.store, shop.spindle)
    }
    day = show_day(now())
    assert ("reading", "", "", f"59.98 mm, as found, {day}") in told
    assert ("feature", "Spec", "60 -0.010/-0.029", "60 h6") in told
    assert ("reading", "Entry deleted because", "", "on a burr") in told
    assert ("concession", "", "", "runs cool") in told
    assert not any(
        change.record == "feature" and "lost" in change.after
        for change in rows_history.history_of_part(shop.store, shop.spindle)
    )


def test_a_reading_says_with_what_and_a_place_its_name(shop: Shop) -> None:
    entry = measure.Entry(
        shop.journal, shop.near, instrument_id=shop.micrometer, taken_at=dt.datetime(2026, 10, 23)
    )
    measure.record_reading(shop.store, "59.98 mm", entry)
    tote, bag = add_place(shop.store, "Tote 3"), add_place(shop.store, "Bag 14")
    put(shop.store, [shop.spindle], tote)
    put(shop.store, [shop.spindle], bag)
    found = rows_history.history_of_part(shop.store, shop.spindle)
    told = [(change.field, change.before, change.after) for change in found]
    assert ("", "", "59.98 mm, as found, Micrometer 50-75, 23 Oct 2026") in told
    assert ("Place", "Tote 3", "Bag 14") in told
    with shop.store.read() as connection:
        events = part_story(connection, shop.spindle).events
    assert "measured as found, Micrometer 50-75" in [event.what for event in events]
    edit.remove(shop.store, "place", [tote])
    found = rows_history.history_of_part(shop.store, shop.spindle)
    assert ("Place", "Tote 3", "Bag 14") in [(change.field, change.before, change.after) for change in found]


def test_what_was_removed_stays_in_the_history(shop: Shop) -> None:
    taken = measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    edit.remove(shop.store, "feature", [shop.journal])
    told = [
        (change.record, change.before, change.after)
        for change in rows_history.history_of_part(shop.store, shop.spindle)
    ]
    assert ("reading", f"59.98 mm, as found, {show_day(now())}", "removed") in told
    assert ("feature", "front journal", "removed") in told
    shop.store.undo()
    newest = rows_history.history(shop.store, "reading", taken.reading_id)[0]
    assert newest.label.startswith("undo removal of feature")
    assert newest.after == f"59.98 mm, as found, {show_day(now())}"
