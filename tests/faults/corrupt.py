"""Eight random bytes anywhere in a filled file: found or harmless, never a traceback, never a silent change.

    python -m tests.faults.corrupt [COUNT] [--seed N] [--file FILE] [--export EVERY] [--pages EVERY]

Each time a copy of the file gets eight random bytes at a random place. Then it is checked, opened, summed up,
exported whole, written to and undone, as a user would. When the check finds nothing, every value a user entered
must be as it was. ``--export`` writes only one copy in EVERY out whole (half the time goes there), ``--pages`` walks
through every page of the window too, for one copy in EVERY.
Exit code 1 when there was a traceback or a silent change.
"""

from __future__ import annotations

import argparse
import random
import shutil
import sqlite3
import sys
import tempfile
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from rebuild.errors import RebuildError
from rebuild.exchange.folder import export_folder
from rebuild.store.act import Act
from rebuild.store.photos import photo_folder
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from rebuild.work.plan.rows_summary import shop_state

LENGTH = 8
#: Tables beside the journal, each row confirmed by its own checksum.
_BESIDE = ("act", "setting", "kept_entry")

Contents = dict[str, list[tuple[object, ...]]]


@dataclass(slots=True)
class Tally:
    """What came of all corruptions; ``faults`` are what must not be, with where it happened."""

    count: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)
    seen: list[str] = field(default_factory=list)  #: words of the history changed unseen, with where

    def line(self, runs: int) -> str:
        """The last line."""
        count = self.count
        return (
            f"{runs} corruptions: {count['found']} found, {count['harmless']} harmless, "
            f"{count['history']} words of the history changed unseen, {count['silent']} silent changes, "
            f"{count['traceback']} tracebacks"
        )


def contents(path: Path) -> Contents:
    """Every row of every table that holds what a user entered or did, and of the journal, by row number."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as raw:
        raw.text_factory = bytes
        names = [
            name.decode()
            for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
        ]
        wanted = [name for name in names if f"j_{name}" in names or name in _BESIDE or _is_journal(name)]
        return {name: raw.execute(f'SELECT * FROM "{name}" ORDER BY rowid').fetchall() for name in wanted}


def run(
    original: Path,
    runs: int,
    seed: int,
    pages: Callable[[Path], None] | None = None,
    every: int = 1,
    export_every: int = 1,
    told: Callable[[str], None] = lambda line: None,
) -> Tally:
    """Corrupt ``runs`` copies of a closed project file; returns what came of it."""
    rng = random.Random(seed)
    whole = original.read_bytes()
    was = contents(original)
    assert check(original) == [], "the file must be sound before it is corrupted"
    tally = Tally()
    with tempfile.TemporaryDirectory() as folder:
        for number in range(runs):
            path = Path(folder) / f"{number}.rebuild"
            at = _somewhere_written(rng, whole)
            path.write_bytes(whole[:at] + rng.randbytes(LENGTH) + whole[at + LENGTH :])
            if photo_folder(original).is_dir():
                photo_folder(path).symlink_to(photo_folder(original).resolve(), target_is_directory=True)
            walk = pages if pages is not None and number % every == 0 else None
            known = len(tally.faults)
            one(path, at, was, tally, walk, export=number % export_every == 0)
            for fault in tally.faults[known:]:
                told(fault)
            for left in Path(folder).iterdir():
                shutil.rmtree(left) if left.is_dir() and not left.is_symlink() else left.unlink()
            if (number + 1) % 100 == 0:
                told(tally.line(number + 1))
    return tally


def _somewhere_written(rng: random.Random, whole: bytes) -> int:
    """A place that holds anything: most of a young file is the empty rest of its pages."""
    while True:
        at = rng.randrange(len(whole) - LENGTH)
        if any(whole[at : at + LENGTH]):
            return at


def one(
    path: Path,
    at: int,
    was: Contents,
    tally: Tally,
    pages: Callable[[Path], None] | None,
    *,
    export: bool = True,
) -> None:
    """One corrupted file, looked at in every way."""
    before = len(tally.faults)
    found: list[str] = []
    with _caught(tally, at, "check"):
        try:
            found = check(path)
        except RebuildError as trouble:
            found = [str(trouble)]
    if found:
        tally.count["found"] += 1
    else:
        tally.count[_unseen(path, was, at, tally)] += 1
    with _caught(tally, at, "use"):
        _use(path)
    if export:
        with _caught(tally, at, "export"):
            export_folder(path, path.with_suffix(".out"), photos=True)
    if pages is not None:
        with _caught(tally, at, "pages"):
            pages(path)
    if len(tally.faults) > before:
        tally.count["traceback"] += any(not line.startswith("silent") for line in tally.faults[before:])


def _is_journal(table: str) -> bool:
    return table == "change" or table.startswith("j_")


def _unseen(path: Path, was: Contents, at: int, tally: Tally) -> str:
    now = contents(path)
    changed = [name for name in was if now.get(name) != was[name]]
    if not changed:
        return "harmless"
    entered = [name for name in changed if not _is_journal(name)]
    if not entered:
        tally.seen.append(f"word of the history at byte {at}: {', '.join(changed)}")
        return "history"
    tally.faults.append(f"silent change at byte {at}: {', '.join(entered)}")
    return "silent"


@contextmanager
def _caught(tally: Tally, at: int, doing: str) -> Iterator[None]:
    """A sentence is well; anything else is a fault, kept with the lines it came from."""
    try:
        yield
    except RebuildError:
        return
    except Exception:  # noqa: BLE001 - the very thing that is looked for
        tally.faults.append(f"traceback at byte {at}, {doing}:\n{traceback.format_exc(limit=-6)}")


def _use(path: Path) -> None:
    """Open, sum up, write, take back."""
    store = Store.open(path)
    try:
        shop_state(store)
        with store.act(Act.EDIT, "trial") as tx:
            tx.connection.exec_driver_sql(
                "UPDATE part SET note = 'trial' WHERE id = (SELECT MAX(id) FROM part)"
            )
        store.undo()
    finally:
        store.close()


def filled(path: Path) -> None:
    """The file that is corrupted unless another is named: the demo, with everything in it."""
    from rebuild.demo.where import ensure_demo

    ensure_demo(path)


def main() -> int:
    """The command."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("count", nargs="?", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--file", type=Path, help="a closed project file; the demo unless given")
    parser.add_argument("--export", type=int, metavar="EVERY", default=1)
    parser.add_argument("--pages", type=int, metavar="EVERY", default=0)
    given = parser.parse_args()
    pages = None
    if given.pages:
        from tests.faults.pages import walk_pages as pages
    with tempfile.TemporaryDirectory() as folder:
        original = given.file or Path(folder) / "filled.rebuild"
        if given.file is None:
            filled(original)
        tally = run(
            original,
            given.count,
            given.seed,
            pages,
            given.pages or 1,
            given.export,
            lambda line: print(line, flush=True),
        )
    print(*tally.seen, tally.line(given.count), sep="\n")
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
