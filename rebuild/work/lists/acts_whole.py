"""Bring a whole exported file in: every table, every value as it was, under new numbers, in one act."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from rebuild.errors import BadEntry, Stopped
from rebuild.model.tables.every import whole as every
from rebuild.store.act import Act
from rebuild.store.beside import Tell, unheard
from rebuild.store.entry import driver
from rebuild.store.journaling import journal_all
from rebuild.store.store import Store
from rebuild.words.counted import counted
from rebuild.work.lists.plain_rows import Value
from rebuild.work.lists.whole import Whole, WholeTable

#: Of the shop, not of a machine: a row that is there already, word for word, is the same one.
_SHARED = ("instrument", "means", "place", "stock_item", "wear_rule", "day_off", "work_spell")
#: Rows stored between two looks whether the user wants to stop: a few milliseconds.
EACH = 200


def bring_in_whole(store: Store, whole: Whole, tell: Tell = unheard) -> str:
    """Store everything in one act; returns what came, in words. A machine whose name is taken gets another.

    Raises:
        BadEntry: a row refers to one that is not in the export; nothing is stored.
        Stopped: ``tell`` said so; nothing is stored.
    """
    looked = _Looked(whole.count, tell)
    with store.act(Act.IMPORT, "") as tx:
        raw = driver(tx.connection)
        journal_all(raw)  # the driver itself is told what to write
        raw.execute("PRAGMA defer_foreign_keys = ON")
        numbers = _Numbers(raw)
        for table in whole.tables:
            numbers.give(table)
        for table in whole.tables:
            _put(raw, table, numbers, looked)
        machines = next((len(table.rows) for table in whole.tables if table.name == "machine"), 0)
        words = f"{counted(machines, 'machine')} with {counted(whole.count, 'row')}"
        tx.subject = f"of {words}"
    there = {key for key, _ in whole.settings if store.setting(key)}
    for key, value in whole.settings:
        if key not in there:
            store.set_setting(key, value)
    for meant_for, typed, why in whole.kept:
        store.keep_entry(meant_for, typed, why)
    return words


class _Looked:
    """How many of the rows are stored; asks now and then whether to go on."""

    def __init__(self, whole: int, tell: Tell) -> None:
        self._whole, self._tell, self._done = max(whole, 1), tell, 0

    def counted(self, rows: Iterator[list[Value]]) -> Iterator[list[Value]]:
        """The rows as they pass. Raises Stopped."""
        for row in rows:
            if self._done % EACH == 0 and not self._tell(self._done / self._whole, "Storing the rows"):
                raise Stopped("It was stopped; nothing was stored.")
            self._done += 1
            yield row


class _Numbers:
    """The new number of every row; rows of the shop that are there already keep theirs."""

    def __init__(self, raw: sqlite3.Connection) -> None:
        self._raw = raw
        self.new: dict[str, dict[Value, int]] = {}
        self.there: dict[str, set[Value]] = {}

    def give(self, table: WholeTable) -> None:
        """Number the rows of a table."""
        (last,) = self._raw.execute(
            "SELECT COALESCE((SELECT seq FROM sqlite_sequence WHERE name = ?), 0)", (table.name,)
        ).fetchone()
        given: dict[Value, int] = {}
        there: set[Value] = set()
        for row in table.rows:
            same = self._same(table, row) if table.name in _SHARED else None
            if same is not None:
                there.add(row[0])
            else:
                last += 1
            given[row[0]] = same if same is not None else last
        self.new[table.name], self.there[table.name] = given, there

    def _same(self, table: WholeTable, row: tuple[Value, ...]) -> int | None:
        """A row there already that says the same; a wear rule is the same by its key."""
        own = [name for name in table.columns if name != "id" and not name.endswith("_id")]
        names = ["key"] if table.name == "wear_rule" else own
        values = [row[table.columns.index(name)] for name in names]
        same = " AND ".join(f'"{name}" IS ?' for name in names)
        found = self._raw.execute(f'SELECT id FROM "{table.name}" WHERE {same} LIMIT 1', values).fetchone()
        return None if found is None else found[0]

    def of(self, table: str, old: Value, where: str) -> int:
        """The new number of a row that is referred to. Raises BadEntry."""
        new = self.new.get(table, {}).get(old)
        if new is None:
            raise BadEntry(
                f"is no {table.replace('_', ' ')} of the export.",
                where=where,
                value=str(old),
                way_out="Export again from the file it came from; nothing was stored.",
            )
        return new


def _put(raw: sqlite3.Connection, table: WholeTable, numbers: _Numbers, looked: _Looked) -> None:
    refers = {
        column.name: next(iter(column.foreign_keys)).column.table.name
        for column in every().tables[table.name].columns
        if column.foreign_keys
    }
    taken = (
        {name for (name,) in raw.execute("SELECT name FROM machine")} if table.name == "machine" else set()
    )
    names = ", ".join(f'"{name}"' for name in table.columns)
    marks = ", ".join("?" * len(table.columns))
    raw.executemany(
        f'INSERT INTO "{table.name}" ({names}) VALUES ({marks})',
        looked.counted(_renumbered(table, numbers, refers, taken)),
    )


def _renumbered(
    table: WholeTable, numbers: _Numbers, refers: dict[str, str], taken: set[str]
) -> Iterator[list[Value]]:
    for row in table.rows:
        if row[0] in numbers.there[table.name]:
            continue
        where = f"{table.name.replace('_', ' ')} no. {row[0]}"
        made: list[Value] = [numbers.new[table.name][row[0]]]
        for name, value in zip(table.columns[1:], row[1:], strict=True):
            if name in refers and value is not None:
                value = numbers.of(refers[name], value, where)
            elif name == "name" and table.name == "machine":
                value = _free(str(value), taken)
            elif name == "was_number" and table.name == "merged_part":
                value = 0  # a number of the other file's tags, which mean nothing here
            made.append(value)
        yield made


def _free(name: str, taken: set[str]) -> str:
    """A name no machine has."""
    free, number = name, 2
    while free in taken:
        free, number = f"{name} ({number})", number + 1
    taken.add(free)
    return free
