"""Values as the text of a cell, so that they read back exactly."""

from __future__ import annotations

from rebuild.work.lists.rows_everything import Value


def cell_text(value: Value) -> str:
    """A value as text: every digit of a number, yes or no, nothing for nothing.

    >>> cell_text(0.1 + 0.2), cell_text(True), cell_text(None)
    ('0.30000000000000004', 'yes', '')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return repr(value) if isinstance(value, float) else str(value)
