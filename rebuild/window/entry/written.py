"""What is typed into a text field stays there; a gauge's whole value is taken out of it again at its Enter.

Keys go into a field at once, so nothing tells a gauge from a person before the Enter. A value is the gauge's
when the page takes values and nothing but a number (and a unit) came, each key and the Enter within ``GAP_MS`` of
the one before by the times of the keys, in a field for words where nobody had typed for ``BY_HAND_MS``.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QTextCursor
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QSpinBox,
    QTextEdit,
    QWidget,
)
from shiboken6 import isValid

from rebuild.window.desk.gauge_keys import (
    END_TEXTS,
    ENDS,
    GAP_MS,
    GIVES_BACK,
    INSIDE,
    LEAST,
    SHIFTS,
    STARTS,
    TAKES_GAUGE,
    is_plain,
    is_reading,
    one_of,
    stamp,
)

#: A key this long before a burst was a person's, and so is what follows it [ms].
BY_HAND_MS = 2_000
#: The names of fields that ask for words: what a gauge sends is none of theirs.
_WORDS = re.compile(
    r"\b(note|notes|reason|why|what|who|where|name|new|did|next|orientation|material|tools?|differs)\b", re.I
)


@dataclass(frozen=True, slots=True)
class Before:
    """What a field held before a burst: its text, and the selection or the caret in it."""

    text: str
    start: int
    end: int


class WrittenBurst:
    """Follows the keys that go into text fields, one field at a time."""

    def __init__(
        self,
        lands: Callable[[QWidget], bool] = lambda _field: False,
        beside: Callable[[], bool] = lambda: True,
    ) -> None:
        self._lands = lands  # whether a field is the very one the next value goes to
        self._beside = beside  # whether the page takes values: what is written on another is its fields' own
        self._field: QWidget | None = None
        self._before: Before | None = None
        self._run = ""
        self._last: float | None = None

    def forget(self) -> None:
        """What comes next begins anew."""
        self._field, self._before, self._run, self._last = None, None, "", None

    def key(self, event: QKeyEvent, field: QWidget) -> str:
        """A key on its way into a field; the gauge's value where this Enter ends one, taken out again. Else empty."""
        if event.key() in SHIFTS:
            return ""
        if field is not self._field:
            self.forget()
            self._field = field
        at, text = stamp(event), event.text()
        if event.key() in ENDS or text in END_TEXTS:
            return self._ended(event, at)
        plain = is_plain(event) and not event.isAutoRepeat()
        if plain and self._run and self._is_quick(at) and one_of(text, INSIDE):
            self._run += text
        else:
            self._begin(field, at, text if plain and one_of(text, STARTS) else "")
        self._last = at
        return ""

    def _is_quick(self, at: float) -> bool:
        return self._last is not None and 0 <= at - self._last <= GAP_MS

    def _begin(self, field: QWidget, at: float, text: str) -> None:
        by_hand = self._last is not None and 0 <= at - self._last <= BY_HAND_MS
        self._before = None if by_hand or not text else self._held_by(field)
        self._run = text if self._before is not None else ""

    def _held_by(self, field: QWidget) -> Before | None:
        given = self._lands(field) or (self._beside() and gives_back(field))
        return _before(field) if given else None

    def _ended(self, event: QKeyEvent, at: float) -> str:
        run, before, field = self._run, self._before, self._field
        whole = len(run) >= LEAST and self._is_quick(at) and is_reading(run) and is_plain(event)
        enter = event.key() != Qt.Key.Key_Tab
        self._run, self._before, self._last = "", None, at
        if not (whole and enter) or before is None or field is None or not _put_back(field, before, run):
            return ""
        self.forget()  # it was the gauge: nobody typed here
        return run


def writing() -> QWidget | None:
    """The field that has the focus and takes text, or None."""
    focus = QApplication.focusWidget()
    if isinstance(focus, QComboBox):
        return focus if focus.isEditable() else None
    if isinstance(focus, QLineEdit | QTextEdit | QPlainTextEdit | QAbstractSpinBox):
        return None if focus.isReadOnly() else focus
    return None


def gives_back(field: QWidget) -> bool:
    """Whether a gauge's value is none of this field's: one for words, not one for numbers nor one that looks for."""
    if field.property(GIVES_BACK):
        return True
    if field.property(TAKES_GAUGE):
        return False
    if isinstance(field, QTextEdit | QPlainTextEdit):
        return True
    return isinstance(field, QLineEdit) and _asks_for_words(field)


def _asks_for_words(field: QLineEdit) -> bool:
    above = field.parentWidget()
    in_cell = above is not None and isinstance(above.parentWidget(), QAbstractItemView)
    held = isinstance(above, QComboBox | QAbstractSpinBox) or field.isClearButtonEnabled()
    return not in_cell and not held and _WORDS.search(field.accessibleName()) is not None


def _line_of(field: QWidget) -> QWidget:
    """A box that can be typed into is its line."""
    line = field.lineEdit() if isinstance(field, QComboBox) else None
    return line or field


def _before(field: QWidget) -> Before | None:
    """What a field holds; None where it holds no text."""
    field = _line_of(field)
    if isinstance(field, QSpinBox):
        return Before(str(field.value()), 0, 0)
    if isinstance(field, QLineEdit):
        at, chosen = field.cursorPosition(), field.hasSelectedText()
        start = field.selectionStart() if chosen else at
        return Before(field.text(), start, start + len(field.selectedText()))
    if isinstance(field, QTextEdit | QPlainTextEdit):
        cursor = field.textCursor()
        return Before(field.toPlainText(), cursor.selectionStart(), cursor.selectionEnd())
    return None


def _put_back(field: QWidget, before: Before, run: str) -> bool:
    """Take a burst out of a field again; False where the field holds anything else than it must."""
    if not isValid(field):
        return False
    field = _line_of(field)
    if isinstance(field, QSpinBox):
        field.setValue(field.valueFromText(before.text))
        return True
    with_run = before.text[: before.start] + run + before.text[before.end :]
    chosen = before.text[before.start : before.end]
    if isinstance(field, QLineEdit) and field.text() == with_run:
        field.setSelection(before.start, len(run))
        field.insert(chosen)
        field.setCursorPosition(before.end)
        if chosen:
            field.setSelection(before.start, len(chosen))
        return True
    if isinstance(field, QTextEdit | QPlainTextEdit) and field.toPlainText() == with_run:
        field.setTextCursor(_replaced(field.textCursor(), before, run, chosen))
        return True
    return False


def _replaced(cursor: QTextCursor, before: Before, run: str, chosen: str) -> QTextCursor:
    keep = QTextCursor.MoveMode.KeepAnchor
    cursor.setPosition(before.start)
    cursor.setPosition(before.start + len(run), keep)
    cursor.insertText(chosen)
    cursor.setPosition(before.start)
    cursor.setPosition(before.end, keep)
    return cursor
