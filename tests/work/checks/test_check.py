"""Every sort of damage ``rebuild check`` is there for, done to a sound file with a plain SQLite tool."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import FileTrouble
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from rebuild.work.editing import acts as edit
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec
from rebuild.work.records import acts_settings as settings
from tests.faults.older import make_older

if TYPE_CHECKING:
    from tests.conftest import Shop


def meddle(shop: Shop, *statements: str) -> list[str]:
    """Findings after raw statements; the journal's own complaints about the meddling left out."""
    shop.store.close()
    raw = sqlite3.connect(shop.path)
    for statement in statements:
        raw.execute(statement)
    raw.commit()
    raw.close()
    return [line for line in check(shop.path) if "outside the program" not in line]


def test_a_sound_file_has_no_findings(shop: Shop) -> None:
    settings.set_decimal_comma(shop.store, True)
    long = spec.add_feature(shop.store, shop.cap, "bed", spec="1,250 ±0,010")
    measure.record_reading(shop.store, "1,251; 1,249", measure.Entry(long))
    settings.set_decimal_comma(shop.store, False)
    measure.record_reading(shop.store, "1,250 thou", measure.Entry(long), confirmed=True)
    settings.set_decimal_comma(shop.store, None)
    hole = spec.add_feature(shop.store, shop.cap, "bore", spec="25 H7")
    inch = spec.add_feature(
        shop.store, shop.cap, "slot", unit="in", spec="1-1/4 +.001/-.000", stations=("3",)
    )
    measure.record_reading(shop.store, "1.2504; 1.2506; 1.2505", measure.Entry(inch, temperature="68 F"))
    measure.record_reading(shop.store, "2 yards", measure.Entry(hole), confirmed=True)
    edit.edit(shop.store, "feature", [inch], {"unit": "mm"})
    edit.remove(shop.store, "part", [shop.spindle])
    shop.store.undo()
    shop.store.undo()
    shop.store.redo()
    edit.remove(shop.store, "task", [shop.refit])
    assert check(shop.path) == []
    shop.store.close()
    assert check(shop.path) == []


def test_an_entry_that_agrees_speaks_for_no_other(shop: Shop) -> None:
    """What was read again is remembered by text, unit and value: another of any of the three is read by itself."""
    keys = [
        measure.record_reading(shop.store, "59.981", measure.Entry(shop.journal, shop.near)).reading_id
        for _ in range(4)
    ]
    found = meddle(
        shop,
        f"UPDATE reading SET typed = '59.982' WHERE id = {keys[1]}",
        f"UPDATE reading SET unit = 'in' WHERE id = {keys[2]}",
        f"UPDATE reading SET value_mm = 59.9811 WHERE id = {keys[3]}",
    )
    assert [line.partition(" “")[0] for line in found] == [f"Reading no. {key}" for key in keys[1:]]


@pytest.mark.parametrize(
    ("column", "value"), [("spec_text", "'25 +0.022/0'"), ("unit", "'in'"), ("nominal_mm", "25.1"), ("low_mm", "24.9"),
                          ("high_mm", "25.2")]
)  # fmt: skip
def test_a_spec_that_agrees_speaks_for_no_other(shop: Shop, column: str, value: str) -> None:
    first, second = (
        spec.add_feature(shop.store, shop.cap, name, spec="25 +0.021/0") for name in ("bore", "eye")
    )
    found = meddle(shop, f"UPDATE feature SET {column} = {value} WHERE id = {second}")
    assert any(line.startswith(f"Feature no. {second}") for line in found)
    assert not any(f"no. {first} " in line for line in found)


def test_check_does_not_write(shop: Shop) -> None:
    shop.store.close()
    before = shop.path.read_bytes()
    check(shop.path)
    assert shop.path.read_bytes() == before


def test_an_unreadable_file_is_trouble_not_a_finding(tmp_path: Path) -> None:
    with pytest.raises(FileTrouble):
        check(tmp_path / "gone.rebuild")


#: Words only those who know SQLite or Python understand.
RAW = re.compile(
    r"\b(tree|btree|cell \d|rowid|malformed|wrong #|database|page \d|sqlite\w*|freelist|unsupported|literal|NoneType"
    r"|Error)\b",
    re.IGNORECASE,
)


def test_damage_is_told_in_the_words_of_what_was_entered(shop: Shop) -> None:
    for number in range(40):
        measure.record_reading(shop.store, f"59.9{number:02d}", measure.Entry(shop.journal, shop.near))
    shop.store.close()
    whole = shop.path.read_bytes()
    raw = sqlite3.connect(shop.path)
    roots = dict(
        raw.execute(
            "SELECT name, rootpage FROM sqlite_master WHERE name IN ('part', 'j_reading', 'ix_reading_taken_at')"
        )
    )
    (size,) = raw.execute("PRAGMA page_size").fetchone()
    raw.close()
    told = {}
    for name, page in roots.items():
        at = (page - 1) * size
        for how, spoilt in (("zeros", bytes(40)), ("noise", b"\xff\x07" * 30)):
            shop.path.write_bytes(whole[:at] + spoilt + whole[at + len(spoilt) :])
            told[name, how] = found = check(shop.path)
            assert found
            assert not [line for line in found if RAW.search(line)], found
            assert all("rebuild repair" in line for line in found)
    assert "rows of the list “part”" in told["part", "zeros"][0]
    assert "rows of the history of “reading”" in told["j_reading", "zeros"][0]
    assert "the order in which the list “reading” are found" not in told["part", "zeros"][0]
    shop.path.write_bytes(whole)
    raw = sqlite3.connect(shop.path)
    raw.execute("PRAGMA writable_schema = ON")
    raw.execute(
        "UPDATE sqlite_master SET sql = replace(sql, '(taken_at)', '(note)') WHERE name = 'ix_reading_taken_at'"
    )
    raw.commit()
    raw.close()
    (only,) = check(shop.path)[:1]
    assert "the rows themselves can be read" in only


def test_a_stumble_of_a_finder_is_told_by_its_kind(shop: Shop) -> None:
    from rebuild.store.sqlite_words import trouble_words
    from rebuild.work.checks.check import _guarded

    def told(trouble: Exception) -> str:
        def sizes_of_readings(_raw: sqlite3.Connection) -> Iterator[str]:
            raise trouble
            yield ""

        (said,) = _guarded(sizes_of_readings, sqlite3.connect(":memory:"))
        return said

    raw = [
        ValueError("could not convert string to float: 'x'"),
        KeyError("zeppelin"),
        OverflowError("(34, 'Numerical result out of range')"),
        sqlite3.OperationalError("Could not decode to UTF-8 column 'name'"),
        sqlite3.DatabaseError("database disk image is malformed"),
        RecursionError("maximum recursion depth exceeded"),
    ]
    for trouble in raw:
        said = told(trouble)
        assert said.startswith("The sizes of readings could not be worked out again: ")
        assert str(trouble) not in said
        assert not RAW.search(said)
        assert "malformed" not in trouble_words(trouble)


def test_damaged_pages_are_found(shop: Shop) -> None:
    for number in range(200):
        measure.record_reading(shop.store, f"59.9{number:03d}", measure.Entry(shop.journal, shop.near))
    shop.store.close()
    raw = sqlite3.connect(shop.path)
    (page,) = raw.execute("SELECT rootpage FROM sqlite_master WHERE name = 'ix_reading_taken_at'").fetchone()
    raw.close()
    content = bytearray(shop.path.read_bytes())
    content[(page - 1) * 4096 + 12 : page * 4096] = b"\x5a" * (4096 - 12)
    shop.path.write_bytes(bytes(content))
    try:
        found = check(shop.path)
    except FileTrouble as trouble:
        found = [str(trouble)]
    assert "damaged" in found[0]


@pytest.mark.parametrize(
    ("statement", "finding"),
    [
        (
            "UPDATE part SET name = 'meddled' WHERE id = 1",
            "Part no. 1 was changed outside the program (name)",
        ),
        ("DELETE FROM station WHERE id = 1", "Station no. 1 is gone, but the journal knows of no removal"),
        (
            "INSERT INTO place (kind, name, note) VALUES ('bag', 'x', '')",
            "Place no. 1 stands, but the journal does not know it",
        ),
        (
            "DELETE FROM change WHERE id = (SELECT MIN(id) FROM change WHERE tbl = 'part')",
            "Part no. 1 stands, but",
        ),
        (
            "DELETE FROM j_part WHERE change_id = (SELECT MIN(id) FROM change WHERE tbl = 'part')",
            "Part no. 1: journal",
        ),
        ("UPDATE j_part SET b_name = 'x' WHERE b_id IS NOT NULL", "does not follow from the one before it"),
        ("UPDATE act SET undone = 1 WHERE id = 3", "Act no. 3 is marked taken back, but"),
        ("UPDATE change SET tbl = 'gearbox' WHERE id = 1", "The journal speaks of “gearbox”"),
    ],
)
def test_the_journal_must_tell_what_stands(shop: Shop, statement: str, finding: str) -> None:
    shop.store.close()
    raw = sqlite3.connect(shop.path)
    raw.execute(statement)
    raw.commit()
    raw.close()
    assert any(finding in line for line in check(shop.path)), check(shop.path)


@pytest.mark.parametrize(
    ("statement", "finding"),
    [
        (
            "UPDATE instrument SET mpe_mm = 0.5",
            "Instrument no. 1: mpe was typed as “0.005” (mm), but 0.5 mm is stored.",
        ),
        ("UPDATE instrument SET mpe_mm = NULL", "Instrument no. 1: mpe is stored by halves"),
        ("UPDATE instrument SET mpe_unit = 'cubit'", "has a unit “cubit” this program does not know"),
        (
            "UPDATE feature SET high_mm = 61, high_text = '61' WHERE id = 1",
            "Feature no. 1 “front journal”: its spec was typed as “60 -0.010/-0.029” (mm), but nominal, low and "
            "high are stored as 60 mm, 59.971 mm, 61 mm.",
        ),
        ("UPDATE feature SET spec_text = 'about that' WHERE id = 1", "its spec was typed as “about that”"),
        ("UPDATE machine SET unit = 'ell'", "Machine no. 1: unit is “ell”, which is no unit of length"),
        (
            "INSERT INTO task_caution (task_id, topic) VALUES (1, 'lasers')",
            "its caution “lasers” is none this program knows",
        ),
        ("UPDATE instrument SET measures = 'hue'", "Instrument no. 1: It measures: “hue” is not something"),
        ("UPDATE part SET decision = 'perhaps' WHERE id = 1", "Part no. 1: decision is “perhaps”"),
        ("UPDATE log_entry SET at = 'yesterday'", "Log entry no. 1: at is “yesterday”, which is no time."),
        (
            "INSERT INTO link (before_id, after_id, kind, reason) VALUES (4, 1, 'before', '')",
            "Steps wait for each other in a loop: ",
        ),
        ("UPDATE subassembly SET parent_id = 3 - id", "lie inside each other"),
        ("UPDATE part SET spare_of_id = 3 - id", "are spares of each other"),
        ("UPDATE part SET code = 'A'", "Code A is on 2 parts of “Toolroom lathe”"),
        ("UPDATE task SET low_min = 200 WHERE id = 3", "“Make a new cap”: its durations do not rise"),
        ("UPDATE part SET place_id = 9 WHERE id = 1", "Part no. 1 refers to a place that is not there."),
        ("UPDATE alembic_version SET version_num = '9999'", "The file is of schema 9999"),
    ],
)
def test_every_claim_is_worked_out_again(shop: Shop, statement: str, finding: str) -> None:
    assert any(finding in line for line in meddle(shop, statement)), meddle(shop)


def test_a_second_machine_is_kept_apart(shop: Shop) -> None:
    from rebuild.work.machines import acts as identify
    from rebuild.work.steps import acts as tasks

    other = identify.add_machine(shop.store, "Shaper")
    group = identify.add_subassembly(shop.store, other, "Ram")
    step = tasks.add_task(shop.store, other, group, "Lift the ram off")
    found = meddle(
        shop,
        f"UPDATE part SET subassembly_id = {group} WHERE id = {shop.cap}",
        f"UPDATE question SET task_id = {step}",
        f"UPDATE link SET before_id = {step} WHERE id = 1",
    )
    assert f"Part no. {shop.cap} refers to a subassembly of another machine." in found
    assert f"Question no. {shop.question} refers to a task of another machine." in found
    assert "Link no. 1 joins steps of two machines." in found


@pytest.mark.parametrize(
    ("statement", "finding"),
    [
        ("value_mm = 1", "does not come to the 1.0 mm that is stored"),
        ("repeats = 3", "is 2 repeats, but 3 are stored"),
        ("spread_mm = NULL", "spreads by 0.0070710"),
        ("unit = 'cubit'", "has a unit this program does not know"),
        ("temperature_c = 68", "typed as “68 F”, but 68.0 °C is stored"),
        ("station_id = (SELECT MAX(id) FROM station)", "taken at a station of another feature"),
        ("stage = 'polished'", "stage is “polished”, which is none of the words"),
    ],
)
def test_readings_are_worked_out_again(shop: Shop, statement: str, finding: str) -> None:
    spec.add_feature(shop.store, shop.cap, "bore", stations=("mid",))
    measure.record_reading(
        shop.store, "59.98; 59.97", measure.Entry(shop.journal, shop.near, temperature="68 F")
    )
    found = meddle(shop, f"UPDATE reading SET {statement}")
    assert any(finding in line for line in found), found


def test_many_findings_of_a_kind_are_counted(shop: Shop) -> None:
    for number in range(30):
        measure.record_reading(shop.store, f"59.9{number:02d}", measure.Entry(shop.journal, shop.near))
    found = meddle(shop, "UPDATE reading SET repeats = 7")
    assert sum("7 are stored" in line for line in found) == 20
    assert "… and 10 more of the same kind." in found


def test_an_older_file_is_checked_as_it_lies_there(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    from rebuild.store import schema

    monkeypatch.setattr(schema, "HEAD", "9001")
    assert check(shop.path) == []


def test_a_file_of_the_first_schema_is_checked_as_it_lies_there(tmp_path: Path) -> None:
    make_older(tmp_path / "first.rebuild")
    assert check(tmp_path / "first.rebuild") == []


def test_a_file_in_use_is_checked(shop: Shop) -> None:
    other = Store.open(shop.path)
    measure.record_reading(other, "59.98", measure.Entry(shop.journal, shop.near))
    assert check(shop.path) == []
    other.close()


def test_two_truths_of_a_place_are_found(shop: Shop) -> None:
    shelf = identify.add_place(shop.store, "A1")
    identify.put(shop.store, [shop.cap, shop.spindle], shelf)
    found = meddle(
        shop,
        f"UPDATE part SET place_id = NULL WHERE id = {shop.cap}",
        f"INSERT INTO stay (part_id, place_id, came_at) VALUES ({shop.spindle}, {shelf}, '2026-03-01T00:00:00')",
        f"INSERT INTO stay (part_id, came_at, left_at) VALUES ({shop.cap}, '2026-03-02T00:00:00', "
        "'2026-03-01T00:00:00')",
    )
    assert [line for line in found if "HS-02" in line] == [
        "HS-02 bearing cap: the part and its history of places say two things. Put it away once more.",
        "HS-02 bearing cap: came to a place on 2026-03-02T00:00:00 and left it before, on 2026-03-01T00:00:00.",
    ]
    assert "HS-01 spindle lies in 2 places at once. Put it where it lies once more." in found


@pytest.mark.parametrize(
    ("table", "column"),
    [("j_part", "b_name"), ("j_part", "change_id"), ("act", "kind"), ("act", "sealed"), ("change", "op")],
)
def test_a_column_whose_name_was_damaged_is_a_finding(shop: Shop, table: str, column: str) -> None:
    """Eight random bytes in the file's table of contents ended the check in a fault."""
    shop.store.close()
    raw = sqlite3.connect(shop.path)
    raw.execute(f"ALTER TABLE {table} RENAME COLUMN {column} TO odd")
    raw.commit()
    raw.close()
    assert f"The table “{table}” of the file is not as this program makes it." in check(shop.path)
