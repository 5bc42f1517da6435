"""Ctrl+Z goes first to the editor being typed in; when that has nothing to take back, to the file.

Qt's editors claim the key even with an empty history, so it is taken from them then. Only the widget
that has the focus is watched: a filter on the whole application would slow every event.
"""

from __future__ import annotations

from typing import Protocol, cast

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QTextEdit, QWidget


class _HasHistory(Protocol):
    def isUndoAvailable(self) -> bool: ...

    def isRedoAvailable(self) -> bool: ...


class EditorUndo(QObject):
    """Watches the focused editor for undo and redo."""

    def __init__(self, app: QApplication, parent: QObject) -> None:
        super().__init__(parent)
        self._watched: QWidget | None = None
        app.focusChanged.connect(self._turn)

    def _turn(self, old: QWidget | None, new: QWidget | None) -> None:
        if old is not None and old is self._watched:
            old.removeEventFilter(self)
        self._watched = None
        if isinstance(new, QLineEdit | QPlainTextEdit | QTextEdit):
            new.installEventFilter(self)
            self._watched = new

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is not QEvent.Type.ShortcutOverride:
            return False
        assert isinstance(event, QKeyEvent)
        undo = event.matches(QKeySequence.StandardKey.Undo)
        if not undo and not event.matches(QKeySequence.StandardKey.Redo):
            return False
        if _can(watched, undo=undo):
            return False
        event.ignore()
        return True


def _can(editor: QObject, *, undo: bool) -> bool:
    history = cast(
        _HasHistory, editor.document() if isinstance(editor, QPlainTextEdit | QTextEdit) else editor
    )
    return history.isUndoAvailable() if undo else history.isRedoAvailable()
