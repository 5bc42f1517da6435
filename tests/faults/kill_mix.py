"""``kill -9`` in the middle of every kind of act: nothing acknowledged is lost, and the file checks clean.

    python -m tests.faults.kill_mix [KILLS] [--seed N]

A child opens the file and does acts at random, more than forty kinds of them, with backups, undo and redo
between them, and tells each act's number and fingerprint once it has returned. The parent kills it at a random
moment, now and then in the middle of an upgrade or of making a new file; then it looks for everything
acknowledged on that file so far by a connection of its own and runs ``rebuild check``. Each file is killed fifty
times. The last line is ``K kills, A acknowledged, L lost, F findings``; exit code 1 unless L and F are 0.
"""

from __future__ import annotations

import argparse
import multiprocessing
import os
import random
import shutil
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from rebuild.errors import RebuildError
from rebuild.store.entry import driver
from rebuild.store.mapped import make_ready
from rebuild.store.store import Store
from rebuild.work.checks.check import check
from tests.faults.acknowledged import Known, newest_act, print_of, unsound_backups, unsound_upgrade
from tests.faults.mixed_acts import KINDS, Hand
from tests.faults.older import make_older
from tests.faults.shop import NothingThere, make

DEFAULT_KILLS = 60
PER_FILE = 50
LONGEST_S = 0.5
#: How often a child does something rarer than acts.
BACKUPS, UPGRADES, NEW_FILES = 0.05, 0.06, 0.02
Say = Callable[[str], None]


# The child


def enter(path: Path, seed: int, say: Say) -> None:
    """Do acts at random until killed, acknowledging each after it has returned."""
    rng = random.Random(seed)
    store = Store.open(path)
    say("open")
    hand = Hand(store, seed)
    before = _newest(store)[0]
    while True:
        kind = rng.choice(list(KINDS))
        if kind == "redo" and store.redo_label() is None:
            kind = "undo"
        if rng.random() < BACKUPS:
            say(f"backup {hand.back_up().name}")
        if rng.random() < 0.1:
            store.make_whole()
        try:
            done = KINDS[kind](hand)
        except (RebuildError, NothingThere):
            continue
        if kind == "kept entry":
            say(f"kept {done}")
        act_id, told = _newest(store)
        if act_id != before:
            before = act_id
            say(f"act {act_id} {told} {kind}")


def _newest(store: Store) -> tuple[int, str]:
    with store.read() as connection:
        raw = driver(connection)
        act_id = newest_act(raw)
        return act_id, print_of(raw, act_id)


def upgrade(path: Path, _seed: int, say: Say) -> None:
    """Bring an old file up to date."""
    say("open")
    Store.open(path).close()
    say("upgraded")


def begin_new(path: Path, _seed: int, say: Say) -> None:
    """Make a new file."""
    say("open")
    Store.create(path).close()
    say("made")


def _child(what: Callable[[Path, int, Say], None], path: Path, seed: int, pipe: int) -> None:
    what(path, seed, lambda line: os.write(pipe, f"{line}\n".encode()) and None)
    time.sleep(60)


# The parent


@dataclass(slots=True)
class Figures:
    """What the kills came to."""

    kills: int = 0
    acknowledged: int = 0
    before_open: int = 0
    kinds: Counter[str] = field(default_factory=Counter)
    lost: list[str] = field(default_factory=list)
    findings: list[str] = field(default_factory=list)

    def result(self) -> str:
        """The line that counts."""
        ends = f"{len(self.lost)} lost, {len(self.findings)} findings"
        return f"{self.kills} kills, {self.acknowledged} acknowledged, {ends}"

    def text(self) -> str:
        """The figures in lines; the last one is the result."""
        rarest = ", ".join(f"{kind} {count}" for kind, count in self.kinds.most_common()[-5:])
        return "\n".join(
            [
                *self.lost[:10],
                *self.findings[:10],
                f"{len(self.kinds)} kinds of act acknowledged, the rarest: {rarest}",
                f"{self.before_open} kills before the file was open",
                self.result(),
            ]
        )


class Killer:
    """Kills children on one file after another and looks what is left."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.folder = folder
        self.rng = random.Random(seed)
        self.seed = seed
        self.figures = Figures()
        self._context = multiprocessing.get_context("spawn" if sys.platform == "win32" else "fork")
        self._template = folder / "template" / "shop.rebuild"
        make(self._template)
        self._old = folder / "template" / "old.rebuild"
        make_older(self._old)
        self._known = Known()
        self.path = folder / "none"

    def run(self, kills: int) -> Figures:
        """Kill so often, or until something is wrong or the run is interrupted."""
        try:
            self._run(kills)
        except KeyboardInterrupt:
            print("interrupted; what was done so far:", file=sys.stderr)
        return self.figures

    def _run(self, kills: int) -> None:
        for number in range(kills):
            if number % PER_FILE == 0:
                print(self.figures.result(), file=sys.stderr, flush=True)
                self._fresh(number)
            what = self.rng.random()
            if what < UPGRADES:
                self._upgrade(number)
            elif what < UPGRADES + NEW_FILES:
                self._new_file(number)
            else:
                self._acts(number)
            self.figures.kills += 1
            if self.figures.lost or self.figures.findings:
                break

    def _fresh(self, number: int) -> None:
        shutil.rmtree(self.path.parent, ignore_errors=True) if self.path.name == "shop.rebuild" else None
        here = self.folder / str(number)
        shutil.copytree(self._template.parent, here)
        self.path, self._known = here / "shop.rebuild", Known()

    def _acts(self, number: int) -> None:
        said = self._kill(enter, self.path, number)
        backups = set()
        for line in said:
            word, _, rest = line.partition(" ")
            if word == "act":
                act_id, told, kind = rest.split(" ", 2)
                self._known.acts[int(act_id)] = told
                self._count(kind)
            elif word == "kept":
                self._known.kept.add(rest)
                self._count("kept entry")
            elif word == "backup":
                backups.add(rest)
                self._count("backup")
        self._tell(self._known.lost(self.path), check(self.path))
        self._tell(*unsound_backups(self.path.parent, backups))

    def _upgrade(self, number: int) -> None:
        path = self.path.parent / f"old {number}.rebuild"
        shutil.copy(self._old, path)
        said = self._kill(upgrade, path, number)
        if "upgraded" in said:
            self._count("upgrade")
        self._tell(*unsound_upgrade(path, acknowledged="upgraded" in said))
        self._tell(*unsound_backups(self.path.parent, set()))

    def _new_file(self, number: int) -> None:
        path = self.path.parent / f"new {number}.rebuild"
        said = self._kill(begin_new, path, number)
        if "made" in said:
            self._count("new file")
            self._tell([] if path.exists() else [f"{path.name} is not there"], [])
        if path.exists():
            self._tell([], check(path))

    def _count(self, kind: str) -> None:
        self.figures.acknowledged += 1
        self.figures.kinds[kind] += 1

    def _tell(self, lost: list[str], findings: list[str]) -> None:
        self.figures.lost += lost
        self.figures.findings += findings

    def _kill(self, what: Callable[[Path, int, Say], None], path: Path, number: int) -> list[str]:
        """One child, killed; the whole lines it said."""
        mine, its = os.pipe()
        os.set_inheritable(its, True)
        child = self._context.Process(target=_child, args=(what, path, self.seed * 1_000_000 + number, its))
        child.start()
        os.close(its)
        with os.fdopen(mine, "r", encoding="utf-8") as told:
            said = []
            if self.rng.random() < 0.05:
                time.sleep(self.rng.uniform(0.0, 0.05))
            else:
                said.append(told.readline())
                time.sleep(self.rng.uniform(0.0, LONGEST_S))
            child.kill()
            said += told.readlines()
        code = child.exitcode if child.join() is None else None
        self.figures.before_open += "open\n" not in said
        if code != -9:
            self.figures.findings.append(f"the child of kill {number} ended by itself with {code}")
        return [line.strip() for line in said if line.endswith("\n")]


def get_ready() -> None:
    """Load what a child needs before it is forked, so that the kills fall into its acts."""
    import alembic.command  # noqa: F401

    for _ in make_ready():
        pass


def main() -> int:
    """Run and print the figures."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults.kill_mix")
    parser.add_argument("kills", nargs="?", type=int, default=DEFAULT_KILLS)
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()
    get_ready()
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "template").mkdir()
        figures = Killer(Path(folder), args.seed).run(args.kills)
    print(figures.text())
    return int(bool(figures.lost or figures.findings or not figures.acknowledged))


if __name__ == "__main__":
    sys.exit(main())
