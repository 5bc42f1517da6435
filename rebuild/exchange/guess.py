"""Which list a table is, and which of its columns means what, by their headings; the user may say otherwise."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from rebuild.errors import BadEntry, FileTrouble
from rebuild.exchange.folder import NOTE, RECORDS
from rebuild.exchange.tables import Table, read_tables
from rebuild.work.lists.acts import Batch, Line
from rebuild.work.lists.fields import COLUMNS, Column, What

#: Columns that tell a list from the others, and what it cannot do without.
_NEEDED = {
    What.READINGS: ({"typed", "value_mm"}, {"feature_name", "feature"}),
    What.STATIONS: ({"feature"}, {"name"}),
    What.FEATURES: ({"name"}, {"spec", "part"}),
    What.PARTS: ({"name", "code"},),
    What.MACHINES: ({"name"}, {"scope", "serial", "year"}),
}


def plain(words: str) -> str:
    """A heading without case, signs and spaces.

    >>> plain("Reading, as typed"), plain("Qty.")
    ('readingastyped', 'qty')
    """
    return re.sub(r"[^a-z0-9°]", "", words.lower())


def mapping(what: What, heads: tuple[str, ...]) -> dict[int, str]:
    """Column index to the name of what it holds; a heading nobody knows is left out, no name is given twice."""
    found: dict[int, str] = {}
    for known in (_exact, _also):
        for at, head in enumerate(heads):
            if at in found or not plain(head):
                continue
            name = next((one.name for one in COLUMNS[what] if known(one, plain(head))), "")
            if name and name not in found.values():
                found[at] = name
    return found


def _exact(column: Column, head: str) -> bool:
    return head == plain(column.head)


def _also(column: Column, head: str) -> bool:
    return head in {plain(word) for word in column.also}


def which(table: Table) -> What:
    """Which list a table is: by its name if it came from an export, else by its headings.

    Raises:
        BadEntry: neither a part list nor readings.
    """
    for what in What:
        if plain(table.name) == plain(what.value):
            return what
    best = max(_NEEDED, key=lambda what: (_fits(what, table.heads), len(mapping(what, table.heads))))
    if not _fits(best, table.heads):
        raise BadEntry(
            "has no headings of a part list or of readings.",
            where=table.name,
            way_out="Head the columns: code, name, quantity; or part code, feature, stage, reading, unit.",
        )
    return best


def _fits(what: What, heads: tuple[str, ...]) -> bool:
    named = set(mapping(what, heads).values())
    return all(named & needed for needed in _NEEDED[what])


def lines(table: Table, columns: Mapping[int, str]) -> tuple[Line, ...]:
    """The rows of a table as lines of typed texts; rows in which nothing stands are passed over."""
    return tuple(
        Line(table.first_row + at, {name: row[column] for column, name in columns.items()})
        for at, row in enumerate(table.rows)
        if any(row[column].strip() for column in columns)
    )


def batches_of(path: Path) -> tuple[Batch, ...]:
    """What a file or an exported folder holds, read by its headings, in the order it must be imported.

    Raises:
        FileTrouble: unreadable, or a folder without lists.
        BadEntry: a table that is neither a part list nor readings.
    """
    if path.is_dir():
        files = [path / f"{what.value}.csv" for what in What if (path / f"{what.value}.csv").is_file()]
        if not files:
            raise FileTrouble(
                "holds no part list and no readings.",
                where=path.name,
                way_out=f"Choose a folder made by an export (it has a {NOTE} and {RECORDS}).",
            )
        tables = [table for file in files for table in _tables_or_none(file)]
    else:
        tables = list(read_tables(path))
    made = [(which(table), table) for table in tables]
    order = list(What)
    made.sort(key=lambda pair: order.index(pair[0]))
    return tuple(Batch(what, lines(table, mapping(what, table.heads))) for what, table in made)


def _tables_or_none(file: Path) -> tuple[Table, ...]:
    """The tables of an exported list; one without rows is simply empty."""
    if file.read_text(encoding="utf-8-sig").count("\n") <= 1:
        return ()
    return read_tables(file)
