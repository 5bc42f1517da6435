"""All that a start needs beside Qt, in one place that ``start`` imports before Qt.

The order matters: once Qt is there, its Python side reads the source of every module imported after it, to
see whether that module uses Qt. For the database alone that is some three hundred files.
"""

from __future__ import annotations

import html
import tomllib

import platformdirs

from rebuild.store import store
from rebuild.work import settings, ways
from rebuild.work.lookup import block, destination, grid, part_sheet, reentry, tasks, tree

__all__ = [
    "block",
    "destination",
    "grid",
    "html",
    "part_sheet",
    "platformdirs",
    "reentry",
    "settings",
    "store",
    "tasks",
    "tomllib",
    "tree",
    "ways",
]
