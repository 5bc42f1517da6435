"""All that a start needs beside Qt, in one place that ``start`` imports before Qt.

The order matters: once Qt is there, its Python side reads the source of every module imported after it, to
see whether that module uses Qt. For the database alone that is some three hundred files.
"""

from __future__ import annotations

import html
import tomllib

import platformdirs

from rebuild.store import store
from rebuild.work.machines import rows_card, rows_parts, rows_tree
from rebuild.work.readings import rows_destination, rows_grid, rows_paste_block
from rebuild.work.records import rows_settings, ways_out
from rebuild.work.steps import rows as rows_steps
from rebuild.work.where_was_i import rows as rows_where_was_i

__all__ = [
    "html",
    "platformdirs",
    "rows_card",
    "rows_destination",
    "rows_grid",
    "rows_parts",
    "rows_paste_block",
    "rows_settings",
    "rows_steps",
    "rows_tree",
    "rows_where_was_i",
    "store",
    "tomllib",
    "ways_out",
]
