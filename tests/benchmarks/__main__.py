"""Every figure of "What was measured" in one run: ``python -m tests.benchmarks [--machines 50]``.

Floors are bare things taken in the same run. Each row says whether its goal is kept; a row that is not kept is told,
not hidden, and is no failure of the run.
"""

from __future__ import annotations

import argparse
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks import (
    bench_find,
    bench_jobs,
    bench_judging,
    bench_start,
    bench_store,
    bench_window as window,
    bench_work,
    clock,
)
from tests.benchmarks.big_file import built
from tests.benchmarks.table import HEAD, Line, row

_REPAINT = re.compile(r"repaint of (.+): ([\d.]+) ms, bare table ([\d.]+) ms")


def main() -> int:
    """Measure and print the table as it grows ready."""
    ask = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    ask.add_argument("--machines", type=int, default=50, help="in the large file, which is built once")
    ask.add_argument("--jobs", action="store_true", help="only what is done on the file without a window")
    given = ask.parse_args()
    machines = given.machines
    which = "processor time: the machine is busy" if clock.choose() == "cpu" else "wall clock"
    print(f"{machines} machines, {which}\n{HEAD}\n{'-' * len(HEAD)}", flush=True)
    began = time.monotonic()
    with TemporaryDirectory() as own:
        found = bench_jobs.lines(machines, Path(own)) if given.jobs else _lines(machines, Path(own))
        for line in found:
            print(row(line), flush=True)
    print(f"all of it in {(time.monotonic() - began) / 60:.1f} minutes by the wall clock", flush=True)
    return 0


def _lines(machines: int, folder: Path) -> Iterator[Line]:
    one, large = built(1), built(machines)
    demo = bench_start.demo(folder)
    yield from _starting(demo, large, folder)
    yield from window.typing(demo, large, folder)
    yield from window.pages(large, folder)
    yield window.switching(one, large, folder)
    yield window.stalling(large, folder)
    yield from window.sorting(large, folder)
    yield from window.memory(demo, large, folder)
    yield from bench_jobs.lines(machines, folder)
    yield from bench_store.lines(folder, one, large)
    yield from bench_find.lines(folder)
    yield from _work(folder)
    yield from bench_judging.lines()
    yield from _repaint()


def _work(folder: Path) -> list[Line]:
    store, machine = bench_work.filled(folder)
    try:
        return bench_work.lines(store, machine)
    finally:
        store.close()


def _starting(demo: Path, large: Path, folder: Path) -> Iterator[Line]:
    bare, ours = bench_start.measure(demo, folder)
    most, usable = bench_start.MOST_RATIO, bench_start.MOST_USABLE
    yield Line("start to painted, demo, against a bare window with a table", ours, bare, f"most {most:g} x",
               ours <= most * bare)  # fmt: skip
    yield Line("start to all usable (the same: what is painted takes keys)", ours, bare, f"most {usable:g} x",
               ours <= usable * bare)  # fmt: skip
    _, there = bench_start.measure(large, folder)
    yield Line("start to painted, large against demo", there, ours, "most 1.2 x", there <= 1.2 * ours)


def _repaint() -> list[Line]:
    """The repaint of the grid, which needs the widgets of the tests."""
    command = [sys.executable, "-m", "pytest", "-q", "-s", "-p", "no:randomly", "-o",
               "addopts=--import-mode=importlib", str(Path(__file__).with_name("bench_grid.py"))]  # fmt: skip
    said = subprocess.run(
        command,
        env=dict(os.environ, QT_QPA_PLATFORM="offscreen"),
        capture_output=True,
        text=True,
        check=False,
    ).stdout
    found = [
        Line(
            f"repaint of {what}",
            float(ours) / 1e3,
            float(bare) / 1e3,
            "most 3 x",
            float(ours) <= 3 * float(bare),
        )
        for what, ours, bare in _REPAINT.findall(said)
    ]
    if not found:
        raise RuntimeError(f"the grid's benchmark did not run: {said[-1500:]}")
    return found


if __name__ == "__main__":
    sys.exit(main())
