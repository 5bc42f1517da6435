"""Editing any field from typed text: read the same everywhere, refused in a sentence, removed and brought back."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, strategies as st
from PIL import Image
from sqlalchemy import inspect, text

from rebuild.errors import BadEntry, Clash, NotThere, RebuildError
from rebuild.model.tables.every import whole
from rebuild.words.surveys import SurveyMethod
from rebuild.work.charts.acts import lay_out
from rebuild.work.controls.acts import add_control
from rebuild.work.editing import acts as edit
from rebuild.work.lubrication.acts import add_point
from rebuild.work.machines import acts as identify
from rebuild.work.photos.acts_take import take_in
from rebuild.work.readings import acts as measure
from rebuild.work.records.field import Field, FieldKind
from rebuild.work.records.fields import FIELDS, RECORDS, called, field_of
from rebuild.work.records.rows import CHOOSERS, card, choices
from rebuild.work.records.rows_kept import kept_entries
from rebuild.work.surveys.acts import add_survey

if TYPE_CHECKING:
    from tests.conftest import Shop


def row(shop: Shop, table: str, key: int) -> Any:
    with shop.store.read() as connection:
        return connection.execute(text(f"SELECT * FROM {table} WHERE id = {key}")).one()


def test_several_records_are_edited_in_one_act(shop: Shop) -> None:
    edit.edit(shop.store, "part", [shop.spindle, shop.cap, shop.cap], {"material": "C45", "stamped": "B 7"})
    assert row(shop, "part", shop.cap).material == "C45"
    assert shop.store.undo() == "edit of material, stamped on HS-01 spindle and 1 more"
    assert row(shop, "part", shop.cap).material == ""


def test_one_bad_field_stops_the_whole_edit(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="Quantity: “many” is not a whole number"):
        edit.edit(shop.store, "part", [shop.spindle, shop.cap], {"material": "C60", "quantity": "many"})
    assert row(shop, "part", shop.spindle).material == "C45"


def test_a_taken_code_is_refused_in_editing_too(shop: Shop) -> None:
    with pytest.raises(BadEntry, match="“HS-01” is already the code of “spindle”"):
        edit.edit(shop.store, "part", [shop.cap], {"code": "HS-01"})
    with pytest.raises(BadEntry, match="is already the code of"):
        edit.edit(shop.store, "part", [shop.spindle, shop.cap], {"code": "HS-09"})
    edit.edit(shop.store, "part", [shop.spindle], {"code": "HS-01"})


@pytest.mark.parametrize(
    ("record", "typed", "said"),
    [
        ("part", {"name": ""}, "Name: is empty. Type a name."),
        ("part", {"quantity": "-1"}, "Quantity: “-1” is below 1."),
        ("part", {"quantity": "9" * 25}, "is too large. Type a smaller number."),
        (
            "part",
            {"identity": "maybe"},
            "Identity: “maybe” is not one of the words. Choose unknown, suspected",
        ),
        ("part", {"origin": ""}, "Origin: is empty. Choose original, earlier repair"),
        ("part", {"place_id": "top shelf"}, "Place: “top shelf” is not a place. Choose from the list."),
        ("part", {"code": "x" * 41}, "is 41 characters long; 40 fit. Shorten it"),
        ("machine", {"unit": "furlong"}, "Unit: “furlong” is not a unit the grid shows."),
        ("station", {"at": "far"}, "Distance along: “far” is not a size."),
        ("task", {"done_at": "14.3.2026.1"}, "Done: “14.3.2026.1” is not a date. Type it as 2026-03-14 or"),
        ("task", {"done_at": "14.3.0026"}, "Done: “14.3.0026” is of the year 26; dates here lie between"),
        (
            "machine",
            {"year": "19422"},
            "Year built: “19422” holds 19422, which is no year a machine was built",
        ),
        ("machine", {"year": "1"}, "Year built: “1” holds 1, which is no year"),
    ],
)
def test_each_refusal_names_field_value_and_way_out(
    shop: Shop, record: str, typed: dict[str, str], said: str
) -> None:
    with pytest.raises(BadEntry) as refusal:
        edit.edit(shop.store, record, [1], typed)
    assert said in str(refusal.value)
    assert refusal.value.where
    assert refusal.value.way_out


def test_what_lost_to_another_window_is_kept_under_its_whole_name(shop: Shop) -> None:
    edit.edit(shop.store, "part", [shop.cap], {"name": "cap, upper: rear, left", "material": "GG-25"})
    with pytest.raises(Clash) as clash:
        edit.edit(shop.store, "part", [shop.cap], {"material": "C45"}, seen={"material": ""})
    called = "HS-02 cap, upper: rear, left"
    assert (clash.value.on, clash.value.field) == (called, "Material")
    with shop.store.read() as connection:
        assert [one.meant_for for one in kept_entries(connection)] == [f"{called}, material"]


def test_a_reference_to_what_is_gone(shop: Shop) -> None:
    with pytest.raises(
        NotThere, match=r"^Part, place: refers to no\. 77, which is no longer there\. It may have been"
    ):
        edit.edit(shop.store, "part", [shop.spindle], {"place_id": "77"})


def test_editing_what_is_gone(shop: Shop) -> None:
    with pytest.raises(NotThere, match=r"The part no\. 99 is no longer there"):
        edit.edit(shop.store, "part", [99], {"name": "x"})
    with pytest.raises(NotThere):
        edit.remove(shop.store, "part", [shop.spindle, 99])
    assert row(shop, "part", shop.spindle).name == "spindle"


def test_nothing_chosen_leaves_no_trace(shop: Shop) -> None:
    label = shop.store.undo_label()
    edit.edit(shop.store, "part", [], {"name": "x"})
    edit.remove(shop.store, "part", [])
    assert shop.store.undo_label() == label


def test_words_may_be_shortened_when_only_one_fits(shop: Shop) -> None:
    edit.edit(shop.store, "part", [shop.spindle], {"identity": "SUSP", "origin": "earlier"})
    assert (row(shop, "part", shop.spindle).identity, row(shop, "part", shop.spindle).origin) == (
        "suspected",
        "earlier repair",
    )


def test_half_a_character_does_not_reach_the_file(shop: Shop) -> None:
    edit.edit(shop.store, "part", [shop.spindle], {"note": "a\ud800b\x00c 😀"})
    assert row(shop, "part", shop.spindle).note == "a\ufffdbc 😀"


def test_removing_is_named_and_takes_what_hangs_on_it(shop: Shop) -> None:
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near))
    edit.remove(shop.store, "part", [shop.spindle, shop.cap])
    assert shop.store.undo_label() == "removal of part HS-01 spindle and 1 more"
    with shop.store.read() as connection:
        for table in ("part", "feature", "station", "reading"):
            assert connection.execute(text(f"SELECT COUNT(*) FROM {table}")).scalar() == 0


#: Journaled tables nothing is typed into, and who writes them.
NOT_TYPED = {
    "constraint_part": "which parts a constraint names; its dialog sets them all",
    "removal_part": "which parts came off together; the removal log sets them",
    "refit_step": "what a drafted step undoes; the draft sets it",
    "drafted_link": "what a drafted link is for; the draft sets it",
    "link_proposal": "what was answered to a proposed link; it is answered again, not typed over",
    "step_attempt": "what was noted before a step was opened again; opening it keeps it",
    "stay": "where a part lay; each move of it writes one",
    "camera": "how far a camera's clock is off; it is put right from a photo whose time is known",
    "photo_subject": "what else a photo shows; it is shown or taken off on the photo",
    "mark_part": "the part a mark names; it is named on the photo",
    "merged_part": "what a part was before; merging writes it",
    "survey_reading": "a value of a survey line; typed in the line's own grid",
    "unplaced": "a value without a row; it is put on one, or thrown away with a reason",
    "work_spell": "hours of the week; the week is set as one",
}


def test_every_journaled_record_can_be_edited_and_removed() -> None:
    """A table without an entry in FIELDS would be one the user cannot mend, unless an act of its own writes it."""
    journaled = {table.name for table in whole().tables.values() if table.info.get("journaled")}
    assert journaled - set(FIELDS) == set(NOT_TYPED)
    assert set(FIELDS) <= journaled


def test_every_field_fills_columns_its_record_has() -> None:
    for record, fields in FIELDS.items():
        columns = {attribute.key for attribute in inspect(RECORDS[record]).column_attrs}
        for field in fields:
            assert set(field.columns()) <= columns, f"{record}.{field.name}"
            assert field.label
            assert (field.kind is FieldKind.CHOICE) == (field.choices is not None)
            assert (field.kind is FieldKind.REFERENCE) == bool(field.refers_to)


def test_every_reference_offers_choices(shop: Shop, tmp_path: Path) -> None:
    identify.add_place(shop.store, "shelf")
    identify.add_matched_set(shop.store, shop.machine, "set")
    add_point(shop.store, shop.machine, "front bearing", typed={"number": "1"})
    lay_out(shop.store, shop.machine)
    add_survey(shop.store, shop.machine, "front way", SurveyMethod.INDICATOR, typed={"unit": "mm"})
    add_control(shop.store, shop.machine, "feed knob")
    picture = tmp_path / "knob.png"
    Image.new("RGB", (8, 8)).save(picture)
    take_in(shop.store, shop.machine, [picture])
    with shop.store.read() as connection:
        offered = {word: choices(connection, word, shop.machine) for word in CHOOSERS}
    assert all(offered.values()), offered
    for record, fields in FIELDS.items():
        for field in fields:
            assert not field.refers_to or field.refers_to in CHOOSERS, f"{record}.{field.name}"


def test_a_card_shows_every_field_as_it_would_be_typed_again(shop: Shop) -> None:
    """Typing a form's own texts back into it changes nothing."""
    measure.record_reading(shop.store, "59.98", measure.Entry(shop.journal, shop.near, temperature="65 F"))
    edit.edit(shop.store, "task", [shop.remake], {"low_min": "35", "high_min": "95", "done_at": "2026-03-14"})
    label = shop.store.undo_label()
    for record in (
        "machine",
        "subassembly",
        "part",
        "feature",
        "station",
        "instrument",
        "task",
        "question",
        "log_entry",
    ):
        with shop.store.read() as connection:
            ids = list(connection.execute(text(f"SELECT id FROM {record}")).scalars())
        for key in ids:
            with shop.store.read() as connection:
                shown = card(connection, record, key).fields
            edit.edit(shop.store, record, [key], shown)
            assert shop.store.undo_label() == label, (record, key)


def test_a_card_of_what_is_gone(shop: Shop) -> None:
    with shop.store.read() as connection, pytest.raises(NotThere, match=r"The step no\. 99"):
        card(connection, "task", 99)


def test_words_for_records() -> None:
    assert (called("task"), called("log_entry"), called("part")) == ("step", "bench log entry", "part")
    with pytest.raises(KeyError):
        field_of("part", "colour")


# Each kind of field: what is shown can be typed again, and any text is read or refused


@pytest.mark.parametrize(
    ("kind", "typed", "stored", "shown"),
    [
        (FieldKind.WHOLE, " 7 ", 7, "7"),
        (FieldKind.NUMBER, "1,5", 1.5, "1.5"),
        (FieldKind.NUMBER, "1234567.891", 1234567.891, "1234567.891"),
        (FieldKind.CELSIUS, "65 F", 18.333333, "18.333333 C"),
        (FieldKind.MINUTES, "1 h 35 min", 95.0, "95 min"),
        (FieldKind.YES_NO, "Y", True, "yes"),
        (FieldKind.MOMENT, "2026-03-14", dt.datetime(2026, 3, 14), "2026-03-14"),
        (FieldKind.MOMENT, "2026-03-14 19:30", dt.datetime(2026, 3, 14, 19, 30), "2026-03-14 19:30"),
        (FieldKind.TEXT, "  a b ", "a b", "a b"),
    ],
)
def test_each_kind_there_and_back(kind: FieldKind, typed: str, stored: object, shown: str) -> None:
    field = Field("x", "X", kind)
    columns = field.read(typed)
    assert columns == {"x": stored}
    assert field.show(columns) == shown
    assert field.read(shown) == columns


def test_a_length_keeps_its_text() -> None:
    field = Field("x", "X", FieldKind.LENGTH)
    columns = field.read("1-1/4", "in")
    assert columns == {"x_text": "1-1/4", "x_unit": "in", "x_mm": 31.75}
    assert field.show(columns) == "1-1/4 in"
    assert field.read("") == {"x_text": None, "x_unit": None, "x_mm": None}


@given(
    kind=st.sampled_from([kind for kind in FieldKind if kind is not FieldKind.CHOICE]),
    typed=st.text(max_size=20),
)
def test_any_text_is_read_or_refused_and_shows_again(kind: FieldKind, typed: str) -> None:
    field = Field("x", "X", kind, refers_to="part")
    try:
        columns = field.read(typed)
    except RebuildError:
        return
    again = field.read(field.show(columns))
    assert again.keys() == columns.keys()
    if kind is not FieldKind.LENGTH:
        assert again == columns
    else:
        assert again["x_mm"] == columns["x_mm"]
