"""Where a quick run of keys began: the whole of it belongs there, whatever takes the keyboard in the middle of it.

A page that opens late, a pane that fills, a dialog that comes: each may move the keyboard between two keys of a
burst. A person's keys lie further apart than ``GAP_MS``; those go to whatever has the focus.
"""

from __future__ import annotations

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

from rebuild.window.desk.gauge_keys import END_TEXTS, ENDS, GAP_MS, SHIFTS, STARTS, is_sign, one_of, stamp


class RunPlace:
    """Follows each key of a window and remembers the text field its run began in."""

    def __init__(self) -> None:
        self._field: QWidget | None = None
        self._last: float | None = None
        self._words = False
        #: Whether the key just heard goes on with a run that began with a letter: no value begins in it.
        self.in_words = False

    def stray(self, event: QKeyEvent, field: QWidget | None) -> QWidget | None:
        """The field this key belongs to, where that is not the field (None: no field) that has the focus now."""
        if event.key() in SHIFTS:
            return None
        at, sign = stamp(event), is_sign(event)
        quick = self._last is not None and 0 <= at - self._last <= GAP_MS
        if not quick:
            self._field = field
            self._words = sign and not one_of(event.text(), STARTS)
        self.in_words = quick and self._words
        began = self._field
        ended = event.key() in ENDS or event.text() in END_TEXTS
        self._last = at if sign else None
        if not quick or not (sign or ended) or began is field or began is None:
            return None
        return began if isValid(began) and began.isVisible() else None
