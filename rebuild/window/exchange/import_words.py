"""What is said of a table and its rows before they come in."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import BadEntry
from rebuild.exchange.guess import which
from rebuild.exchange.tables import Table
from rebuild.words.counted import counted
from rebuild.work.lists.acts import Looked
from rebuild.work.lists.fields import What

#: Of the files a list is read from.
ENDINGS = (".csv", ".tsv", ".txt", ".xlsx", ".xlsm", ".xls", ".ods")
KINDS = f"Tables ({' '.join(f'*{ending}' for ending in ENDINGS)});;Any file (*)"


def kind_of(table: Table) -> tuple[What | None, str]:
    """Which list a table is; or none, and the sentence that says so."""
    try:
        return which(table), ""
    except BadEntry as none:
        return None, f"{none.where} {none.what} Say below what each column means."


#: The columns that name what a row is of, in the order they are said.
_NAMING = ("part_code", "part_name", "feature_name", "code", "name", "title", "what")


def row_words(row: Looked, lists: int) -> tuple[str, str, str]:
    """Which row, what it would become (of one that is stopped: what it names), and what stops it."""
    where = f"{row.what.value} {row.line.number}" if lists > 1 else str(row.line.number)
    return where, row.says or _named(row), row.trouble


def _named(row: Looked) -> str:
    """What a row speaks of, by the columns that name it."""
    return " ".join(filter(None, (row.line.text(name) for name in _NAMING)))


def sum_words(good: int, whole: int, bad: Sequence[Looked]) -> str:
    """How many rows can be stored, and what to do about the others."""
    words = [f"{good} of {counted(whole, 'row')} can be stored, in one act."]
    odd = sum(row.odd for row in bad)
    if odd:
        words.append(f"{odd} readings look odd: take them as they are, or mend them here.")
    if len(bad) > odd:
        here = "here or in the file" if any(row.field for row in bad) else "in the file"
        words.append(f"{len(bad) - odd} cannot be stored: mend them {here}, or keep them aside.")
    return " ".join(words)
