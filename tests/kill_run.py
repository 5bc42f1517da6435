"""``kill -9`` at random moments of scripted entry: nothing acknowledged is lost, the file checks clean.

    python -m tests.kill_run [RUNS] [--seed N]

A child process opens the same file again and again, enters readings with edits, pastes, undo and redo
between them, and prints each reading's id and text once the act has returned. The parent kills it at a
random moment (sometimes while it is still opening the file), then looks for every reading acknowledged
so far, by a connection of its own, and runs ``rebuild check``. Exit code 1 when anything is missing.
"""

from __future__ import annotations

import argparse
import random
import sqlite3
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

from rebuild.store.store import Store
from rebuild.words.readings import FeatureKind
from rebuild.work.checks.check import check
from rebuild.work.editing import acts as edit
from rebuild.work.log import acts as notes
from rebuild.work.machines import acts as identify
from rebuild.work.readings import acts as measure, acts_features as spec

DEFAULT_RUNS = 200
LONGEST_S = 0.6
FEATURES = 40


def make(path: Path) -> None:
    """A lathe with forty journals to read."""
    store = Store.create(path)
    machine = identify.add_machine(store, "Lathe")
    group = identify.add_subassembly(store, machine, "Headstock", "HS")
    for number in range(FEATURES):
        part = identify.add_part(store, machine, group, f"shaft {number}", f"HS-{number:02}")
        spec.add_feature(
            store,
            part,
            "journal",
            FeatureKind.OUTSIDE_DIAMETER,
            spec="25 -0.020/-0.041",
            stations=("near", "far"),
        )
    store.close()


def enter(path: Path, seed: int) -> None:
    """The child: enter readings until killed, acknowledging each after its act has returned."""
    rng = random.Random(seed)
    store = Store.open(path)
    print("open", flush=True)
    number = 0
    while True:
        number += 1
        typed = f"24.{rng.randint(940, 990)}"
        entry = measure.Entry(rng.randint(1, FEATURES), note=f"run {seed}, entry {number}")
        taken = measure.record_reading(store, typed, entry)
        print(f"{taken.reading_id} {typed}", flush=True)
        _something_else(store, rng, number)


def _something_else(store: Store, rng: random.Random, number: int) -> None:
    """What a user does between readings; undo and redo only of what is no reading."""
    if number % 7 == 0:
        part = rng.randint(1, FEATURES)
        edit.edit(store, "part", [part], {"condition": f"seen at {rng.random()}"})
        if rng.random() < 0.5:
            undone = store.undo()
            assert undone is not None
            assert undone.startswith("edit of"), undone
            if rng.random() < 0.5:
                store.redo()
    if number % 23 == 0:
        cells = [measure.Pasted("24.960", measure.Entry(rng.randint(1, FEATURES))) for _ in range(30)]
        measure.paste_readings(store, cells)
    if number % 31 == 0:
        key = notes.ask(store, 1, f"question {number}")
        edit.remove(store, "question", [key])


@dataclass(slots=True)
class Figures:
    """What the runs came to."""

    runs: int = 0
    acknowledged: int = 0
    killed_before_open: int = 0
    stored_but_not_acknowledged: int = 0
    lost: list[str] = field(default_factory=list)
    findings: list[str] = field(default_factory=list)

    def text(self) -> str:
        """The figures in lines."""
        lines = [
            f"runs killed with -9                 {self.runs}",
            f"  of them before the file was open  {self.killed_before_open}",
            f"readings acknowledged               {self.acknowledged}",
            f"  lost                              {len(self.lost)}",
            f"stored, killed before the words     {self.stored_but_not_acknowledged}",
            f"findings of rebuild check           {len(self.findings)}",
        ]
        return "\n".join([*lines, *self.lost[:5], *self.findings[:5]])


def run(path: Path, runs: int, seed: int) -> Figures:
    """Kill the child ``runs`` times; every acknowledged reading of all runs so far is looked for each time."""
    rng = random.Random(seed)
    figures = Figures()
    known: dict[int, str] = {}
    for number in range(runs):
        said = _one(path, rng, seed * 100_000 + number)
        acknowledged = {int(line.split()[0]): line.split()[1] for line in said if line != "open"}
        known |= acknowledged
        figures.runs += 1
        figures.acknowledged += len(acknowledged)
        figures.killed_before_open += "open" not in said
        _look(path, known, max(acknowledged, default=0), seed * 100_000 + number, figures)
        if figures.lost or figures.findings:
            break
    return figures


def _one(path: Path, rng: random.Random, seed: int) -> list[str]:
    """One child, killed; the whole lines it said."""
    child = subprocess.Popen(
        [sys.executable, "-m", "tests.kill_run", "--enter", str(path), "--seed", str(seed)],
        stdout=subprocess.PIPE,
        text=True,
    )
    assert child.stdout is not None
    said = []
    if rng.random() < 0.1:
        time.sleep(rng.uniform(0.1, 0.6))
    else:
        said.append(child.stdout.readline())
        time.sleep(rng.uniform(0.0, LONGEST_S))
    child.kill()
    said += child.stdout.readlines()
    child.wait()
    child.stdout.close()
    return [line.strip() for line in said if line.endswith("\n")]


def _look(path: Path, known: dict[int, str], newest: int, seed: int, figures: Figures) -> None:
    raw = sqlite3.connect(path)
    stored = dict(raw.execute("SELECT id, typed FROM reading"))
    unsaid = raw.execute(
        "SELECT COUNT(*) FROM reading WHERE id > ? AND note LIKE ?", (newest, f"run {seed},%")
    ).fetchone()[0]
    raw.close()
    figures.stored_but_not_acknowledged += int(unsaid) if newest else 0
    figures.lost += [
        f"reading {key} “{typed}” is not there" for key, typed in known.items() if stored.get(key) != typed
    ]
    figures.findings += check(path)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.kill_run")
    parser.add_argument("runs", nargs="?", type=int, default=DEFAULT_RUNS)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--enter", type=Path, help=argparse.SUPPRESS)
    return parser.parse_args()


def main() -> int:
    """Run and print the figures."""
    args = _arguments()
    if args.enter:
        enter(args.enter, args.seed)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "killed.rebuild"
        make(path)
        figures = run(path, args.runs, args.seed)
    print(figures.text())
    return int(bool(figures.lost or figures.findings or not figures.acknowledged))


if __name__ == "__main__":
    sys.exit(main())
