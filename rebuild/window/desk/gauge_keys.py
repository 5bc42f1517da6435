"""The keys of a gauge: what it may send, how fast, and the marks of fields that go their own way with it."""

from __future__ import annotations

import re
import time

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

GAP_MS = 30
IDLE_MS = 300
LEAST = 3
#: An Enter this soon behind the last key of a burst that ended in nothing is its own, and answers nothing [ms].
LATE_END_MS = 1_000
#: The property of a field that asks for a measured size or looks for one: what is typed there stays there.
TAKES_GAUGE = "takes_gauge"
#: The property of a row of numbered ways out, whose keys digits are.
TAKES_DIGITS = "takes_digits"
#: The property of a field beside the values: what a gauge sends there is none of its own.
GIVES_BACK = "gives_back_gauge"

STARTS = frozenset("0123456789.,-+")
INSIDE = STARTS | frozenset(" \"'µmin/" + "cMINU")
END_TEXTS = ("\r", "\n")  #: some keyboards have a key of its own for the line feed
SHIFTS = (Qt.Key.Key_Shift, Qt.Key.Key_AltGr, Qt.Key.Key_CapsLock, Qt.Key.Key_NumLock)
ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab)
#: What a gauge sends: a sign, a number or an inch fraction, a unit. ``40 +0.2/-0.2`` is typed by somebody.
_READING = re.compile(r"[-+]?\s*[\d.,]+(\s+\d+)?(/\d+)?\s*[\"'µa-zA-Z]*\s*")


def stamp(event: QKeyEvent) -> float:
    """When a key was pressed [ms]; the clock where the system does not say."""
    return float(event.timestamp() or time.monotonic() * 1000.0)


def is_reading(text: str) -> bool:
    """Whether a text is one a gauge sends."""
    return _READING.fullmatch(text) is not None


def is_plain(event: QKeyEvent) -> bool:
    """Whether a key comes without Ctrl, Alt or another that makes it an order."""
    allowed = Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier
    return not event.modifiers() & ~allowed


def is_sign(event: QKeyEvent) -> bool:
    """Whether a key writes one character, once."""
    return (
        is_plain(event) and not event.isAutoRepeat() and len(event.text()) == 1 and event.text().isprintable()
    )


def one_of(text: str, allowed: frozenset[str]) -> bool:
    """Whether a text is one character of these."""
    return len(text) == 1 and text in allowed
