"""Unknown things: noted, suspected, given to another machine, not ours, merged with all that is known of them."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from PIL import Image
from sqlalchemy import text

from rebuild.errors import BadEntry
from rebuild.exchange.folder import export_folder
from rebuild.exchange.whole_in import bring_in_folder
from rebuild.store.store import Store
from rebuild.trade.labels.code import Code, Tagged
from rebuild.words.parts import Identity
from rebuild.words.photos import MarkKind
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind
from rebuild.work.boxes.acts import add_clue, add_thing, not_ours, of_machine, suspect
from rebuild.work.boxes.acts_merge import AlreadyLies, another_alike, merge
from rebuild.work.boxes.rows import things
from rebuild.work.boxes.rows_suspects import part_named, suspects_of
from rebuild.work.checks.check import check
from rebuild.work.editing.acts import edit
from rebuild.work.find.rows import find
from rebuild.work.labels.rows import code_meant, file_mark
from rebuild.work.log.acts import ask
from rebuild.work.machines.acts import add_machine, add_part, add_place, put
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import mark_photo, show_on
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import Which, marks, photos
from rebuild.work.places.rows import stays
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.readings.acts_features import add_feature, add_station
from rebuild.work.steps.acts import add_task
from rebuild.work.teardown.acts import Off, log_removal
from tests.conftest import Shop
from tests.support import read_contents, refuses


def test_a_thing_is_noted_with_its_box_and_clues_in_one_act_and_found(shop: Shop) -> None:
    clues = "M10 x 1.5; stamped 418"
    key = add_thing(shop.store, shop.machine, "bronze ring; bore 24.98", "box 2", clues)
    with shop.store.read() as connection:
        (row,) = things(connection)
    assert (row.part_id, row.called, row.machine, row.came_in) == (
        key,
        "X-01 bronze ring",
        "Toolroom lathe",
        "box 2",
    )
    assert (row.identity, [one.words for one in row.clues]) == (
        Identity.UNKNOWN, ["bore 24.98 mm", "thread M10 x 1.5", "stamped 418"],
    )  # fmt: skip
    shop.store.follow_words()
    with shop.store.read() as connection:
        assert [(one.kind, one.page) for one in find(connection, "24.980 mm")] == [("clue", "boxes")]
        assert {one.kind for one in find(connection, "box 2")} == {"unknown thing"}
    add_thing(shop.store, shop.machine, "hook spanner")
    with shop.store.read() as connection:
        assert [one.called for one in things(connection)] == ["X-01 bronze ring", "X-02 hook spanner"]
    with refuses(shop.store, "Name: is empty"):
        add_thing(shop.store, shop.machine, " ", "box 2")
    with refuses(shop.store, "is not a thread designation"):
        add_thing(shop.store, shop.machine, "stud", "box 2", "bore 3; thread of some kind")
    shop.store.undo()
    shop.store.undo()
    with shop.store.read() as connection:
        assert things(connection) == []


def test_suspects_are_those_missing_and_of_that_size_on_any_machine(shop: Shop) -> None:
    other = add_machine(shop.store, "Shaper")
    missing = add_part(shop.store, other, None, "idler bush", "ID-04", typed={"origin": "missing"})
    add_feature(shop.store, missing, "bore", FeatureKind.BORE, spec="25 H7")
    present = add_part(shop.store, shop.machine, None, "collar", "CO-01")
    seat = add_feature(shop.store, present, "bore", FeatureKind.BORE)
    record_reading(shop.store, "25.01", Entry(seat, None), confirmed=True)
    key = add_thing(shop.store, shop.machine, "bronze ring", "box 2", "bore 25.01")
    with shop.store.read() as connection:
        found = suspects_of(connection, key)
    assert [(one.called, one.machine) for one in found[:2]] == [
        ("ID-04 idler bush", "Shaper"), ("CO-01 collar", "Toolroom lathe"),
    ]  # fmt: skip
    assert found[0].why == "missing; bore 25.010 mm (0.9846 in) agrees with bore"
    suspect(shop.store, key, missing)
    with shop.store.read() as connection:
        (row,) = things(connection)
    assert (row.identity, row.suspects) == (Identity.SUSPECTED, "ID-04 idler bush")


def test_what_is_not_ours_says_where_it_went(shop: Shop) -> None:
    key = add_thing(shop.store, shop.machine, "steady rest", "box 1")
    not_ours(shop.store, key, "swapped for a vice", dt.datetime(2026, 5, 2, 19, 0))
    with shop.store.read() as connection:
        (row,) = things(connection)
    assert (row.identity, row.went_to, str(row.went_at)) == (
        Identity.NOT_OURS, "swapped for a vice", "2026-05-02 19:00:00",
    )  # fmt: skip
    assert shop.store.undo_label() == "not ours X-01 steady rest went to swapped for a vice"
    shop.store.undo()
    with shop.store.read() as connection:
        assert [(one.identity, one.went_to) for one in things(connection)] == [(Identity.UNKNOWN, "")]


def test_merged_it_brings_its_whole_history_in_one_act_and_one_undo_takes_it_apart(
    shop: Shop, tmp_path: Path
) -> None:
    store = shop.store
    target = add_part(store, shop.machine, shop.headstock, "idler bush", "ID-04", typed={"origin": "missing"})
    thing = add_thing(store, shop.machine, "bronze ring", "box 2", "bore 24.98")
    seat = add_feature(store, thing, "bore", FeatureKind.BORE)
    record_reading(store, "24.98", Entry(seat, None), confirmed=True)
    bag = add_place(store, "7", PlaceKind.BAG)
    put(store, [thing], bag, at=dt.datetime(2026, 1, 5, 19, 0))
    picture = tmp_path / "ring.png"
    Image.new("RGB", (40, 30), (90, 80, 70)).save(picture)
    photo = take_in(store, shop.machine, [picture], About(part_id=thing)).added[0]
    show_on(store, [photo], "part", target)
    mark_photo(store, photo, MarkKind.LABEL, (0.1, 0.1), (0.1, 0.1), "", thing)
    question = ask(store, shop.machine, "What is this ring?", part_id=thing)
    step = add_task(store, shop.machine, None, "Wash the ring", part_id=thing)
    edit(store, "part", [thing], {"stamped": "418", "note": "heavy"})
    before = read_contents(shop.path)
    with store.read() as connection:
        tag = Code(Tagged.PART, file_mark(connection), thing).text()

    said = merge(store, thing, target)
    assert said.startswith("X-01 bronze ring is ID-04 idler bush; what was noted of it went along.")
    with store.read() as connection:
        assert things(connection) == []
        part = connection.execute(text("SELECT * FROM part WHERE id = :id"), {"id": target}).one()
        assert (part.stamped, part.origin, part.other_names) == ("418", "original", "bronze ring")
        assert part.note == "Was noted as X-01 bronze ring.\nheavy"
        assert (
            connection.execute(text("SELECT part_id FROM feature WHERE id = :id"), {"id": seat}).scalar()
            == target
        )
        assert [row.id for row in photos(connection, shop.machine, Which.CHOSEN, part_ids=(target,))] == [
            photo
        ]
        assert [row.said for row in marks(connection, photo)] == ["ID-04 idler bush"]
        for table, key in (("question", question), ("task", step), ("clue", 1), ("box_thing", 1)):
            found = connection.execute(text(f"SELECT part_id FROM {table} WHERE id = :id"), {"id": key})
            assert found.scalar() == target, table
        assert [(row.place, row.left_at is None) for row in stays(connection, target)] == [
            ("bag 7", True), ("bag 7", False),
        ]  # fmt: skip
        assert part.place_id == bag
        meant = code_meant(connection, tag)
        assert (meant.id, meant.called) == (target, "ID-04 idler bush (was X-01)")
        assert connection.execute(text("PRAGMA foreign_key_check")).all() == []
    assert store.undo_label() == "merging X-01 bronze ring into ID-04 idler bush"
    merged = read_contents(shop.path)
    store.undo()
    assert read_contents(shop.path) == before
    store.redo()
    assert read_contents(shop.path) == merged
    with refuses(store, "It is: is the thing itself"):
        merge(store, target, target)
    store.close()
    assert check(shop.path) == []


def test_a_feature_both_have_is_one_afterwards_and_two_of_different_sizes_stay(shop: Shop) -> None:
    store = shop.store
    target = add_part(store, shop.machine, shop.headstock, "idler bush", "ID-04")
    bore = add_feature(store, target, "bore", FeatureKind.BORE, spec="25 H7")
    add_feature(store, target, "length", FeatureKind.LENGTH, spec="40 ±0.1")
    add_feature(store, target, "collar", FeatureKind.OUTSIDE_DIAMETER)
    near = add_station(store, bore, "near")
    record_reading(store, "25.01", Entry(bore, near), confirmed=True)
    thing = add_thing(store, shop.machine, "bronze ring")
    own = add_feature(store, thing, "Bore", FeatureKind.BORE)
    at = [add_station(store, own, name) for name in ("near", "far")]
    taken = [
        record_reading(store, said, Entry(own, key), confirmed=True).reading_id
        for said, key in (("25.02", at[0]), ("25.03", at[1]))
    ]
    longer = add_feature(store, thing, "length", FeatureKind.LENGTH, spec="42 ±0.1")
    add_feature(store, thing, "collar", FeatureKind.OUTSIDE_DIAMETER, spec="32 h9")
    before = read_contents(shop.path)
    said = merge(store, thing, target)
    assert "2 features became the part’s own: bore, collar. Two of a name stay" in said
    assert said.endswith("for their sizes or kinds differ: length.")
    with store.read() as connection:
        rows = connection.execute(
            text("SELECT id, name, spec_text FROM feature WHERE part_id = :id ORDER BY id"), {"id": target}
        ).all()
        assert [(row.name, row.spec_text) for row in rows] == [
            ("bore", "25 H7"), ("length", "40 ±0.1"), ("collar", "32 h9"), ("length", "42 ±0.1"),
        ]  # fmt: skip
        assert rows[3].id == longer
        readings = connection.execute(
            text("SELECT id, feature_id, station_id FROM reading ORDER BY id")
        ).all()
        assert [tuple(row) for row in readings if row.id in taken] == [
            (taken[0], bore, near), (taken[1], bore, at[1]),
        ]  # fmt: skip
        assert connection.execute(text("PRAGMA foreign_key_check")).all() == []
    merged = read_contents(shop.path)
    store.undo()
    assert read_contents(shop.path) == before
    store.redo()
    assert read_contents(shop.path) == merged
    store.close()
    assert check(shop.path) == []


def test_of_another_machine_it_takes_its_own_along_and_leaves_the_others_theirs(
    shop: Shop, tmp_path: Path
) -> None:
    store = shop.store
    shaper = add_machine(store, "Shaper")
    add_part(store, shaper, None, "clapper pin", "X-01")
    target = add_part(store, shaper, None, "feed pawl", "FD-02", typed={"origin": "missing"})
    thing = add_thing(store, shop.machine, "pawl", "box 3")
    paths = [tmp_path / "alone.png", tmp_path / "both.png"]
    for at, path in enumerate(paths):
        Image.new("RGB", (40, 30 + at), (90, 80, 70)).save(path)
    _alone, both = take_in(store, shop.machine, paths, About(part_id=thing)).added
    show_on(store, [both], "part", shop.cap)
    ask(store, shop.machine, "Whose pawl is this?", part_id=thing, task_id=shop.refit)
    of_machine(store, thing, shaper)
    with store.read() as connection:
        (row,) = things(connection)
        assert (row.machine, row.called) == ("Shaper", "X-02 pawl"), "its code was taken there"
        there = photos(connection, shaper, Which.CHOSEN, part_ids=(thing,))
        assert sorted(one.file_name for one in there) == ["alone.png", "both.png"]
        here = photos(connection, shop.machine)
        assert [(one.id, one.about) for one in here] == [(both, "")]
        assert [one.id for one in photos(connection, shop.machine, Which.CHOSEN, part_ids=(shop.cap,))] == [
            both
        ]
        asked = connection.execute(text("SELECT machine_id, task_id FROM question ORDER BY id DESC")).first()
        assert asked is not None
        assert tuple(asked) == (shaper, None)
    merge(store, thing, target)
    with store.read() as connection:
        assert len(photos(connection, shaper, Which.CHOSEN, part_ids=(target,))) == 2
    store.undo()
    step = add_task(store, shaper, None, "Try the pawl", part_id=thing)
    with refuses(store, "“X-02 pawl” has a step on the machine it is at. Remove that first"):
        of_machine(store, thing, shop.machine)
    with refuses(store, "has a step on the machine"):
        merge(store, thing, shop.cap)
    assert step
    add_clue(store, thing, "stamped 7")
    store.close()
    assert check(shop.path) == []


def test_a_merged_tag_of_another_file_means_nothing_after_an_import(shop: Shop, tmp_path: Path) -> None:
    thing = add_thing(shop.store, shop.machine, "bronze ring")
    merge(shop.store, thing, shop.cap)
    export_folder(shop.path, tmp_path / "out")
    other = Store.create(tmp_path / "other.rebuild")
    bring_in_folder(other, tmp_path / "out")
    with other.read() as connection:
        row = connection.execute(text("SELECT was_number, was_code, was_name FROM merged_part")).one()
    assert tuple(row) == (0, "X-01", "bronze ring")
    other.close()


@pytest.mark.parametrize("identity", list(Identity))
def test_only_what_is_not_confirmed_is_listed(shop: Shop, identity: Identity) -> None:
    edit(shop.store, "part", [shop.cap], {"identity": identity.value})
    with shop.store.read() as connection:
        assert bool(things(connection)) is (identity is not Identity.CONFIRMED)


def test_the_part_whose_code_is_stamped_on_it_comes_first_then_what_the_log_calls_lost(shop: Shop) -> None:
    store = shop.store
    ring = add_part(store, shop.machine, shop.headstock, "Felt ring", "FR-01")
    add_part(store, shop.machine, None, "Spacer", "15-303")
    journal = add_part(store, shop.machine, None, "Shaft", "SH-09")
    add_feature(store, journal, "front", FeatureKind.OUTSIDE_DIAMETER, spec="24.98 ±0.01")
    log_removal(store, shop.machine, shop.headstock, Off((ring,), typed={"broke": "lost"}))
    bearing = add_part(store, shop.machine, None, "Upper bearing", "UB-02")
    log_removal(store, shop.machine, None, Off((bearing,), typed={"note": "heavy; stamped 6204 Z"}))
    disc = add_thing(store, shop.machine, "disc", "box 2", "stamped 6204")
    with store.read() as connection:
        assert (suspects_of(connection, disc)[0].called, suspects_of(connection, disc)[0].why) == (
            "UB-02 Upper bearing", "stamped 6204 Z",
        )  # fmt: skip
    store.undo()
    thing = add_thing(
        store, shop.machine, "steel ring", "box 2", "length 24.98; bore 20; ring; stamped 15-303"
    )
    with store.read() as connection:
        found = suspects_of(connection, thing)
    assert [(one.called, one.why) for one in found] == [
        ("15-303 Spacer", "stamped 15-303: its own number is 15-303"),
        ("FR-01 Felt ring", "missing; called ring"),
    ], "a length of 24.98 mm is no journal of 24.98 mm"


def test_a_part_that_lies_somewhere_already_is_asked_about_the_same_one_or_another_alike(shop: Shop) -> None:
    store = shop.store
    cover = add_part(store, shop.machine, shop.headstock, "Cover", "CV-01")
    bag, tin = add_place(store, "1", PlaceKind.BAG), add_place(store, "2", PlaceKind.BAG)
    put(store, [cover], bag)
    thing = add_thing(store, shop.machine, "round lid", "box 2")
    with refuses(store, "It is: “CV-01 Cover” lies in bag 1 already. Say whether this is the same one"):
        merge(store, thing, cover)
    with pytest.raises(AlreadyLies):
        merge(store, thing, cover)
    assert (
        another_alike(store, thing, cover) == "X-01 round lid is another one like CV-01 Cover: a spare of it."
    )
    with store.read() as connection:
        assert things(connection) == []
        row = connection.execute(text("SELECT * FROM part WHERE id = :id"), {"id": thing}).one()
        others = connection.execute(
            text("SELECT max(position) FROM part WHERE subassembly_id = :at AND id <> :id"),
            {"at": shop.headstock, "id": thing},
        )
        assert row.position == others.scalar_one() + 1, "after those that were there"
    assert (row.spare_of_id, row.identity, row.subassembly_id) == (cover, "confirmed", shop.headstock)
    store.undo()
    put(store, [thing], tin)
    assert merge(store, thing, cover, same=True).startswith("X-01 round lid is CV-01 Cover")
    store.undo()
    put(store, [thing], bag)
    assert merge(store, thing, cover).startswith("X-01 round lid is CV-01 Cover"), "both lie in one place"


def test_a_part_named_by_hand_is_the_thing_its_own_machine_first(shop: Shop) -> None:
    store = shop.store
    other = add_machine(store, "Shaper")
    there = add_part(store, other, None, "Idler bush", "ID-04")
    cover = add_part(store, shop.machine, None, "Front bearing cover", "FB-02")
    thing = add_thing(store, shop.machine, "ring")
    with store.read() as connection:
        found = part_named(connection, thing, "idler bush")
        assert (found.part_id, found.called, found.outright) == (there, "ID-04 Idler bush", True)
        found = part_named(connection, thing, "front bearing")
        assert (found.part_id, found.outright) == (cover, False)
        for typed, said in (
            ("  ", "It is: is empty. Type"),
            ("ring", "It is: “ring” is none of those there"),
        ):
            with pytest.raises(BadEntry, match=said):
                part_named(connection, thing, typed)


def test_a_photo_filed_under_another_part_is_said_when_the_thing_becomes_a_part(
    shop: Shop, tmp_path: Path
) -> None:
    target = add_part(
        shop.store, shop.machine, shop.headstock, "idler bush", "ID-04", typed={"origin": "missing"}
    )
    thing = add_thing(shop.store, shop.machine, "bronze ring")
    picture = tmp_path / "ring.png"
    Image.new("RGB", (40, 30), (90, 80, 70)).save(picture)
    photo = take_in(shop.store, shop.machine, [picture], About(part_id=shop.cap)).added[0]
    show_on(shop.store, [photo], "part", thing)
    said = merge(shop.store, thing, target)
    assert said.endswith(
        "A photo of it is filed under HS-02 bearing cap: P on the Photos page files it here."
    )


def test_the_number_of_a_thing_that_was_settled_is_not_given_again(shop: Shop) -> None:
    """Seen by a stranger: a bag marked X-03 meant three things."""
    store = shop.store
    first = add_thing(store, shop.machine, "bronze ring")
    add_thing(store, shop.machine, "collar")
    merge(store, first, shop.cap)
    third = add_thing(store, shop.machine, "key")
    with store.read() as connection:
        asked = connection.exec_driver_sql(
            "SELECT code FROM part WHERE name IN ('collar', 'key') ORDER BY id"
        )
        assert asked.scalars().all() == ["X-02", "X-03"]
    merge(store, third, shop.spindle)
    add_thing(store, shop.machine, "pawl")
    with store.read() as connection:
        asked = connection.exec_driver_sql("SELECT code FROM part WHERE name = 'pawl'")
        assert asked.scalar_one() == "X-04"


def test_what_a_thing_came_in_is_read_from_its_line(shop: Shop) -> None:
    """Seen by a stranger: "box 3" became a clue of 3 mm, and a bag stood in the name."""
    for line in ("Ring; box 3; bore 46.98", "thrust collar, > bag 5, bore 19.99; stamped 418"):
        add_thing(shop.store, shop.machine, line)
    with shop.store.read() as connection:
        rows = [(one.called, one.came_in, [clue.words for clue in one.clues]) for one in things(connection)]
    assert rows == [
        ("X-01 Ring", "box 3", ["bore 46.98 mm"]),
        ("X-02 thrust collar", "bag 5", ["bore 19.99 mm", "stamped 418"]),
    ]
