"""Ctrl+Z goes first to the editor being typed in; when that has nothing to take back, to the file.

Qt's editors claim the key even with an empty history, so it is taken from them then. A line that an act emptied
(Enter stored it) has a history still, but what is to be taken back is what was stored, not the typing; so too a
line that is empty when the keyboard comes back to it. Only the
widget that has the focus is watched: a filter on the whole application would slow every event.
"""

from __future__ import annotations

from typing import Protocol, cast

from PySide6.QtCore import QEvent, QMetaObject, QObject
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QPlainTextEdit, QTextEdit, QWidget

from rebuild.window.desk.desk import Desk


class _HasHistory(Protocol):
    def isUndoAvailable(self) -> bool: ...

    def isRedoAvailable(self) -> bool: ...


class EditorUndo(QObject):
    """Watches the focused editor for undo and redo."""

    def __init__(self, app: QApplication, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._watched: QWidget | None = None
        self._heard: QMetaObject.Connection | None = None
        #: An act was stored since the watched line was last edited by hand: empty now, it was emptied by that act.
        self._stored = False
        app.focusChanged.connect(self._turn)
        desk.went_well.connect(self._went_well)

    def _turn(self, old: QWidget | None, new: QWidget | None) -> None:
        if old is not None and old is self._watched:
            old.removeEventFilter(self)
            if isinstance(old, QLineEdit):
                if self._heard is not None:
                    QObject.disconnect(self._heard)
                if self._stored and not old.text():
                    old.setText("")  # Qt forgets its history then
        self._watched, self._heard, self._stored = None, None, False
        if isinstance(new, QLineEdit | QPlainTextEdit | QTextEdit):
            new.installEventFilter(self)
            self._watched = new
            if isinstance(new, QLineEdit):
                self._heard = new.textEdited.connect(self._edited)
                if not new.text():
                    new.setText("")  # an act may have emptied it while the keyboard was elsewhere

    def _edited(self, _text: str) -> None:
        self._stored = False

    def _went_well(self) -> None:
        self._stored = True

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is not QEvent.Type.ShortcutOverride:
            return False
        assert isinstance(event, QKeyEvent)
        undo = event.matches(QKeySequence.StandardKey.Undo)
        if not undo and not event.matches(QKeySequence.StandardKey.Redo):
            return False
        emptied = self._stored and isinstance(watched, QLineEdit) and not watched.text()
        if not emptied and _can(watched, undo=undo):
            return False
        event.ignore()
        return True


def _can(editor: QObject, *, undo: bool) -> bool:
    history = cast(
        _HasHistory, editor.document() if isinstance(editor, QPlainTextEdit | QTextEdit) else editor
    )
    return history.isUndoAvailable() if undo else history.isRedoAvailable()
