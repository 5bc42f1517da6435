"""Odd strings typed into every field of every record and every act that takes text.

    python -m tests.faults.strings [COUNT] [--seed N] [--file FILE]

Each must be stored or refused with a sentence; nothing that is not finite may be stored; none may take longer than
100 ms of the processor (the first of its kind after a start excepted). At the end the file must check as clean as
before. Last line:
``COUNT strings: S stored, R refused, N not finite, T tracebacks, slowest M ms``. Exit code 1 on any fault.
"""

from __future__ import annotations

import argparse
import math
import random
import sqlite3
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

from rebuild.errors import RebuildError
from rebuild.store.photos import photo_folder
from rebuild.store.store import Store
from rebuild.words.readings import Stage
from rebuild.work.checks.check import check
from rebuild.work.editing.acts import edit
from rebuild.work.log.acts import ask, log_session
from rebuild.work.machines.acts import add_machine, add_part, add_place, add_subassembly
from rebuild.work.readings.acts import Entry, record_reading
from rebuild.work.records.field import Field
from rebuild.work.records.fields import FIELDS, RECORDS
from tests.faults.odd_values import ANY, WORDS

MOST_MS = 100.0
#: What a key or a paste can bring besides the odd numbers and words of ``odd_values``.
SIGNS = (
    "\ud800", "a\x00b", "\u202eabc", "𝟏𝟐", "e\u0301" * 50, "\N{ZERO WIDTH SPACE}", "\r\n\r\n", "\x1b[31m", "\u2028",
    "<img src=x>", "=1+1", "'; DROP TABLE part; --", "%n%s", "../../x", "x" * 10_000, "9" * 5_000, "1-" * 3_000,
    "(" * 2_000, "1;" * 2_000, "1/" * 2_000, ",".join("1" * 900), "+" * 500 + "1", "1e" * 400, "-" * 2_000, " " * 9_000,
)  # fmt: skip
Try = Callable[[str], object]


@dataclass(slots=True)
class Tally:
    """What came of the strings."""

    stored: int = 0
    refused: int = 0
    slowest_ms: float = 0.0
    slowest: str = ""
    faults: list[str] = field(default_factory=list)
    tracebacks: int = 0
    endless: int = 0

    def line(self, count: int) -> str:
        """The last line."""
        return (
            f"{count} strings: {self.stored} stored, {self.refused} refused, {self.endless} not finite, "
            f"{self.tracebacks} tracebacks, slowest {self.slowest_ms:.0f} ms ({self.slowest})"
        )


def odd(chance: random.Random) -> str:
    """One odd string."""
    pick = chance.random()
    if pick < 0.45:
        return chance.choice(ANY)
    if pick < 0.6:
        return chance.choice(WORDS)
    if pick < 0.75:
        return chance.choice(SIGNS)
    if pick < 0.9:
        return "".join(
            chance.choice("0123456789.,-+/eE ;:xmin\"'°CF") for _ in range(chance.randrange(1, 14))
        )
    return "".join(chr(chance.randrange(1, 0x2FF)) for _ in range(chance.randrange(1, 40)))


def every_try(store: Store) -> list[tuple[str, Try]]:
    """A name and a function of one text for every field of every record there is, and for acts that take text."""
    with store.read() as connection:
        ids = {
            name: connection.exec_driver_sql(f'SELECT MIN(id) FROM "{name}"').scalar_one() for name in RECORDS
        }
        feature = ids["feature"]
        instrument, machine, group = ids["instrument"], ids["machine"], ids["subassembly"]
    tries: list[tuple[str, Try]] = [
        (f"{record}.{one.name}", _editing(store, record, int(ids[record]), one))
        for record, fields in FIELDS.items()
        if record in ids and ids[record] is not None
        for one in fields
    ]
    return [
        *tries,
        ("reading", lambda text: record_reading(store, text, Entry(feature, None, Stage.AS_FOUND, instrument))),
        ("reading at", lambda text: record_reading(store, "25", Entry(feature, None, Stage.AS_FOUND, None, text),
                                                   confirmed=True)),
        ("new machine", lambda text: add_machine(store, text)),
        ("new group", lambda text: add_subassembly(store, machine, text, text)),
        ("new part", lambda text: add_part(store, machine, group, text, text, typed={"material": text})),
        ("new place", lambda text: add_place(store, text)),
        ("question", lambda text: ask(store, machine, text)),
        ("session", lambda text: log_session(store, machine, {"did": text, "hours": text})),
    ]  # fmt: skip


def _editing(store: Store, record: str, key: int, one: Field) -> Try:
    return lambda text: edit(store, record, [key], {one.name: text})


def run(path: Path, count: int, seed: int, told: Callable[[str], None] = lambda line: None) -> Tally:
    """Type ``count`` odd strings into a copy of a file that may be spoilt by it."""
    chance = random.Random(seed)
    tally = Tally()
    store = Store.open(path)
    try:
        with store.built_whole():
            tries = every_try(store)
            for number in range(count):
                name, attempt = tries[number % len(tries)]
                _one(store, name, attempt, odd(chance), tally, first=number < len(tries))
                if (number + 1) % 5_000 == 0:
                    told(tally.line(number + 1))
    finally:
        store.close()
    tally.endless = _endless(path)
    left = check(path)
    tally.faults += [f"check: {line}" for line in left]
    return tally


def _one(store: Store, name: str, attempt: Try, text: str, tally: Tally, *, first: bool) -> None:
    began = time.thread_time()
    try:
        attempt(text)
        tally.stored += 1
    except RebuildError as refused:
        tally.refused += 1
        if len(str(refused)) < 12:
            tally.faults.append(f"{name} {text[:60]!r}: refused without a sentence: {refused}")
    except Exception:  # noqa: BLE001 - the very thing that is looked for
        tally.tracebacks += 1
        tally.faults.append(f"{name} {text[:60]!r}:\n{traceback.format_exc(limit=-5)}")
    took = (time.thread_time() - began) * 1000
    if first:  # it loads and compiles what it needs, as after a start
        return
    if took > tally.slowest_ms:
        tally.slowest_ms, tally.slowest = took, f"{name} {text[:20]!r}"
    if took > MOST_MS:
        tally.faults.append(f"{name} {text[:60]!r}: {took:.0f} ms")


def _endless(path: Path) -> int:
    """How many stored numbers are not finite."""
    with closing(sqlite3.connect(path)) as raw:
        tables = [name for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return sum(
            isinstance(value, float) and not math.isfinite(value)
            for name in tables
            for row in raw.execute(f'SELECT * FROM "{name}"')
            for value in row
        )


def main() -> int:
    """The command."""
    from tests.faults.corrupt import filled

    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("count", nargs="?", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--file", type=Path, help="a project file, copied; the demo unless given")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "filled.rebuild"
        if given.file is None:
            filled(path)
        else:
            path.write_bytes(given.file.read_bytes())
            if photo_folder(given.file).is_dir():
                photo_folder(path).symlink_to(photo_folder(given.file).resolve(), target_is_directory=True)
        tally = run(path, given.count, given.seed, lambda line: print(line, flush=True))
    for fault in sorted(set(tally.faults)):
        print(fault)
    print(tally.line(given.count))
    return 1 if tally.faults or tally.endless else 0


if __name__ == "__main__":
    sys.exit(main())
