"""Every cell of every table made strange, some tables a time, and every page of the window walked with it.

    python -m tests.faults.strange_cells [--file FILE] [--tables A_TIME] [--only WORD]

Column after column is spoilt in a row of its own, so that none hides another. First with what it cannot be (no
UTF-8, no number, no word of its list): the check must name each. Then with what it can be and nobody types (below
nothing, too large, empty, markup without end): no page, check, summary or export may end in a traceback.
Last line: ``C cells made strange in T tables, U not named, F tracebacks``. Exit code 1 on any.
"""

from __future__ import annotations

import argparse
import shutil
import sqlite3
import sys
import tempfile
import traceback
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from rebuild.errors import RebuildError
from rebuild.exchange.folder import export_folder
from rebuild.store.cell_rules import CellRule, TableRules, every_rule
from rebuild.store.connect import read_only
from rebuild.store.photos import photo_folder
from rebuild.store.store import Store
from rebuild.store.unreadable import unreadable
from rebuild.work.checks.check import check
from rebuild.work.plan.rows_summary import shop_state

#: Text that is no UTF-8; it is no number and no word either.
NO_TEXT = b"4\xff"
#: Of the right kind, and never typed. The first of its kind is put in the first such column, and so on round.
STRANGE_TEXT = (
    "",
    "x" * 50_000,
    '<img src="file:///etc/hostname"><b>',
    "=1+1",
    "a\x00b",
    "\u202eabc",
    "../../x",
    "1e400",
)
STRANGE_NUMBER = (-1, 0, 2**62, -(2**62), 1e300, -1e300, 5e-324)


@dataclass(slots=True)
class Tally:
    """What came of it."""

    cells: int = 0
    tables: set[str] = field(default_factory=set)
    unnamed: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def line(self) -> str:
        """The last line."""
        return (
            f"{self.cells} cells made strange in {len(self.tables)} tables, {len(self.unnamed)} not named, "
            f"{len(self.faults)} tracebacks"
        )


def run(original: Path, at_a_time: int, walk: Callable[[Path], None], only: str = "") -> Tally:
    """Both ways for each group of tables, each in a copy of a closed file."""
    tally = Tally()
    rules = [rule for rule in every_rule() if only in rule.table]
    for start in range(0, len(rules), at_a_time):
        group = rules[start : start + at_a_time]
        for impossible in (True, False):
            with tempfile.TemporaryDirectory() as folder:
                path = Path(folder) / "strange.rebuild"
                shutil.copyfile(original, path)
                if photo_folder(original).is_dir():
                    photo_folder(path).symlink_to(photo_folder(original).resolve(), target_is_directory=True)
                made = _spoil(path, group, impossible=impossible)
                tally.cells += len(made)
                tally.tables |= {table for table, _column in made}
                if impossible:
                    tally.unnamed += [f"{table}.{column}" for table, column in made - _named(path)]
                _look(path, ", ".join(rule.table for rule in group), walk, tally)
    return tally


def _spoil(path: Path, group: Sequence[TableRules], *, impossible: bool) -> set[tuple[str, str]]:
    made = set()
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA ignore_check_constraints = ON")
        for rules in group:
            keys = [key for (key,) in raw.execute(f'SELECT rowid FROM "{rules.table}" ORDER BY rowid')]
            cells = [cell for cell in rules.cells if cell.column != rules.key]
            for at, cell in enumerate(cells if keys else ()):
                value = (NO_TEXT if cell.is_text else "abc") if impossible else _strange(cell, at)
                put = f'UPDATE OR IGNORE "{rules.table}" SET "{cell.column}" = '
                put += "CAST(? AS TEXT)" if isinstance(value, bytes) else "?"
                done = raw.execute(f"{put} WHERE rowid = ?", (value, keys[at % len(keys)])).rowcount
                if done:
                    made.add((rules.table, cell.column))
        raw.commit()
    return made


def _strange(cell: CellRule, at: int) -> str | int | float:
    return STRANGE_TEXT[at % len(STRANGE_TEXT)] if cell.is_text else STRANGE_NUMBER[at % len(STRANGE_NUMBER)]


def _named(path: Path) -> set[tuple[str, str]]:
    with closing(read_only(path)) as raw:
        return {(cell.table, cell.column) for cell in unreadable(raw)}


def _look(path: Path, tables: str, walk: Callable[[Path], None], tally: Tally) -> None:
    def summed() -> None:
        store = Store.open(path)
        try:
            shop_state(store)
        finally:
            store.close()

    looks: dict[str, Callable[[], object]] = {
        "check": lambda: check(path),
        "summary": summed,
        "export": lambda: export_folder(path, path.with_suffix(".out"), photos=True),
        "pages": lambda: walk(path),
    }
    for name, look in looks.items():
        try:
            look()
        except RebuildError:
            continue
        except Exception:  # noqa: BLE001 - the very thing that is looked for
            tally.faults.append(f"{name} with {tables}:\n{traceback.format_exc(limit=-6)}")


def main() -> int:
    """The command."""
    from tests.faults.corrupt import filled
    from tests.faults.pages import walk_pages

    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--file", type=Path, help="a closed project file; the demo unless given")
    parser.add_argument("--tables", type=int, metavar="A_TIME", default=8)
    parser.add_argument("--only", default="", help="tables with this word in their name")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        original = given.file or Path(folder) / "filled.rebuild"
        if given.file is None:
            filled(original)
        tally = run(original, given.tables, walk_pages, given.only)
    for fault in (*tally.unnamed, *tally.faults):
        print(fault)
    print(tally.line())
    return 1 if tally.unnamed or tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
