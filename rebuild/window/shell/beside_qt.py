"""All that a start needs beside Qt, in one place that ``start`` imports before Qt.

The order matters: once Qt is there, its Python side reads the source of every module imported after it, to
see whether that module uses Qt. For the database alone that is some three hundred files.
"""

from __future__ import annotations

import html
import tomllib

import platformdirs

from rebuild.store import store
from rebuild.work.machines import rows_parts as part_sheet
from rebuild.work.machines import rows_tree as tree
from rebuild.work.readings import (
    rows_destination as destination,
)
from rebuild.work.readings import (
    rows_grid as grid,
)
from rebuild.work.readings import (
    rows_paste_block as block,
)
from rebuild.work.records import acts_settings as settings
from rebuild.work.records import ways_out as ways
from rebuild.work.steps import rows as tasks
from rebuild.work.where_was_i import rows as reentry

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
