"""Readings: as typed, with unit, millimetres and repeats; the implausible held, nothing half stored."""

from __future__ import annotations

import datetime as dt
from statistics import stdev
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import text

from rebuild.errors import Ambiguous, BadEntry, Implausible, NotThere
from rebuild.words.readings import Stage
from rebuild.work.editing import acts as edit
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.readings.acts import Entry, Pasted
from rebuild.work.records import acts_settings as settings

if TYPE_CHECKING:
    from tests.conftest import Shop


def readings(shop: Shop) -> list[Any]:
    with shop.store.read() as connection:
        return list(connection.execute(text("SELECT * FROM reading ORDER BY id")))


def test_a_reading_is_stored_as_typed_with_unit_and_mm(shop: Shop) -> None:
    entry = Entry(
        shop.journal,
        shop.near,
        Stage.CLEANED,
        shop.micrometer,
        "68 F",
        dt.datetime(2026, 3, 14, 19, 30),
        "me",
        "wiped",
    )
    taken = measure.record_reading(shop.store, " 2.3612 in ", entry)
    (row,) = readings(shop)
    assert (row.typed, row.unit, row.value_mm, row.repeats, row.spread_mm) == (
        "2.3612 in",
        "in",
        2.3612 * 25.4,
        1,
        None,
    )
    assert (row.stage, row.temperature_text, row.temperature_c) == ("cleaned", "68 F", 20.0)
    assert (row.taken_at, row.taken_by, row.note) == ("2026-03-14T19:30:00", "me", "wiped")
    assert (taken.typed, taken.unit, taken.value_mm, taken.repeats) == ("2.3612 in", "in", row.value_mm, 1)


def test_repeats_are_one_reading_with_mean_and_spread(shop: Shop) -> None:
    taken = measure.record_reading(shop.store, "59.98; 59.97; 59.99", Entry(shop.journal))
    (row,) = readings(shop)
    assert taken.value_mm == row.value_mm == pytest.approx(59.98)
    assert row.repeats == 3
    assert row.spread_mm == pytest.approx(stdev([59.98, 59.97, 59.99]))
    assert (
        shop.store.undo_label()
        == "reading 59.98 mm; 59.97 mm; 59.99 mm on HS-01 spindle, front journal, as found"
    )


@pytest.mark.parametrize(
    ("typed", "error", "said"),
    [
        ("", BadEntry, "HS-01 spindle, front journal, near: is empty."),
        ("sixty", BadEntry, "HS-01 spindle, front journal, near: “sixty” is not a size. Type it as 12.7 mm"),
        ("60 kg", BadEntry, "“60 kg” has a unit “kg” that is not a length. Use mm"),
        ("59,980", Ambiguous, "“59,980” has a comma that may mark decimals or thousands. Type 59.980 mm"),
        (
            "59.98; 2.3612 in",
            BadEntry,
            "“59.98; 2.3612 in” mixes units among its repeats. Type every repeat in",
        ),
        ("599.8", Implausible, "“599.8” is far from the nominal 60.000 mm (ten times: a decimal place?)."),
        ("2.3612", Implausible, "(1/25.4: inches typed for millimetres?)"),
        ("-59.98", Implausible, "(of the other sign)"),
        ("59.98 in", Implausible, "(25.4 times: millimetres typed for inches?)"),
    ],
)
def test_a_reading_refused_or_held(shop: Shop, typed: str, error: type[Exception], said: str) -> None:
    with pytest.raises(error) as refusal:
        measure.record_reading(shop.store, typed, Entry(shop.journal, shop.near))
    assert said in str(refusal.value)
    assert readings(shop) == []


def test_one_keypress_stores_what_was_held(shop: Shop) -> None:
    entry = Entry(shop.journal, shop.near)
    measure.record_reading(shop.store, "599.8", entry, confirmed=True)
    assert [row.value_mm for row in readings(shop)] == [599.8]


def test_a_bare_number_is_in_the_features_unit(shop: Shop) -> None:
    measure.record_reading(shop.store, ".0035", Entry(shop.lost_motion))
    assert [(row.unit, row.value_mm) for row in readings(shop)] == [("in", 0.0889)]


def test_the_last_reading_is_expected_too(shop: Shop) -> None:
    free = spec.add_feature(shop.store, shop.cap, "height")
    measure.record_reading(shop.store, "42.0", Entry(free))
    with pytest.raises(Implausible, match=r"far from the last reading 42\.000 mm \(ten times"):
        measure.record_reading(shop.store, "420", Entry(free))


def test_a_settled_comma_is_taken(shop: Shop) -> None:
    settings.set_decimal_comma(shop.store, True)
    measure.record_reading(shop.store, "59,980; 59,970", Entry(shop.journal))
    assert [row.value_mm for row in readings(shop)] == [pytest.approx(59.975)]


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        (Entry(99), "The feature or station was removed. Choose another; your entry is still in the line."),
        (Entry(1, 99), "The feature or station was removed."),
        (Entry(1, 1, instrument_id=99), "Reading, instrument: refers to no. 99, which is no longer there."),
    ],
)
def test_a_reading_on_what_is_gone(shop: Shop, entry: Entry, said: str) -> None:
    with pytest.raises(NotThere) as refusal:
        measure.record_reading(shop.store, "59.98", entry)
    assert said in str(refusal.value)
    assert readings(shop) == []


def test_a_station_of_another_feature_is_not_taken(shop: Shop) -> None:
    with pytest.raises(NotThere):
        measure.record_reading(shop.store, ".003", Entry(shop.lost_motion, shop.near))


def test_a_wrong_temperature_is_named(shop: Shop) -> None:
    with pytest.raises(BadEntry, match=r"Temperature: “warm” is not an amount\. Type it as 18 C"):
        measure.record_reading(shop.store, "59.98", Entry(shop.journal, temperature="warm"))
    with pytest.raises(Ambiguous, match="hot for a shop"):
        measure.record_reading(shop.store, "59.98", Entry(shop.journal, temperature="68"))
    assert readings(shop) == []


def test_a_reading_is_struck_with_a_reason_and_stays(shop: Shop) -> None:
    taken = measure.record_reading(shop.store, "59.98", Entry(shop.journal))
    with pytest.raises(BadEntry, match="Reason: is empty"):
        measure.strike_reading(shop.store, taken.reading_id, "  ")
    measure.strike_reading(shop.store, taken.reading_id, "on a burr")
    assert [row.struck for row in readings(shop)] == ["on a burr"]
    assert shop.store.undo_label() == "deleted reading 59.98: on a burr"
    with pytest.raises(NotThere):
        measure.strike_reading(shop.store, 99, "x")


def test_a_struck_reading_is_not_expected_again(shop: Shop) -> None:
    free = spec.add_feature(shop.store, shop.cap, "height")
    taken = measure.record_reading(shop.store, "420", Entry(free))
    measure.strike_reading(shop.store, taken.reading_id, "slip")
    measure.record_reading(shop.store, "42", Entry(free))


def test_a_pasted_block_is_one_act(shop: Shop) -> None:
    near, far, other = Entry(shop.journal, shop.near), Entry(shop.journal, shop.far), Entry(shop.lost_motion)
    cells = [Pasted("59.98", near), Pasted(" ", far), Pasted("59.97; 59.96", far), Pasted(".003", other)]
    assert len(measure.paste_readings(shop.store, cells)) == 3
    assert [(row.typed, row.repeats) for row in readings(shop)] == [
        ("59.98", 1),
        ("59.97; 59.96", 2),
        (".003", 1),
    ]
    assert shop.store.undo() == "paste of 3 readings"
    assert readings(shop) == []


@pytest.mark.parametrize("bad", ["rubbish", "599.8", "59,980"])
def test_one_bad_cell_stops_the_whole_block(shop: Shop, bad: str) -> None:
    cells = [Pasted("59.98", Entry(shop.journal, shop.near)), Pasted(bad, Entry(shop.journal, shop.far))]
    with pytest.raises((BadEntry, Implausible), match=f"front journal, far: “{bad}”"):
        measure.paste_readings(shop.store, cells)
    assert readings(shop) == []


def test_an_empty_block_leaves_no_trace(shop: Shop) -> None:
    label = shop.store.undo_label()
    assert measure.paste_readings(shop.store, [Pasted("", Entry(shop.journal))]) == ()
    assert shop.store.undo_label() == label


def test_editing_the_temperature_keeps_text_and_degrees_together(shop: Shop) -> None:
    taken = measure.record_reading(shop.store, "59.98", Entry(shop.journal, temperature="20"))
    edit.edit(shop.store, "reading", [taken.reading_id], {"temperature_c": "65 F"})
    (row,) = readings(shop)
    assert (row.temperature_text, row.temperature_c) == ("65 F", pytest.approx(18.333333))
    edit.edit(shop.store, "reading", [taken.reading_id], {"temperature_c": ""})
    (row,) = readings(shop)
    assert (row.temperature_text, row.temperature_c) == (None, None)
