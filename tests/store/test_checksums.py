"""What no journal confirms carries a checksum: an altered act, setting or kept entry is named; what we write is not."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.store import checksums
from rebuild.store.repair.repair import repair
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.work.checks.check import check
from rebuild.work.decisions.acts import decide
from rebuild.work.readings.acts import Entry, record_reading
from tests.store.as_before import as_before

if TYPE_CHECKING:
    from tests.conftest import Shop

ACTS = "SELECT id, kind, subject, at, window, reverses, undone, sealed FROM act ORDER BY id"
SETTINGS = "SELECT key, value FROM setting ORDER BY key"
KEPT = "SELECT id, at, meant_for, typed, why, settled FROM kept_entry ORDER BY id"


def spoil(path: Path, statement: str) -> None:
    raw = sqlite3.connect(path)
    raw.execute(statement)
    raw.commit()
    raw.close()


def rows(path: Path) -> list[list[tuple[object, ...]]]:
    raw = sqlite3.connect(path)
    found = [raw.execute(asked).fetchall() for asked in (ACTS, SETTINGS, KEPT)]
    raw.close()
    return found


def lived_in(shop: Shop) -> Path:
    """Acts taken back, done again and sealed by what came after; settings stored twice; a kept entry settled."""
    for typed in ("59.98", "59.97", "59.96"):
        record_reading(shop.store, typed, Entry(shop.journal, shop.near), confirmed=True)
    decide(shop.store, [shop.spindle], Decision.REMAKE, reason="worn oval")
    for _ in range(2):
        shop.store.undo()
    shop.store.redo()
    shop.store.undo()
    record_reading(shop.store, "59.95", Entry(shop.journal, shop.far), confirmed=True)
    shop.store.undo()
    for value in ("yes", "no"):
        shop.store.set_setting("decimal comma", value)
    shop.store.keep_entry("note of a part", "worn \udce9 oval", "another window was first")
    shop.store.keep_entry("name of a part", "x", "it is gone")
    shop.store.settle_kept(1)
    shop.store.close()
    return shop.path


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE act SET subject = subject || ' ' WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE act SET kind = 'REMOVE' WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE act SET at = '2026-01-01T10:00:00' WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE act SET window = 'x' WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE act SET reverses = 3 WHERE id = 2", "The history’s entry no. 2"),
        ("UPDATE act SET sealed = 1 - sealed WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE act SET undone = 1 - undone WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE act SET undone = 'x' WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE act SET crc = NULL WHERE id = 3", "The history’s entry no. 3"),
        ("UPDATE change SET act_id = 2 WHERE id = (SELECT MAX(id) FROM change)", "The history’s entry no. 2"),
        ("UPDATE setting SET value = 'yes'", "Setting no. 1"),
        ("UPDATE setting SET key = CAST(x'ff' AS TEXT)", "Setting no. 1"),
        ("UPDATE kept_entry SET typed = 'worn' WHERE id = 1", "Kept entry no. 1"),
        ("UPDATE kept_entry SET settled = 1 WHERE id = 2", "Kept entry no. 2"),
    ],
)
def test_what_was_altered_is_named(shop: Shop, statement: str, said: str) -> None:
    path = lived_in(shop)
    assert check(path) == []
    spoil(path, statement)
    assert f"{said} was altered outside the program." in check(path)


def test_repair_says_it_and_confirms_what_is_left(shop: Shop, tmp_path: Path) -> None:
    path = lived_in(shop)
    spoil(path, "UPDATE act SET subject = CAST(x'41ff' AS TEXT), undone = 1 WHERE id = 3")
    made = repair(path, tmp_path / "new.rebuild")
    assert "The history’s entry no. 3 was altered outside the program." in made.said
    assert check(made.path) == []


def test_a_filled_file_is_brought_to_0020(shop: Shop) -> None:
    path = lived_in(shop)
    as_before(path, "0020")
    before = rows(path)
    assert all(before)
    assert {row[-2] for row in before[0]} == {0, 1}
    assert {row[-1] for row in before[0]} == {0, 1}
    assert check(path) == []  # a file of an older schema carries none
    store = Store.open(path)
    assert store.upgraded_from is not None
    assert check(store.upgraded_from) == []
    assert rows(path) == before
    store.undo()
    store.redo()
    store.close()
    assert check(path) == []
    spoil(path, "UPDATE act SET subject = 'x' WHERE id = 1")
    assert check(path) == ["The history’s entry no. 1 was altered outside the program."]


def test_where_words_end_counts() -> None:
    raw = sqlite3.connect(":memory:")
    raw.execute("CREATE TABLE setting (key TEXT, value TEXT, crc INTEGER)")
    raw.execute("INSERT INTO setting VALUES ('ab', 'c', NULL), ('a', 'bc', NULL), ('abc', '', NULL)")
    for row in (1, 2, 3):
        checksums.put(raw, checksums.SETTING, row)
    assert raw.execute("SELECT COUNT(DISTINCT crc) FROM setting").fetchone() == (3,)
    raw.close()


def test_acts_settings_and_kept_entries_are_written_in_one_place() -> None:
    """A second writer would leave a row without its checksum."""
    top = Path(__file__).parent.parent.parent
    wanted = [
        f"{verb} {table}" for table in ("act", "setting", "kept_entry") for verb in ("INSERT INTO", "UPDATE")
    ] + ["insert(Acts", "update(Acts", "ActRow("]
    writers = {
        path.relative_to(top).as_posix()
        for path in sorted((top / "rebuild").rglob("*.py"))
        if any(
            f"{word} " in (text := path.read_text(encoding="utf-8")) or f"{word}(" in text for word in wanted
        )
    }
    assert writers == {
        "rebuild/store/entry.py",
        "rebuild/store/migrating.py",
        "rebuild/store/settings_and_kept.py",
    }
