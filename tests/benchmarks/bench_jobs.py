"""Whole jobs on the large file without a window, each in a process of its own beside the bare thing it rests on."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Sequence
from contextlib import closing
from pathlib import Path

from tests.benchmarks import clock
from tests.benchmarks.children import surroundings
from tests.benchmarks.table import Line

#: For other numbers of machines the goal of fifty is taken in proportion.
SUMMARY_S, OF_MACHINES = 5.0, 50


def lines(large: Path, machines: int, folder: Path) -> list[Line]:
    """``summary``, ``check``, ``backup`` on a copy of the large file."""
    copy = folder / "jobs.rebuild"
    shutil.copyfile(large, copy)
    bare = _start(folder)
    sound = _floor(lambda: _sound(copy))
    both = _floor(lambda: _copied(copy, folder / "bare.copy"))
    summary = _job(["summary", str(copy)], folder)
    most = SUMMARY_S * machines / OF_MACHINES
    check = _job(["check", str(copy)], folder)
    backup = _job(["backup", str(copy), "--to", str(folder / "kept.rebuild")], folder)
    return [
        Line(f"summary of {machines} machines, against an empty start", summary, bare, f"under {most:g} s",
             summary < most, "s"),
        Line("check, against the integrity check", check, sound, "most 3 x", check <= 3 * sound, "s"),
        Line("backup, against copy and integrity check", backup, both, "most 1.5 x", backup <= 1.5 * both, "s"),
    ]  # fmt: skip


def _job(command: Sequence[str], folder: Path) -> float:
    """Seconds of one run of the program. Raises RuntimeError when it fails."""
    began = clock.of_children()
    done = subprocess.run(
        [sys.executable, "-m", "rebuild", *command],
        env=surroundings(folder),
        capture_output=True,
        text=True,
        check=False,
    )
    took = clock.of_children() - began
    if done.returncode:
        raise RuntimeError(f"{command[0]}: {done.stdout[-300:]} {done.stderr[-300:]}")
    return took


def _start(folder: Path) -> float:
    return _job(["--version"], folder)


def _floor(work: Callable[[], object]) -> float:
    return clock.timed(work)


def _sound(path: Path) -> None:
    with closing(sqlite3.connect(path)) as raw:
        if raw.execute("PRAGMA integrity_check").fetchone() != ("ok",):
            raise RuntimeError("the large file is not sound")


def _copied(path: Path, to: Path) -> None:
    with closing(sqlite3.connect(path)) as raw, closing(sqlite3.connect(to)) as copy:
        raw.backup(copy)
    _sound(to)
    to.unlink()
