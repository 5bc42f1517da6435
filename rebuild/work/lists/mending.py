"""A row of a list mended where it is looked over, and a row that was kept aside read back to be put in now."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from rebuild.errors import RebuildError
from rebuild.trade.sizes.number import read_whole
from rebuild.work.lists.batch import Batch
from rebuild.work.lists.fields import COLUMNS, What
from rebuild.work.lists.line import Line

#: Which row of which list, and what its columns are to be instead.
Changes = Mapping[tuple[What, int], Mapping[str, str]]

_BETWEEN = " | "
_MEANT_FOR = re.compile(r"import, (?P<what>.+), row (?P<row>\d+)")


def field_in_trouble(what: What, trouble: RebuildError) -> str:
    """The name of the column a sentence speaks of; empty when it speaks of none.

    >>> from rebuild.errors import BadEntry
    >>> field_in_trouble(What.PARTS, BadEntry("is taken.", where="Code")), field_in_trouble(What.PARTS, BadEntry("no"))
    ('code', '')
    """
    said = trouble.where.casefold()
    if not said:
        return ""
    columns = COLUMNS[what]
    named = [column.name for column in columns if said == column.head.casefold()]
    named += [column.name for column in columns if said in (one.casefold() for one in column.also)]
    return named[0] if named else ""


def mended(batches: Sequence[Batch], changes: Changes) -> tuple[Batch, ...]:
    """The lists with the changed columns of the changed rows."""
    if not changes:
        return tuple(batches)
    return tuple(
        replace(
            batch, lines=tuple(_with(line, changes.get((batch.what, line.number))) for line in batch.lines)
        )
        for batch in batches
    )


def _with(line: Line, changed: Mapping[str, str] | None) -> Line:
    return line if changed is None else replace(line, typed={**line.typed, **changed})


def as_kept(what: What, line: Line) -> tuple[str, str]:
    """What a row that is kept aside was meant for, and what it says."""
    typed = _BETWEEN.join(f"{name}: {text}" for name, text in line.typed.items() if text)
    return f"import, {what.value}, row {line.number}", typed


def read_kept(meant_for: str, typed: str) -> tuple[What, Line] | None:
    """The row an entry kept aside holds; None for an entry that is no row of a list.

    >>> read_kept("import, part list, row 7", "code: A-7 | name: nut | with flange | quantity: 2")[1].typed
    {'code': 'A-7', 'name': 'nut | with flange', 'quantity': '2'}
    >>> read_kept("a new unknown thing", "ring") is None
    True
    """
    found = _MEANT_FOR.fullmatch(meant_for)
    what = next((what for what in What if found is not None and what.value == found["what"]), None)
    if found is None or what is None:
        return None
    known = {column.name for column in COLUMNS[what]}
    cells: dict[str, str] = {}
    last = ""
    for piece in typed.split(_BETWEEN):
        name, _, text = piece.partition(": ")
        if name in known and name not in cells:
            cells[name], last = text, name
        elif last:
            cells[last] += _BETWEEN + piece
    return (what, Line(read_whole(found["row"], "Row"), cells)) if cells else None
