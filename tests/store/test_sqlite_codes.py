"""Each result code of SQLite: known trouble in a sentence with a way out, what only a programmer can mend as a bug.

Source: SQLite, "Result and Extended Result Codes", https://www.sqlite.org/rescode.html (from memory), as Python's
``sqlite3`` names them.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy.exc import OperationalError

from rebuild.errors import BadEntry, Bug, FileTrouble, NotThere, RebuildError
from rebuild.store.act import Act
from rebuild.store.sqlite_words import explain, explained, words_for
from rebuild.store.store import Store, Tx
from rebuild.work.machines import acts as identify
from rebuild.work.records.acts_settings import set_owner
from rebuild.work.records.rows_kept import kept_entries
from rebuild.work.teardown.acts_fasteners import add_fastener
from rebuild.work.teardown.acts_line import say_removal

if TYPE_CHECKING:
    from tests.conftest import Shop


def said(name: str) -> sqlite3.Error:
    """An error as the driver raises it, whose message says nothing."""
    error = sqlite3.OperationalError("words of no meaning")
    error.sqlite_errorcode = getattr(sqlite3, name)
    error.sqlite_errorname = name
    return error


KNOWN = {
    "SQLITE_BUSY": "another program has been writing",
    "SQLITE_BUSY_RECOVERY": "another program has been writing",
    "SQLITE_BUSY_SNAPSHOT": "another program has been writing",
    "SQLITE_BUSY_TIMEOUT": "another program has been writing",
    "SQLITE_LOCKED": "another part of the program",
    "SQLITE_LOCKED_SHAREDCACHE": "another part of the program",
    "SQLITE_PROTOCOL": "in the same moment",
    "SQLITE_FULL": "disk is full. Free some space",
    "SQLITE_READONLY": "may not be written. Copy it to a folder of your own",
    "SQLITE_READONLY_ROLLBACK": "may not be written",
    "SQLITE_READONLY_RECOVERY": "may not be written",
    "SQLITE_READONLY_DIRECTORY": "the folder of the file may not be written",
    "SQLITE_READONLY_DBMOVED": "was moved, renamed or replaced",
    "SQLITE_READONLY_CANTLOCK": "cannot be locked",
    "SQLITE_PERM": "may not be used",
    "SQLITE_AUTH": "does not let the program into",
    "SQLITE_CANTOPEN": "cannot be opened. See that the folder exists",
    "SQLITE_CANTOPEN_FULLPATH": "cannot be opened",
    "SQLITE_CANTOPEN_ISDIR": "is a folder",
    "SQLITE_CANTOPEN_NOTEMPDIR": "temporary files",
    "SQLITE_CORRUPT": "is damaged. Keep it as it is; “rebuild repair FILE” makes a new one",
    "SQLITE_CORRUPT_INDEX": "is damaged",
    "SQLITE_CORRUPT_SEQUENCE": "is damaged",
    "SQLITE_NOTADB": "is not a Rebuild project",
    "SQLITE_NOMEM": "run out of memory",
    "SQLITE_IOERR": "the disk reports an error",
    "SQLITE_IOERR_READ": "cannot read a part",
    "SQLITE_IOERR_SHORT_READ": "cannot read a part",
    "SQLITE_IOERR_FSTAT": "cannot read a part",
    "SQLITE_IOERR_SEEK": "cannot read a part",
    "SQLITE_IOERR_MMAP": "cannot read a part",
    "SQLITE_IOERR_DATA": "cannot read a part",
    "SQLITE_IOERR_WRITE": "did not take what was written",
    "SQLITE_IOERR_FSYNC": "did not take what was written",
    "SQLITE_IOERR_DIR_FSYNC": "did not take what was written",
    "SQLITE_IOERR_TRUNCATE": "did not take what was written",
    "SQLITE_IOERR_DELETE": "did not take what was written",
    "SQLITE_IOERR_CLOSE": "did not take what was written",
    "SQLITE_IOERR_LOCK": "cannot be locked",
    "SQLITE_IOERR_RDLOCK": "cannot be locked",
    "SQLITE_IOERR_UNLOCK": "cannot be locked",
    "SQLITE_IOERR_CHECKRESERVEDLOCK": "cannot be locked",
    "SQLITE_IOERR_SHMOPEN": "cannot be locked",
    "SQLITE_IOERR_SHMSIZE": "cannot be locked",
    "SQLITE_IOERR_SHMLOCK": "cannot be locked",
    "SQLITE_IOERR_SHMMAP": "cannot be locked",
    "SQLITE_IOERR_NOMEM": "run out of memory",
    "SQLITE_IOERR_ACCESS": "does not let the program into the folder",
    "SQLITE_IOERR_CORRUPTFS": "disk itself is damaged",
    "SQLITE_IOERR_VNODE": "was moved, renamed or replaced",
    "SQLITE_IOERR_GETTEMPPATH": "the disk reports an error",
}
BUGS = (
    "SQLITE_INTERNAL", "SQLITE_ABORT", "SQLITE_INTERRUPT", "SQLITE_NOTFOUND", "SQLITE_EMPTY", "SQLITE_SCHEMA",
    "SQLITE_TOOBIG", "SQLITE_MISMATCH", "SQLITE_MISUSE", "SQLITE_NOLFS", "SQLITE_FORMAT", "SQLITE_RANGE",
    "SQLITE_CONSTRAINT",
    "SQLITE_CONSTRAINT_CHECK", "SQLITE_CONSTRAINT_UNIQUE", "SQLITE_CONSTRAINT_NOTNULL", "SQLITE_CONSTRAINT_PRIMARYKEY",
    "SQLITE_CONSTRAINT_TRIGGER", "SQLITE_CONSTRAINT_ROWID", "SQLITE_CONSTRAINT_VTAB", "SQLITE_ABORT_ROLLBACK",
)  # fmt: skip


@pytest.mark.parametrize(("name", "words"), KNOWN.items())
def test_known_trouble_is_a_sentence_with_a_way_out(name: str, words: str) -> None:
    trouble = explain(said(name), Path("mill.rebuild"))
    assert isinstance(trouble, FileTrouble)
    assert words in str(trouble)
    assert trouble.where == "mill.rebuild"
    assert trouble.way_out
    assert "SQL" not in str(trouble)


@pytest.mark.parametrize("name", BUGS)
def test_what_no_user_can_mend_is_a_bug_and_no_sentence(name: str) -> None:
    bug = explain(said(name), Path("mill.rebuild"))
    assert isinstance(bug, Bug)
    assert not isinstance(bug, RebuildError)
    assert name in str(bug)


def test_every_code_of_the_driver_is_on_one_of_the_two_sides() -> None:
    """A kind this test does not name would be taken for a bug unseen."""
    kinds = {getattr(sqlite3, name) & 0xFF for name in (*KNOWN, *BUGS)}
    beside = {
        sqlite3.SQLITE_OK,
        sqlite3.SQLITE_ROW,
        sqlite3.SQLITE_DONE,
        sqlite3.SQLITE_NOTICE,
        sqlite3.SQLITE_WARNING,
    }
    beside |= {sqlite3.SQLITE_ERROR}  # below: it depends on what the file lacks
    results = {name for name in vars(sqlite3) if name.startswith("SQLITE_") and name.isupper()}
    results -= {name for name in results if name.startswith(("SQLITE_LIMIT", "SQLITE_DBCONFIG"))}
    authorizer = {name for name in results if name.startswith(_ACTIONS)}
    unnamed = {name for name in results - authorizer if getattr(sqlite3, name) & 0xFF not in kinds | beside}
    assert not unnamed


#: Names of the authorizer's actions and answers, numbers of another list.
_ACTIONS = (
    "SQLITE_CREATE", "SQLITE_DROP", "SQLITE_INSERT", "SQLITE_DELETE", "SQLITE_UPDATE", "SQLITE_SELECT", "SQLITE_READ",
    "SQLITE_PRAGMA", "SQLITE_TRANSACTION", "SQLITE_ATTACH", "SQLITE_DETACH", "SQLITE_ALTER", "SQLITE_REINDEX",
    "SQLITE_ANALYZE", "SQLITE_FUNCTION", "SQLITE_SAVEPOINT", "SQLITE_RECURSIVE", "SQLITE_DENY", "SQLITE_IGNORE",
)  # fmt: skip


def test_the_message_is_never_read() -> None:
    error = sqlite3.DatabaseError("database or disk is full; database is locked; disk I/O error")
    assert isinstance(explain(error, Path("mill.rebuild")), Bug)
    error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
    assert "is damaged" in str(explain(error, Path("mill.rebuild")))


def test_a_reference_to_what_is_gone_stays_the_users_trouble() -> None:
    assert isinstance(explain(said("SQLITE_CONSTRAINT_FOREIGNKEY"), Path("mill.rebuild")), NotThere)


def test_the_code_is_found_under_the_library() -> None:
    wrapped = OperationalError("SELECT 1", {}, said("SQLITE_FULL"))
    with pytest.raises(FileTrouble, match="disk is full"), explained(Path("mill.rebuild")):
        raise wrapped


def test_a_wrong_statement_is_a_bug_when_the_file_has_all_it_should(shop: Shop) -> None:
    with pytest.raises(Bug, match="SQLITE_ERROR"), shop.store.read() as connection:
        connection.exec_driver_sql("SELECT no_such_column FROM part")
    assert identify.add_place(shop.store, "shelf")


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        ("DROP TABLE clock", "it lacks the table “clock”"),
        ("ALTER TABLE place DROP COLUMN note", "it lacks the column “note” of “place”"),
    ],
)
def test_a_file_that_lacks_what_it_should_have_is_damaged(shop: Shop, spoil: str, words: str) -> None:
    store = shop.store
    raw = sqlite3.connect(shop.path, isolation_level=None)
    raw.execute("PRAGMA foreign_keys = OFF")
    raw.execute(spoil)
    raw.close()
    with pytest.raises(FileTrouble) as trouble, store.read() as connection:
        connection.exec_driver_sql("SELECT place.note, clock.id FROM place, clock")
    assert words in str(trouble.value)
    assert "newest backup" in str(trouble.value)


def test_text_that_is_no_utf8_is_trouble_of_the_file(tmp_path: Path) -> None:
    raw = sqlite3.connect(":memory:")
    with pytest.raises(FileTrouble, match="text that cannot be read"), explained(tmp_path / "mill.rebuild"):
        raw.execute("SELECT CAST(x'ff' AS TEXT)").fetchone()
    raw.close()


def test_a_closed_connection_is_a_bug(tmp_path: Path) -> None:
    raw = sqlite3.connect(":memory:")
    raw.close()
    with pytest.raises(Bug, match="ProgrammingError"), explained(tmp_path / "mill.rebuild"):
        raw.execute("SELECT 1")


def test_codes_that_say_nothing_have_no_words() -> None:
    assert words_for(0) is None
    assert words_for(sqlite3.SQLITE_ROW) is None


def _write_and_break(tx: Tx) -> None:
    tx.connection.exec_driver_sql("UPDATE part SET name = 'x'")
    tx.connection.exec_driver_sql("INSERT INTO place (no_such) VALUES (1)")


def test_a_bug_inside_an_act_stores_nothing_and_the_next_act_goes_on(shop: Shop) -> None:
    store: Store = shop.store
    before = store.undo_label()
    with pytest.raises(Bug), store.act(Act.EDIT, "x") as tx:
        _write_and_break(tx)
    assert store.undo_label() == before
    with store.read() as connection:
        assert connection.exec_driver_sql("SELECT COUNT(*) FROM part WHERE name = 'x'").scalar() == 0
    assert identify.add_place(store, "shelf")


def test_half_of_a_character_is_refused_by_an_act_and_kept_with_a_mark(shop: Shop) -> None:
    """Half of a pair comes by way of a cut paste; SQLite's driver cannot write it."""
    with pytest.raises(BadEntry, match=r"oil \?[^”]*” holds half of a character") as refused:
        add_fastener(shop.store, _a_removal(shop), "oil \ud800")
    assert refused.value.way_out == "Type that character again."
    with pytest.raises(BadEntry, match="half of a character"):
        set_owner(shop.store, "A. \udfff")
    shop.store.keep_entry("note", "oil \ud800", "not stored")
    with shop.store.read() as connection:
        assert [one.typed for one in kept_entries(connection)] == ["oil ?"]


def _a_removal(shop: Shop) -> int:
    say_removal(shop.store, shop.machine, shop.headstock, "spindle u", make=True)
    with shop.store.read() as connection:
        return int(connection.exec_driver_sql("SELECT MAX(id) FROM removal").scalar_one())
