"""Odd strings typed into every field of every record and every act that takes text.

    python -m tests.faults.strings [COUNT] [--seed N] [--file FILE] [--acts EVERY]

Each must be taken or refused with a sentence; nothing that is not finite may be stored; none may take longer than
100 ms of the processor (the first of its kind after a start excepted). At the end the file must check as clean as
before. Every field's reader takes each; one in ``--acts`` EVERY is stored by the act, as are all of what has no
reader of its own. Prints a table by field; last line:
``COUNT strings: S taken, R refused, N not finite, T tracebacks, slowest M ms``. Exit code 1 on any fault.
"""

from __future__ import annotations

import argparse
import gc
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
from rebuild.work.checks.check import check
from tests.faults.odd_values import ANY, WORDS
from tests.faults.string_doors import Door, every_door

MOST_MS = 100.0
ACT_EVERY = 8
#: What a key or a paste can bring besides the odd numbers and words of ``odd_values``.
SIGNS = (
    "\ud800", "a\x00b", "\u202eabc", "𝟏𝟐", "e\u0301" * 50, "\N{ZERO WIDTH SPACE}", "\r\n\r\n", "\x1b[31m", "\u2028",
    "<img src=x>", "=1+1", "'; DROP TABLE part; --", "%n%s", "../../x", "x" * 10_000, "9" * 5_000, "1-" * 3_000,
    "(" * 2_000, "1;" * 2_000, "1/" * 2_000, ",".join("1" * 900), "+" * 500 + "1", "1e" * 400, "-" * 2_000, " " * 9_000,
)  # fmt: skip


@dataclass(slots=True)
class Count:
    """What came of the strings typed into one field."""

    taken: int = 0
    refused: int = 0
    slowest_ms: float = 0.0
    slowest: str = ""


@dataclass(slots=True)
class Tally:
    """What came of the strings, by field."""

    doors: dict[str, Count] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)
    tracebacks: int = 0
    endless: int = 0

    @property
    def taken(self) -> int:
        """How many were read or stored."""
        return sum(one.taken for one in self.doors.values())

    @property
    def refused(self) -> int:
        """How many were refused with a sentence."""
        return sum(one.refused for one in self.doors.values())

    def line(self, count: int) -> str:
        """The last line."""
        slowest = max(self.doors.items(), key=lambda one: one[1].slowest_ms, default=("", Count()))
        return (
            f"{count} strings: {self.taken} taken, {self.refused} refused, {self.endless} not finite, "
            f"{self.tracebacks} tracebacks, slowest {slowest[1].slowest_ms:.0f} ms "
            f"({slowest[0]} {slowest[1].slowest!r})"
        )

    def table(self) -> str:
        """A line for each field."""
        head = f"{'field':<34} {'taken':>7} {'refused':>8} {'slowest ms':>11}"
        lines = [
            f"{name:<34} {one.taken:>7} {one.refused:>8} {one.slowest_ms:>11.1f}"
            for name, one in self.doors.items()
        ]
        return "\n".join([head, *lines])


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


def run(
    path: Path,
    count: int,
    seed: int,
    told: Callable[[str], None] = lambda line: None,
    act_every: int = ACT_EVERY,
) -> Tally:
    """Type ``count`` odd strings into a copy of a file that may be spoilt by it.

    A field's own reader takes each; one in ``act_every`` goes through the whole act, and each of a door without a
    reader of its own.
    """
    chance = random.Random(seed)
    tally = Tally()
    store = Store.open(path)
    gc.disable()
    try:
        with store.built_whole():
            store.follow_words()
            doors = every_door(store)
            for number in range(count):
                turn, at = divmod(number, len(doors))
                if at == 0:  # as the window does: never in the middle of an act
                    gc.collect()
                _one(doors[at], odd(chance), tally, first=turn == 0, whole=turn % act_every == 0)
                if (number + 1) % 5_000 == 0:
                    told(tally.line(number + 1))
    finally:
        gc.enable()
        store.close()
    tally.endless = _endless(path)
    left = check(path)
    tally.faults += [f"check: {line}" for line in left]
    return tally


def _one(door: Door, text: str, tally: Tally, *, first: bool, whole: bool) -> None:
    attempt = door.store if whole or door.read is None else door.read
    count = tally.doors.setdefault(door.name, Count())
    began = time.thread_time()
    try:
        attempt(text)
        count.taken += 1
    except RebuildError as refused:
        count.refused += 1
        if len(str(refused)) < 12:
            tally.faults.append(f"{door.name} {text[:60]!r}: refused without a sentence: {refused}")
    except Exception:  # noqa: BLE001 - the very thing that is looked for
        tally.tracebacks += 1
        tally.faults.append(f"{door.name} {text[:60]!r}:\n{traceback.format_exc(limit=-5)}")
    took = (time.thread_time() - began) * 1000
    if first:  # it loads and compiles what it needs, as after a start
        return
    if took > count.slowest_ms:
        count.slowest_ms, count.slowest = took, text[:20]
    if took > MOST_MS:
        tally.faults.append(f"{door.name} {text[:60]!r}: {took:.0f} ms")


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
    parser.add_argument("--acts", type=int, metavar="EVERY", default=ACT_EVERY)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "filled.rebuild"
        if given.file is None:
            filled(path)
        else:
            path.write_bytes(given.file.read_bytes())
            if photo_folder(given.file).is_dir():
                photo_folder(path).symlink_to(photo_folder(given.file).resolve(), target_is_directory=True)
        tally = run(path, given.count, given.seed, lambda line: print(line, flush=True), given.acts)
    print(tally.table())
    for fault in dict.fromkeys(tally.faults):
        print(fault)
    print(tally.line(given.count))
    return 1 if tally.faults or tally.endless else 0


if __name__ == "__main__":
    sys.exit(main())
