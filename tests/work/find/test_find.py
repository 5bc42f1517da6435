"""Find against a plain scan of every row, on random content and after every kind of change; sizes by value."""

from __future__ import annotations

import random
import re
import sqlite3
import unicodedata
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.store.entry import driver
from rebuild.store.find.ask import hits, question, tokens
from rebuild.store.find.columns import word_tables
from rebuild.store.find.index import behind
from rebuild.store.repair.repair import repair
from rebuild.store.store import Store
from rebuild.words.places import PlaceKind
from rebuild.work.editing import acts as edit
from rebuild.work.find.acts_search import search
from rebuild.work.find.kinds import KINDS
from rebuild.work.find.rows import LONGEST, Found, find
from rebuild.work.landings.acts import keep_unplaced
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.teardown.acts_line import say_removal
from tests.conftest import Shop

WORDS = (
    "spindle",
    "Saddle",
    "gib",
    "größe",
    "HS-02",
    "7",
    "70",
    "M8x1.25",
    "nut",
    "nuts",
    "4711-B",
    "o'ring",
    "écrou",
)


def scan(store: Store, typed: str) -> set[tuple[str, int]]:
    """Every part and place whose own words have all the words typed, read row by row."""
    found: set[tuple[str, int]] = set()
    with store.read() as connection:
        parts = connection.exec_driver_sql(
            "SELECT id, code, name, note, decision, condition FROM part"
        ).fetchall()
        places = connection.exec_driver_sql("SELECT id, kind, name, note FROM place").fetchall()
    for table, rows in (("part", parts), ("place", places)):
        for key, *texts in rows:
            short = re.sub("-0?", "", texts[0]) if table == "part" else ""
            if all(_has(word, f"{' '.join(texts)} {short}") for word in typed.split()):
                found.add((table, key))
    return found


def _has(word: str, text: str) -> bool:
    """Whether the pieces of a word follow each other in a text, the last as a beginning unless a short number.

    Written from the standard's categories (Unicode 15, chapter 4.5: L*, N*), not with the program's own tokens.
    """
    asked, has = _pieces(word), _pieces(text)
    if not asked:
        return True
    for at in range(len(has) - len(asked) + 1):
        here = has[at : at + len(asked)]
        whole = asked[-1].isdigit() and len(asked[-1]) < 3
        last = here[-1] == asked[-1] if whole else here[-1].startswith(asked[-1])
        if here[:-1] == asked[:-1] and last:
            return True
    return False


def _pieces(text: str) -> list[str]:
    plain = "".join(
        one for one in unicodedata.normalize("NFD", text.lower()) if not unicodedata.combining(one)
    )
    return re.findall(r"[^\W_]+", plain)


def first_place(store: Store) -> int:
    with store.read() as connection:
        return int(connection.exec_driver_sql("SELECT id FROM place WHERE name = '3'").scalar_one())


def found(store: Store, typed: str) -> list[Found]:
    store.follow_words()
    with store.read() as connection:
        return find(connection, typed, 100_000)


def agreed(store: Store, typed: str) -> None:
    """The index and the plain scan find the same rows."""
    store.follow_words()
    with store.read() as connection:
        raw = driver(connection)
        ours = {(one.table, one.row) for one in hits(raw, word_tables(raw), typed, 100_000)}
    assert {one for one in ours if one[0] in ("part", "place")} == scan(store, typed), typed


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """A file of random words in parts and places."""
    rng = random.Random(1914)
    store = Store.create(tmp_path_factory.mktemp("find") / "words.rebuild")
    machine = identify.add_machine(store, "Lathe")
    with store.built_whole():
        for number in range(60):
            name, note = (" ".join(rng.choices(WORDS, k=rng.randint(1, 4))) for _ in range(2))
            identify.add_part(store, machine, None, name, f"HS-{number:02}", typed={"note": note})
            if number % 4 == 0:
                identify.add_place(store, f"{name} {number}", rng.choice(list(PlaceKind)), note)
    yield store
    store.close()


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.sampled_from([*WORDS, "sp", "hs2", "HS-1", "bag", "ø", '"', "NEAR(", "*", "o'r", "47"]), max_size=3
    )
)
def test_the_index_finds_what_a_plain_scan_finds(filled: Store, words: list[str]) -> None:
    typed = " ".join(words)
    if question(typed):
        agreed(filled, typed)
    else:
        assert found(filled, typed) == []


def test_tokens_are_those_of_the_index(filled: Store) -> None:
    """SQLite's own tokenizer (fts5vocab) beside ours."""
    filled.follow_words()
    with filled.read() as connection:
        raw = driver(connection)
        texts = [text for (text,) in raw.execute("SELECT words FROM find_words")]
        told = raw.execute(
            "SELECT count(*) FROM find_words WHERE find_words MATCH ?", ('"grosse"',)
        ).fetchone()
    assert texts
    assert told == (0,), "ß stays ß"
    assert tokens("Größe ÉCROU 4711-B") == ["große", "ecrou", "4711", "b"]


def test_the_index_follows_acts_undo_bulk_and_cascades(shop: Shop) -> None:
    store = shop.store
    assert found(store, "spindle")
    with store.read() as connection:
        assert behind(driver(connection)) == 0
    part = identify.add_part(store, shop.machine, shop.headstock, "Quill clamp", "HS-77")
    agreed(store, "quill")
    edit.edit(store, "part", [part], {"name": "Feather key"})
    assert not [one for one in found(store, "quill") if one.row == part]
    agreed(store, "feather")
    store.undo()
    agreed(store, "quill")
    agreed(store, "feather")
    store.redo()
    agreed(store, "feather")
    edit.remove(store, "machine", [shop.machine])
    assert found(store, "spindle") == [], "what goes with a machine is no longer found"
    store.undo()
    agreed(store, "spindle")
    assert found(store, "spindle")


DAMAGE = (
    "UPDATE find_words_data SET block = x'00ff00ff'",
    "DELETE FROM find_words_data",
    "DELETE FROM find_words_data WHERE id = 10",
    "DELETE FROM find_words_config",
    "UPDATE find_words_config SET v = 99",
    "UPDATE find_words_content SET c0 = x'ff00ff'",
)


def test_an_index_that_is_damaged_or_of_other_columns_is_made_anew(shop: Shop) -> None:
    assert search(shop.store, "spindle")
    for number, damage in enumerate(DAMAGE):
        shop.close()
        with closing(sqlite3.connect(shop.path)) as raw:
            raw.execute(damage)
            raw.commit()
        store = Store.open(shop.path)
        if number % 2:
            assert [one.title for one in search(store, "spindle")][:1] == ["HS-01 spindle"], damage
        identify.add_part(store, shop.machine, None, f"Quill clamp {number}")  # no act waits for the index
        assert len(search(store, "quill")) == number + 1, damage
        store.close()
    store = Store.open(shop.path)
    with store._writer.begin() as connection:
        connection.exec_driver_sql("DELETE FROM find_words")
        connection.exec_driver_sql("UPDATE find_mark SET made_of = 'others'")
    assert len(search(store, "quill")) == len(DAMAGE)
    store.close()


def test_a_repaired_file_is_searched_whole(shop: Shop, tmp_path: Path) -> None:
    assert search(shop.store, "spindle")
    shop.close()
    made = repair(shop.path, tmp_path / "mended.rebuild")
    assert [sentence[:13] for sentence in made.said] == ["What was done"], "nothing is said of the index"
    store = Store.open(made.path)
    assert [one.title for one in search(store, "spindle")][:1] == ["HS-01 spindle"]
    store.close()


def test_a_size_is_found_by_its_value_in_either_unit(shop: Shop) -> None:
    store = shop.store
    inch = spec.add_feature(store, shop.cap, "bore", typed={"unit": "in"})
    pin = spec.add_feature(store, shop.spindle, "pin")
    made = [
        measure.record_reading(store, typed, measure.Entry(feature))
        for typed, feature in (
            ("24.980", pin),
            ("0.98346", inch),
            ("24.99", pin),
            ("0.9838", inch),
        )
    ]
    keys = [taken.reading_id for taken in made]
    for typed, wanted in (
        ("24.98", {keys[0], keys[1]}),
        ("24.980 mm", {keys[0], keys[1]}),
        ("0.98346 in", {keys[1], keys[0]}),
        ("0.9838", {keys[3]}),
    ):
        assert {one.row for one in found(store, typed) if one.table == "reading"} == wanted, typed
    assert [one.part_id for one in found(store, "cap 24.98") if one.table == "reading"] == [shop.cap]
    nearest = [one.row for one in found(store, "24.98") if one.table == "reading"]
    assert nearest == keys[:2], "the very value before its neighbour"


def test_a_value_without_a_row_is_found_by_what_was_sent(shop: Shop) -> None:
    key = keep_unplaced(shop.store, "1.2497 in", "fits")
    for typed in ("1.2497", "1.2497 in", "fits"):
        (one,) = [one for one in search(shop.store, typed) if one.table == "unplaced"]
        assert (one.row, one.kind, one.title) == (key, "value without a row", "1.2497 in, seen on fits")


def test_a_row_opens_where_it_is_shown(shop: Shop) -> None:
    removal = say_removal(
        shop.store,
        shop.machine,
        shop.headstock,
        "cap u, 4 x M10 x 40 socket, found a nest of swarf, > bag 7",
        make=True,
    )
    nest = next(one for one in found(shop.store, "nest swarf"))
    assert (nest.kind, nest.page, nest.target, nest.subassembly_id) == (
        "removal",
        "teardown",
        removal,
        shop.headstock,
    )
    assert nest.title == "HS-02 bearing cap, unscrewed"
    screw = next(one for one in found(shop.store, "M10 socket") if one.table == "fastener")
    assert (screw.page, screw.target) == ("teardown", removal)
    bag = next(one for one in found(shop.store, "bag 7"))
    assert (bag.kind, bag.title) == ("place", "bag 7")


def test_every_table_with_words_has_a_kind(empty_template: Path) -> None:
    with sqlite3.connect(empty_template) as raw:
        worded = {table.name for table in word_tables(raw)}
    assert worded <= {kind.table for kind in KINDS}
    assert {Parts.table_name, Places.table_name} <= worded


def test_a_fastener_is_found_by_its_size_however_it_is_spaced(shop: Shop) -> None:
    say_removal(
        shop.store,
        shop.machine,
        shop.headstock,
        "cap u, 4 x M8 x 30 set screw, 2 x 3/8-16 x 1-3/4 socket, > bag 3",
        make=True,
    )
    identify.add_place(shop.store, "M8 x 30 screws")
    for typed in ("M8 x 30", "M8x30", "m8×30", "4 × M8 × 30 mm set screw", "M8"):
        first = search(shop.store, typed)[0]
        assert (first.table, first.page) == ("fastener", "teardown"), typed
        assert (first.around, first.lies) == ("4 × M8 × 30 set screw", "bag 3"), typed
    assert "place" in {one.table for one in search(shop.store, "M8x30")}, "words written apart are found, too"
    assert [one.table for one in search(shop.store, "3/8-16 x 1-3/4")] == ["fastener"]
    measure.record_reading(shop.store, "59.985", measure.Entry(shop.journal, shop.near))
    spindle = next(row for row in search(shop.store, "59.985"))
    edit.edit(shop.store, "part", [spindle.part_id or 0], {"place_id": str(first_place(shop.store))})
    assert next(row for row in search(shop.store, "59.985")).lies == "bag 3", (
        "a size says where its part lies"
    )
    ring = identify.add_part(
        shop.store, shop.machine, None, "bronze ring", "X-01", typed={"note": "stamped 12-40"}
    )
    (hit,) = [row for row in search(shop.store, "bronze") if row.row == ring]
    assert (hit.title, hit.around) == ("X-01 bronze ring", ""), "no scraps of the index"
    (hit,) = [row for row in search(shop.store, "stamped") if row.row == ring]
    assert hit.around == "stamped 12-40"
    (hit,) = [row for row in search(shop.store, "x1") if row.row == ring]
    assert hit.around == ""
    identify.add_part(shop.store, shop.machine, shop.headstock, "lever", "HS-09")
    say_removal(shop.store, shop.machine, shop.headstock, "lever x sheared off flush")
    (broken,) = [row for row in search(shop.store, "broken headstock") if row.table == "removal"]
    assert broken.title == "HS-09 lever, broken off"
    assert "HS-09 lever" in {row.title for row in search(shop.store, "lever headstock")}
    assert search(shop.store, "M8 x 35") == []
    assert search(shop.store, "M8 x 30 socket") == []


def test_a_page_pasted_by_mistake_is_looked_for_by_its_beginning(shop: Shop) -> None:
    """Counted, not timed: the index is asked for no more words than fit."""
    asked: list[str] = []
    shop.store.follow_words()
    with shop.store.read() as connection:
        driver(connection).set_trace_callback(asked.append)
        assert find(connection, "1-" * 3_000) == []
        driver(connection).set_trace_callback(None)
        assert find(connection, "spindle" + " " * LONGEST + "and no end")
    assert max(len(one) for one in asked) < 20 * LONGEST


def test_what_was_removed_leaves_nothing_in_the_index(shop: Shop) -> None:
    """A row left behind is not shown, for its table has it no longer; the index would grow with every edit."""

    def entries() -> list[tuple[int]]:
        shop.store.follow_words()
        with shop.store.read() as connection:
            return driver(connection).execute("SELECT rowid FROM find_words ORDER BY rowid").fetchall()

    before = entries()
    part = identify.add_part(shop.store, shop.machine, shop.headstock, "Quill clamp", "HS-77")
    assert len(entries()) > len(before)
    edit.remove(shop.store, "part", [part])
    assert entries() == before


def test_a_part_and_what_happened_to_it_are_found_together(shop: Shop) -> None:
    """No row holds both words: the name is the part's, the rest stands at its removal."""
    say_removal(shop.store, shop.machine, shop.headstock, "cap u, broken off at the thread")
    found = search(shop.store, "bearing broken")
    assert any("bearing cap" in one.title for one in found), found
    assert search(shop.store, "spindle broken") == []


def test_what_is_not_there_is_found_as_people_call_it_and_what_lies_somewhere_says_where(shop: Shop) -> None:
    store = shop.store
    say_removal(store, shop.machine, shop.headstock, "Felt washer m", make=True)
    say_removal(store, shop.machine, shop.headstock, "hs1 l, oil hole to the rear, > tray A", make=True)
    store.follow_words()
    with store.read() as connection:
        for words in ("felt missing", "lost felt", "washer gone"):
            assert [one.title for one in find(connection, words)] == ["HS-03 Felt washer, not there"], words
        assert next((one.kind, one.lies) for one in find(connection, "HS-01")) == ("part", "tray A")
        assert [(one.kind, one.lies) for one in find(connection, "oil hole rear")] == [("removal", "tray A")]
        assert find(connection, "nothing missing") == []


@pytest.mark.parametrize("typed", ["M10x45", "M10 x 45", "m10 × 45"])
def test_a_screw_listed_as_a_part_is_found_by_its_size_too(typed: str, shop: Shop) -> None:
    """Seen by a stranger: only the screws of the log were found, not the part that is called so."""
    parts = [
        identify.add_part(shop.store, shop.machine, None, name, code)
        for name, code in (("clamp screw M10x45", "T-2"), ("stud M10 x 45", "T-3"), ("screw M10x50", "T-4"))
    ]
    found = [one.row for one in search(shop.store, typed) if one.table == "part"]
    assert sorted(found) == parts[:2]
