"""Cells of a project file that cannot be read as what they should be: found before a page stumbles over one.

The whole file is asked in a few statements a table, never through an index: its copy may be the good one.
Text is decoded by the megabyte: cells are joined with line ends between, and since a line end belongs to no
longer sign, the join can be decoded exactly when each cell can.
"""

from __future__ import annotations

import datetime as dt
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from rebuild.errors import FileTrouble
from rebuild.store.cell_rules import CellRule, TableRules, every_rule
from rebuild.store.changed import Rows
from rebuild.store.quoting import shown

_CHUNK = 20_000
#: The columns of the schema read last, by its words.
_KNOWN: dict[str | None, dict[str, set[str]]] = {}


@dataclass(frozen=True, slots=True)
class BadCell:
    """One cell that cannot be read: where, what lies there, what that is; what stands for it, or its row goes."""

    table: str
    row: int
    column: str
    value: str
    what: str
    stands_in: str | int | float | None
    leaves_row_out: bool
    dangles: bool = False

    def __str__(self) -> str:
        name = self.table.replace("_", " ").capitalize()
        shown = "The row is left out" if self.leaves_row_out else f"{self._stand_in_words()} stands for it"
        return (
            f"{name} no. {self.row}: {self.column} is “{self.value}”, which is {self.what}. {shown} "
            "until it is set right: File, “Cells that cannot be read…” in the window. “rebuild repair FILE --to NEW” "
            "makes a file without it."
        )

    def _stand_in_words(self) -> str:
        return "Nothing" if self.stands_in in (None, "") else f"“{self.stands_in}”"


def unreadable(raw: sqlite3.Connection) -> list[BadCell]:
    """Every bad cell of a file, table by table; tables and columns it lacks are passed over."""
    here = _columns(raw)
    filled = _filled(raw, here)
    return [
        cell
        for rules in every_rule()
        if rules.table in filled
        for cell in _of_table(raw, rules, here[rules.table], here)
    ]


def _columns(raw: sqlite3.Connection) -> dict[str, set[str]]:
    """The columns of every table; asked once for a schema, since asking takes half the time of a small file."""
    (schema,) = raw.execute(
        "SELECT group_concat(name || ' ' || sql, ';') FROM sqlite_master WHERE type = 'table' AND rootpage > 0"
    ).fetchone()
    if schema not in _KNOWN:
        _KNOWN.clear()
        _KNOWN[schema] = _asked(raw)
    return _KNOWN[schema]


def _asked(raw: sqlite3.Connection) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for table, column in raw.execute(
        "SELECT m.name, p.name FROM sqlite_master AS m, pragma_table_info(m.name) AS p "
        "WHERE m.type = 'table' AND m.rootpage > 0"  # an index of words tells nothing of its own
    ):
        found.setdefault(table, set()).add(column)
    return found


def _filled(raw: sqlite3.Connection, here: Iterable[str]) -> set[str]:
    """The tables with any row: in a young file most have none, and need not be asked about each cell."""
    asked = " UNION ALL ".join(
        f"SELECT '{rules.table}' WHERE EXISTS (SELECT 1 FROM \"{rules.table}\")"
        for rules in every_rule()
        if rules.table in here
    )
    return {table for (table,) in raw.execute(asked)} if asked else set()


def _of_table(
    raw: sqlite3.Connection, rules: TableRules, columns: set[str], here: dict[str, set[str]]
) -> Iterator[BadCell]:
    present = [rule for rule in rules.cells if rule.column in columns]
    for rule in _suspect(raw, rules.table, present):
        yield from _bad(raw, rules.table, rule)
    refers = [rule for rule in present if rule.parent in here]
    if refers and _may_dangle(raw, rules.table, refers):
        for rule in refers:
            yield from _dangling(raw, rules.table, rule)
    # A word of a list or a time that cannot be decoded is none of its kind: found by its own rule already.
    texts = [rule for rule in present if rule.is_text and rule.what == "no text"]
    for start, end in _undecodable(raw, rules.table, [rule.column for rule in texts]):
        for rule in texts:
            yield from _bad_text(raw, rules.table, rule, start, end)


def _suspect(raw: sqlite3.Connection, table: str, rules: list[CellRule]) -> list[CellRule]:
    """The columns in which anything is bad: one walk through a sound table, and one more where there is something."""
    if not rules:
        return []
    any_rule = " OR ".join(rule.bad for rule in rules)
    if raw.execute(f'SELECT 1 FROM "{table}" NOT INDEXED WHERE {any_rule} LIMIT 1').fetchone() is None:
        return []
    asked = ", ".join(f"TOTAL({rule.bad})" for rule in rules)
    any_bad = raw.execute(f'SELECT {asked} FROM "{table}" NOT INDEXED').fetchone()
    return [rule for rule, bad in zip(rules, any_bad, strict=True) if bad]


def _bad(raw: sqlite3.Connection, table: str, rule: CellRule) -> Iterator[BadCell]:
    rows = raw.execute(
        f'SELECT rowid, CAST("{rule.column}" AS BLOB), typeof("{rule.column}") '
        f'FROM "{table}" NOT INDEXED WHERE {rule.bad}'
    ).fetchall()
    for row, value, kind in rows:
        if rule.what == "no time" and kind == "text" and _is_time(value):
            continue
        yield _cell(table, row, rule, "nothing" if value is None else shown(value))


def _is_time(value: bytes) -> bool:
    try:
        dt.datetime.fromisoformat(value.decode())
    except ValueError:
        return False
    return True


def _cell(table: str, row: int, rule: CellRule, value: str) -> BadCell:
    return BadCell(table, row, rule.column, value, rule.what, rule.stands_in, rule.must)


def _may_dangle(raw: sqlite3.Connection, table: str, rules: list[CellRule]) -> bool:
    """SQLite's own look at a table's references; False only when it knows every one of them and finds them whole."""
    known = {
        (row[3], row[2])
        for row in raw.execute(f'PRAGMA foreign_key_list("{table}")')
        if row[4] in (None, "id")
    }
    if not {(rule.column, rule.parent) for rule in rules} <= known:
        return True
    return raw.execute(f'PRAGMA foreign_key_check("{table}")').fetchone() is not None


def _dangling(raw: sqlite3.Connection, table: str, rule: CellRule) -> Iterator[BadCell]:
    rows = raw.execute(
        f'SELECT t.rowid, t."{rule.column}" FROM "{table}" AS t NOT INDEXED '
        f"WHERE typeof(t.\"{rule.column}\") = 'integer' "
        f'AND NOT EXISTS (SELECT 1 FROM "{rule.parent}" AS p WHERE p.id = t."{rule.column}")'
    )
    for row, value in rows:
        what = f"the number of no {rule.parent.replace('_', ' ')} that is there"
        yield BadCell(table, row, rule.column, str(value), what, rule.stands_in, rule.must, dangles=True)


def _undecodable(raw: sqlite3.Connection, table: str, columns: list[str]) -> Iterator[tuple[int, int]]:
    """Ranges of rows in which some text is no UTF-8."""
    if not columns:
        return
    first, last = raw.execute(f'SELECT MIN(rowid), MAX(rowid) FROM "{table}"').fetchone()
    if first is None:
        return
    joined = ", ".join(f'GROUP_CONCAT("{name}", char(10))' for name in columns)
    question = f'SELECT {joined} FROM "{table}" NOT INDEXED WHERE rowid BETWEEN ? AND ?'
    start = first
    while start is not None and start <= last:
        end = start + _CHUNK - 1
        try:
            raw.execute(question, (start, end)).fetchone()
        except (sqlite3.OperationalError, UnicodeDecodeError) as trouble:
            if "decode" not in str(trouble):
                raise
            yield start, end
        start = raw.execute(f'SELECT MIN(rowid) FROM "{table}" WHERE rowid > ?', (end,)).fetchone()[0]


def _bad_text(raw: sqlite3.Connection, table: str, rule: CellRule, start: int, end: int) -> Iterator[BadCell]:
    rows = raw.execute(
        f'SELECT rowid, CAST("{rule.column}" AS BLOB) FROM "{table}" '
        f"WHERE rowid BETWEEN ? AND ? AND typeof(\"{rule.column}\") = 'text'",
        (start, end),
    ).fetchall()
    for row, value in rows:
        try:
            value.decode()
        except UnicodeDecodeError:
            whole = value.decode(errors="replace")
            yield BadCell(
                table, row, rule.column, shown(value), "no text in UTF-8", whole, leaves_row_out=False
            )


def in_words(cells: Iterable[BadCell]) -> str:
    """One sentence about all of them for the message line; empty when there are none."""
    found = list(cells)
    if not found:
        return ""
    rows = {(cell.table, cell.row) for cell in found if cell.leaves_row_out}
    first = found[0]
    what = f"{first.table.replace('_', ' ')} no. {first.row}, {first.column}: “{first.value}”"
    many = "One cell of this file" if len(found) == 1 else f"{len(found)} cells of this file"
    left = f"; {len(rows)} {'row is' if len(rows) == 1 else 'rows are'} left out" if rows else ""
    return (
        f"{many} cannot be read ({what}{'' if len(found) == 1 else ' and others'}){left}. "
        "Everything else is as it was. File, “Cells that cannot be read…” names each and sets it right; “rebuild "
        "repair” makes a sound copy."
    )


def gone(cells: Sequence[BadCell]) -> dict[str, Rows]:
    """The rows that are left out, by table, as views hear of rows removed."""
    rows: dict[str, set[int]] = {}
    for cell in cells:
        if cell.leaves_row_out:
            rows.setdefault(cell.table, set()).add(cell.row)
    return {table: Rows(removed=frozenset(found)) for table, found in rows.items()}


@contextmanager
def cannot_act(cells: Sequence[BadCell]) -> Iterator[None]:
    """Turn what an act stumbles over in a file with bad cells into a sentence; in a sound file it is a fault of ours.

    Raises:
        FileTrouble: the act met a cell that cannot be read; nothing of it was stored.
    """
    try:
        yield
    except (LookupError, ValueError, TypeError) as trouble:
        if not cells:
            raise
        raise FileTrouble(
            f"this could not be done. {in_words(cells)} Nothing of it was stored.", where=cells[0].table
        ) from trouble
