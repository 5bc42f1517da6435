"""Start a measuring process and hear what it says."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path


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
