"""No image in the journal can be altered unseen: not of acts taken back and sealed, nor of those before an upgrade."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from rebuild.model.records.places import Place
from rebuild.store.act import Act
from rebuild.store.check import journal_findings
from rebuild.store.file_tables import images_of
from rebuild.store.repair.repair import repair
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from tests.store.as_before import as_before

_ONE_OF_EACH = """
SELECT c.tbl, MIN(c.id), c.op, a.sealed, c.id = (SELECT MAX(m.id) FROM change AS m WHERE m.tbl = c.tbl
AND m.row_id = c.row_id) AS newest FROM change AS c JOIN act AS a ON a.id = c.act_id
WHERE c.tbl = 'place' GROUP BY c.op, a.sealed, newest
"""


def taken_back_and_sealed(store: Store) -> None:
    """Places put in, changed and removed; one of each taken back, done again and taken back, then another act."""
    for name in ("A1", "A2", "A3"):
        with store.act(Act.ADD_PLACE, name) as tx:
            tx.session.add(Place(kind="bag", name=name, note="found"))
    steps = "UPDATE place SET note = 'oily' WHERE id = 1", "DELETE FROM place WHERE id = 2"
    more = (
        "UPDATE place SET note = 'dry' WHERE id = 3",
        "INSERT INTO place (kind, name, note) VALUES ('bag', 'B', '')",
    )
    for step in (*steps, *more):
        with store.act(Act.EDIT, "place") as tx:
            tx.connection.exec_driver_sql(step)
    for _ in range(3):
        store.undo()
    store.redo()
    store.undo()
    with store.act(Act.EDIT, "place") as tx:
        tx.connection.exec_driver_sql("UPDATE place SET note = 'clean' WHERE id = 1")
        tx.connection.exec_driver_sql("INSERT INTO place (kind, name, note) VALUES ('bag', 'A4', '')")
    with store.act(Act.EDIT, "place") as tx:
        tx.connection.exec_driver_sql("DELETE FROM place WHERE name = 'A4'")


def altered(raw: sqlite3.Connection) -> Iterator[tuple[object, ...]]:
    """Each image of one entry of each kind, altered and put back; what it is while it is altered."""
    for table, entry, *kind in raw.execute(_ONE_OF_EACH).fetchall():
        for column in [f"{side}_{name}" for side in "ba" for name in images_of(raw, table)]:
            raw.execute("BEGIN")
            (was,) = raw.execute(f"SELECT {column} FROM j_{table} WHERE change_id = {entry}").fetchone()
            new = 1 if was is None else None
            raw.execute(f"UPDATE j_{table} SET {column} = ? WHERE change_id = ?", (new, entry))
            yield (*kind, column)
            raw.execute("ROLLBACK")


def test_no_image_is_altered_unseen(store: Store) -> None:
    taken_back_and_sealed(store)
    store.close()
    with closing(sqlite3.connect(store.path, isolation_level=None)) as raw:
        assert list(journal_findings(raw)) == []
        seen = {what: list(journal_findings(raw)) for what in altered(raw)}
    assert {what[:3] for what in seen} >= {("i", 1, 0), ("u", 1, 0), ("d", 1, 0), ("i", 0, 0), ("d", 0, 1)}
    assert [what for what, found in seen.items() if not found] == []
    assert all("Place no. " in line for found in seen.values() for line in found)


def test_an_entry_that_does_not_follow_is_named_with_its_act(store: Store) -> None:
    taken_back_and_sealed(store)
    store.close()
    with closing(sqlite3.connect(store.path)) as raw:
        entry, row = raw.execute(
            "SELECT MIN(c.id), c.row_id FROM change AS c JOIN act AS a ON a.id = c.act_id WHERE a.sealed AND c.op = 'u'"
        ).fetchone()
        follows, act = raw.execute(
            "SELECT MIN(id), act_id FROM change WHERE row_id = ? AND id > ?", (row, entry)
        ).fetchone()
        raw.execute("UPDATE j_place SET a_note = 'x' WHERE change_id = ?", (entry,))
        raw.commit()
    assert check(store.path) == [
        f"Place no. {row}: journal entry {follows} of act no. {act} does not follow from the one before it."
    ]


def before_0021(path: Path) -> None:
    """A file of 0020: all acts but the last two came before an upgrade that set notes the journal was not told of."""
    as_before(path, "0021")
    with closing(sqlite3.connect(path)) as raw:
        raw.execute(
            "UPDATE act SET crc = crc + 1 - sealed, sealed = 1 WHERE id < (SELECT MAX(id) - 1 FROM act)"
        )
        raw.execute(
            "UPDATE j_place SET a_note = 'before' WHERE change_id IN (SELECT MAX(c.id) FROM change AS c "
            "JOIN act AS a ON a.id = c.act_id WHERE a.sealed AND c.op <> 'd' AND c.row_id IN (1, 3) GROUP BY c.row_id)"
        )
        raw.commit()


def test_a_filled_file_is_brought_to_0021(store: Store) -> None:
    taken_back_and_sealed(store)
    store.close()
    with closing(sqlite3.connect(store.path)) as raw:
        stood = raw.execute("SELECT * FROM place ORDER BY id").fetchall()
        images = raw.execute("SELECT * FROM j_place ORDER BY change_id").fetchall()
    before_0021(store.path)
    assert check(store.path) == []  # what an upgrade sealed need not follow in a file of before
    upgraded = Store.open(store.path)
    label = upgraded.undo_label()
    upgraded.undo()
    upgraded.redo()
    upgraded.close()
    assert label == "edit place"
    assert check(store.path) == []
    with closing(sqlite3.connect(store.path)) as raw:
        assert raw.execute("SELECT * FROM place ORDER BY id").fetchall() == stood
        assert (
            raw.execute("SELECT * FROM j_place ORDER BY change_id LIMIT ?", (len(images),)).fetchall()
            == images
        )
        raw.execute("UPDATE place SET note = 'x' WHERE id = 3")
        raw.commit()
    assert check(store.path) == [
        "Place no. 3 was changed outside the program (note): the journal says otherwise."
    ]


def test_of_a_damaged_image_the_repaired_file_keeps_the_row(store: Store, tmp_path: Path) -> None:
    taken_back_and_sealed(store)
    store.close()
    with closing(sqlite3.connect(store.path)) as raw:
        raw.execute(
            "UPDATE j_place SET a_note = 'x' WHERE change_id = (SELECT MIN(c.id) FROM change AS c "
            "JOIN act AS a ON a.id = c.act_id WHERE a.sealed AND c.op = 'u')"
        )
        raw.commit()
        stood = raw.execute("SELECT * FROM place ORDER BY id").fetchall()
    assert check(store.path) != []
    made = repair(store.path, tmp_path / "new.rebuild")
    assert any("The history of 1 rows" in line for line in made.said)
    assert check(made.path) == []
    with closing(sqlite3.connect(made.path)) as raw:
        assert raw.execute("SELECT * FROM place ORDER BY id").fetchall() == stood
