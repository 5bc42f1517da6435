"""What an act notes does not hang on when the triggers came: a few before each statement, or all before the first."""

from __future__ import annotations

import ast
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import Connection, delete, select, text, update

import rebuild
from rebuild.model.shadows import journaled as journaled_tables
from rebuild.model.tables.every import whole
from rebuild.store import entry
from rebuild.store.journaling import journal_all, journaled
from tests.depth import examples

if TYPE_CHECKING:
    from tests.conftest import Shop

Noted = set[tuple[str, int, str]]
Write = Callable[[Connection], object]
_PARENTS = sorted({key.column.table.name for table in whole().tables.values() for key in table.foreign_keys})


def noted(shop: Shop, write: Write, *, all_at_once: bool) -> Noted:
    """What the journal holds of one act that is then taken back whole, on a connection of its own."""
    engine = journaled(shop.path)
    found: Noted = set()
    with engine.connect() as connection, connection.begin() as transaction:
        raw = entry.driver(connection)
        if all_at_once:
            journal_all(raw)
        act = entry.begin(raw, "IMPORT", "", "w", None)
        write(connection)
        found = set(raw.execute("SELECT tbl, row_id, op FROM change WHERE act_id = ?", (act,)).fetchall())
        transaction.rollback()
    engine.dispose()
    return found


def test_a_row_that_goes_takes_the_same_rows_with_it(shop: Shop) -> None:
    """Against all triggers there from the start; every table that others refer to."""
    shop.close()
    told = 0
    few_of_them = _PARENTS if examples(1) > 1 else ["machine", "part", "feature", "task", "place", "fit"]
    for name in few_of_them:
        write = partial(Connection.execute, statement=delete(whole().tables[name]))
        few = noted(shop, write, all_at_once=False)
        assert few == noted(shop, write, all_at_once=True), name
        told += len({table for table, _, _ in few}) > 1
    assert told >= 4  # machine, subassembly, part and feature at least took others with them


@pytest.mark.parametrize(
    "words",
    [
        "UPDATE part SET name = name || '!'",
        "update or fail main.\"part\" set name = name || '!'",
        "WITH one AS (SELECT MIN(id) AS id FROM part) UPDATE part SET name = 'x' WHERE id = (SELECT id FROM one)",
        "  INSERT OR REPLACE INTO task SELECT * FROM task",
        'DELETE FROM "task"',
    ],
)
def test_a_statement_in_words_is_noted(shop: Shop, words: str) -> None:
    few = noted(shop, lambda connection: connection.execute(text(words)), all_at_once=False)
    assert few
    assert few == noted(shop, lambda connection: connection.exec_driver_sql(words), all_at_once=True)


def test_after_a_rollback_the_next_act_is_noted_again(shop: Shop) -> None:
    """A rollback takes the triggers away that were made within it; a savepoint's does too."""
    shop.close()
    engine = journaled(shop.path)
    part = whole().tables["part"]
    changed = update(part).values(name=part.c.name + "!")
    for _ in range(2):
        with engine.connect() as connection, connection.begin() as transaction:
            act = entry.begin(entry.driver(connection), "IMPORT", "", "w", None)
            with connection.begin_nested() as savepoint:
                connection.execute(changed)
                savepoint.rollback()
            connection.execute(changed)
            rows = connection.scalar(text("SELECT COUNT(*) FROM change WHERE act_id = :act"), {"act": act})
            assert rows == len(connection.execute(select(part.c.id)).all()) > 0
            transaction.rollback()
    engine.dispose()


def test_an_act_brings_what_it_writes_and_no_more(shop: Shop) -> None:
    """Two hundred triggers cost more than most acts."""
    shop.close()
    engine = journaled(shop.path)
    with engine.begin() as connection:
        entry.begin(entry.driver(connection), "IMPORT", "", "w", None)
        connection.execute(update(whole().tables["machine"]).values(name="another"))
        made = set(connection.scalars(text("SELECT tbl_name FROM temp.sqlite_master WHERE type = 'trigger'")))
    engine.dispose()
    assert made == {"machine"}
    assert len(list(journaled_tables(whole()))) > 60


def test_only_the_store_and_a_whole_file_brought_in_write_on_the_driver() -> None:
    """What is told to the driver itself is not looked at before it writes."""
    root = Path(rebuild.__file__).parent
    writing = {
        path.relative_to(root).as_posix()
        for path in root.rglob("*.py")
        if path.parent.name != "store" and path.parent.parent.name != "store"
        if "driver(" in (source := path.read_text("utf-8"))
        for node in ast.walk(ast.parse(source))
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "driver"
    }
    assert writing == {"work/lists/acts_whole.py", "work/find/rows.py"}  # the second only reads
