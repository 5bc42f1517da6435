"""Alt and a letter answer a question out of the field that is typed in; what is typed there stays typing."""

from __future__ import annotations

from collections.abc import Set

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QTextEdit, QWidget
from shiboken6 import isValid


class AnswerKeys(QObject):
    """Hears Alt with one of some letters, and Esc, in the field that had the keyboard when a question was asked.

    They are taken before the window's own shortcuts: Alt+N is then the question's, not a button's.
    """

    pressed = Signal(str)
    given_up = Signal()

    def __init__(self, row: QWidget) -> None:
        super().__init__(row)
        self._row = row
        self._keys: Set[str] = frozenset()
        self._field: QWidget | None = None

    def watch(self, keys: Set[str]) -> bool:
        """Listen for capital letters; none ends it. False when no field of the window outside the row is typed in."""
        if self._field is not None and isValid(self._field):
            self._field.removeEventFilter(self)
        self._keys, self._field = keys, self._typed_in() if keys else None
        if self._field is not None:
            self._field.installEventFilter(self)
        return self._field is not None

    def _typed_in(self) -> QWidget | None:
        focus = self._row.window().focusWidget()
        if isinstance(focus, QLineEdit | QPlainTextEdit | QTextEdit) and not self._row.isAncestorOf(focus):
            return focus if not focus.isReadOnly() else None
        return None

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if not isinstance(event, QKeyEvent):
            return False
        key = chr(event.key()) if event.key() < 128 else ""
        alt = event.modifiers() == Qt.KeyboardModifier.AltModifier and key in self._keys
        if not alt and event.key() != Qt.Key.Key_Escape:
            return False
        if event.type() is QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        if event.type() is QEvent.Type.KeyPress:
            self.pressed.emit(key) if alt else self.given_up.emit()
            return True
        return False
