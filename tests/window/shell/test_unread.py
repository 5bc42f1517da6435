"""Qt keeps no source of a module imported after it, and its names stay as they are."""

from __future__ import annotations

import os
import subprocess
import sys

PROGRAM = """
import linecache
import rebuild.window.shell.start
import colorsys, rebuild.window.shell.frame, rebuild.window.figures.page
from PySide6.QtCore import QObject, Qt
assert QObject().objectName() == "" and Qt.Key.Key_A == 65
for module in (colorsys, rebuild.window.figures.page):
    assert module.__file__ not in linecache.cache, module.__file__
kept = [name for name in linecache.cache if "/rebuild/" in name]
assert not kept, kept[:5]
"""


def test_no_source_is_kept() -> None:
    """In a process of its own: what this one imported before is in its cache already."""
    said = subprocess.run(
        [sys.executable, "-c", PROGRAM],
        env=dict(os.environ, QT_QPA_PLATFORM="offscreen"),
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert said.returncode == 0, said.stderr[-1500:]
