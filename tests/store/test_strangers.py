"""A stranger's file is data: what it holds besides rows is named, refused, and never runs."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from rebuild.cli.main import main
from rebuild.errors import FileTrouble
from rebuild.store.connect import read_only, reader_engine, writer_engine
from rebuild.store.reading import reading
from rebuild.store.repair.repair import repair
from rebuild.store.same_values import compare
from rebuild.store.schema import HEAD, known_revisions
from rebuild.store.store import Store
from rebuild.store.strangers import known, strange
from rebuild.work.checks.check import check
from tests.conftest import Shop
from tests.store.test_unreadable import spoil
from tests.support import read_contents
from tests.write_known import made_by_each

STRANGE = [
    ("CREATE TRIGGER t AFTER INSERT ON reading BEGIN UPDATE reading SET value_mm = 25; END", "trigger “t”"),
    ("CREATE VIEW v AS SELECT * FROM part", "view “v”"),
    ("CREATE TABLE spare_list (a)", "table “spare_list”"),
    ("CREATE INDEX part_by_note ON part (length(note))", "index “part_by_note”"),
    ("DROP INDEX ix_part_code", "lacks its index “ix_part_code”"),
    ("DROP TABLE day_off", "lacks its table “day_off”"),
    ("ALTER TABLE part ADD COLUMN doubled INTEGER AS (quantity * 2)", "table “part” of the file is not as"),
    ("ALTER TABLE part ADD COLUMN extra TEXT", "table “part” of the file is not as"),
    ("CREATE VIRTUAL TABLE words USING fts5(a)", "table “words”"),
]


@pytest.mark.parametrize(("statement", "words"), STRANGE)
def test_what_this_program_did_not_make_is_named_and_refused(shop: Shop, statement: str, words: str) -> None:
    spoil(shop.path, statement)
    before = shop.path.read_bytes()
    assert any(words in finding for finding in check(shop.path))
    with pytest.raises(FileTrouble) as refused:
        Store.open(shop.path)
    assert words in str(refused.value)
    assert "rebuild repair" in str(refused.value)
    with pytest.raises(FileTrouble), reading(shop.path):
        pass
    assert shop.path.read_bytes() == before


def test_an_object_hidden_under_sqlite_s_own_prefix_is_seen(shop: Shop) -> None:
    raw = sqlite3.connect(shop.path)
    raw.execute("CREATE TRIGGER t AFTER INSERT ON part BEGIN DELETE FROM place; END")
    raw.execute("PRAGMA writable_schema = ON")
    raw.execute("UPDATE sqlite_master SET name = 'sqlite_t', sql = replace(sql, 'TRIGGER t', 'TRIGGER sqlite_t') "
                "WHERE name = 't'")  # fmt: skip
    raw.commit()
    raw.close()
    with pytest.raises(FileTrouble):
        Store.open(shop.path)


def test_statistics_and_a_vacuum_are_no_strangers(shop: Shop) -> None:
    raw = sqlite3.connect(shop.path)
    raw.execute("ANALYZE")
    raw.execute("VACUUM")
    raw.close()
    assert check(shop.path) == []
    assert shop.store.unreadable == ()


def test_what_each_version_must_hold_is_written_down(empty_template: Path, tmp_path: Path) -> None:
    """After a new migration: ``python -m tests.write_known``. A new file is what the migrations make, to the value."""
    made = tmp_path / "made.rebuild"
    found = dict(made_by_each(made))
    assert tuple(found) == known_revisions()
    for revision, lines in found.items():
        assert lines == known(revision), revision
    with closing(sqlite3.connect(made)) as migrated, closing(sqlite3.connect(empty_template)) as new:
        assert compare(migrated, new, lambda share: None) == ""
        for kept in ("encoding", "page_size", "auto_vacuum"):
            assert migrated.execute(f"PRAGMA {kept}").fetchone() == new.execute(f"PRAGMA {kept}").fetchone()


def test_a_version_not_written_down_still_refuses_what_acts(shop: Shop) -> None:
    spoil(shop.path, "CREATE VIEW v AS SELECT 1")
    raw = read_only(shop.path)
    assert strange(raw, "9999") == [
        "The file holds a view “v” that this program did not make. It is not used."
    ]
    assert strange(raw, HEAD) == strange(raw, "9999")
    raw.close()


def test_every_connection_follows_the_advice_for_untrusted_files(shop: Shop) -> None:
    # Source: SQLite, "Defense Against The Dark Arts", section 1.2, points on untrusted database files.
    with writer_engine(shop.path).connect() as writer, reader_engine(shop.path).connect() as reader:
        for connection in (writer, reader):
            assert connection.exec_driver_sql("PRAGMA trusted_schema").scalar_one() == 0
            assert connection.exec_driver_sql("PRAGMA cell_size_check").scalar_one() == 1
    raw = read_only(shop.path)
    assert raw.execute("PRAGMA trusted_schema").fetchone() == (0,)
    assert raw.execute("PRAGMA cell_size_check").fetchone() == (1,)
    raw.close()


@pytest.mark.parametrize(
    ("sha256", "ending"),
    [
        ("../" * 12 + "etc/hostname", ""),
        ("a" * 63 + "/", ".jpg"),
        ("A" * 64, ".jpg"),
        ("0" * 64, "/../../x.jpg"),
        ("0" * 64, ".exe"),
    ],
)
def test_no_photo_s_name_leads_out_of_the_folder(
    shop: Shop, tmp_path: Path, sha256: str, ending: str, capsys: pytest.CaptureFixture[str]
) -> None:
    insert = (
        "INSERT INTO photo (machine_id, sha256, ending, file_name, width, height, phase, view, proves, note) "
        f"VALUES (1, '{sha256}', '{ending}', 'x.jpg', 1, 1, 'as found', '', '', '')"
    )
    spoil(shop.path, insert)
    assert any("Photo no. 1" in finding and "kept under" in finding for finding in check(shop.path))
    with shop.store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM photo").scalar_one() == 0
    shop.close()
    before = set(tmp_path.rglob("*"))
    assert main(["export", str(shop.path), "--to", str(tmp_path / "out"), "--photos"]) == 0
    assert main(["backup", str(shop.path), "--to", str(tmp_path / "copy.rebuild")]) == 0
    made = repair(shop.path, tmp_path / "repaired.rebuild")
    new = set(tmp_path.rglob("*")) - before
    roots = ("out", "copy", "repaired", "filled.rebuild")
    assert all(path.relative_to(tmp_path).parts[0].startswith(roots) for path in new)
    assert not [path for path in new if "photos" in path.name and path.is_dir() and any(path.rglob("*.*"))]
    assert read_contents(made.path)["photo"] == []
    capsys.readouterr()
