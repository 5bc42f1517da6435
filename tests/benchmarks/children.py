"""Start a measuring process and hear what it says."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.benchmarks import clock


def said(what: str, file: Path, folder: Path) -> dict[str, list[float]]:
    """The figures of ``child_window`` by name. Raises RuntimeError with the end of what it printed."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.benchmarks.child_window", what, str(file), str(folder)],
        env=surroundings(folder),
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        raise RuntimeError(f"{what}: {done.stderr[-1500:]}")
    found: dict[str, list[float]] = json.loads(done.stdout.splitlines()[-1])
    return found


def surroundings(folder: Path) -> dict[str, str]:
    """No screen, no settings of whoever runs it; compiled modules are kept, as after a first start."""
    kept = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return kept | {
        "QT_QPA_PLATFORM": "offscreen",
        "XDG_CONFIG_HOME": str(folder),
        "PYTHONPYCACHEPREFIX": str(folder / "pyc"),
    }


@dataclass(frozen=True, slots=True)
class Spent:
    """What one process took: seconds on the run's clock, and the most memory it ever held [MB]."""

    seconds: float
    peak_mb: float


def spent(command: Sequence[str], folder: Path) -> Spent:
    """Run one command to its end; its peak is its own, not that of another child. Raises RuntimeError when it fails."""
    with (folder / "said").open("w+b") as told:
        began = time.perf_counter()
        started = subprocess.Popen(command, env=surroundings(folder), stdout=told, stderr=subprocess.STDOUT)
        peak, ended = 0.0, 0
        while not ended:
            peak = max(peak, _held_mb(started.pid))
            ended, status, used = os.wait4(started.pid, os.WNOHANG)
            time.sleep(0 if ended else _LOOK_S)
        wall = time.perf_counter() - began
        started.returncode = os.waitstatus_to_exitcode(status)
        if started.returncode:
            told.seek(0)
            raise RuntimeError(f"{command[2:4]}: {told.read()[-600:].decode(errors='replace')}")
    seconds = wall if clock.choose() == "wall" else used.ru_utime + used.ru_stime
    return Spent(seconds, peak or used.ru_maxrss / 1024)


#: Between two looks at the memory of a child [s].
_LOOK_S = 0.02


def _held_mb(pid: int) -> float:
    """The most a process held since it became itself; what ``wait`` tells is at least what its parent held."""
    try:
        said = Path(f"/proc/{pid}/status").read_text()
    except OSError:
        return 0.0
    held = [line.split()[1] for line in said.splitlines() if line.startswith("VmHWM:")]
    return int(held[0]) / 1024 if held else 0.0
