"""Every figure of "Speed and memory" in one run: ``python -m tests.benchmarks``.

Exit code 1 when a limit is not kept. The repaint of the grid runs through pytest, whose widgets it needs.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.benchmarks import bench_find, bench_judging, bench_start, bench_store, bench_work
from tests.benchmarks.table import Line, table

_REPAINT = re.compile(r"repaint of (.+): ([\d.]+) ms, bare table ([\d.]+) ms")
_ENTER = re.compile(r"Enter to durable and shown.*p95 ([\d.]+) ms.*raw durable insert ([\d.]+) ms")


def main() -> int:
    """Measure, print the table, say whether every limit is kept."""
    with TemporaryDirectory() as own:
        folder = Path(own)
        lines = [
            *bench_judging.lines(),
            *bench_store.lines(folder),
            *bench_find.lines(folder),
            *_work(folder),
            *_window(),
            _start(folder),
        ]
    print(table(lines))
    return int(not all(line.kept for line in lines))


def _work(folder: Path) -> list[Line]:
    store, machine = bench_work.filled(folder)
    try:
        return bench_work.lines(store, machine)
    finally:
        store.close()


def _start(folder: Path) -> Line:
    bare, ours = bench_start.measure(bench_start.demo(folder), folder)
    most = bench_start.MOST_RATIO
    return Line("start to painted window, demo loaded", ours, bare, f"most {most:g} x", ours <= most * bare)


def _window() -> list[Line]:
    """The lines bench_grid prints, as lines of the table."""
    said = subprocess.run(
        [
            sys.executable,
            "-m",
            "pytest",
            "-q",
            "-s",
            "-p",
            "no:randomly",
            "-o",
            "addopts=--import-mode=importlib",
            str(Path(__file__).with_name("bench_grid.py")),
        ],
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
    found += [
        Line(
            "Enter to durable and shown, p95",
            float(p95) / 1e3,
            float(raw) / 1e3,
            "most 16 ms",
            float(p95) < 16.0,
        )
        for p95, raw in _ENTER.findall(said)
    ]
    if not found:
        print(said[-2000:], file=sys.stderr)
        found = [Line("the grid's benchmark did not run", 0.0, 1.0, "must run", kept=False)]
    return found


if __name__ == "__main__":
    sys.exit(main())
