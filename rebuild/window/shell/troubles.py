"""Troubles said and not over yet: each belongs to where it arose, and ends there."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QApplication, QLineEdit


@dataclass(eq=False, slots=True)
class _Trouble:
    sentence: str
    young: bool = True  #: said in this very turn of the event loop: what goes on in it does not end it


class Troubles(QObject):
    """The sentences still standing, oldest first; ``changed`` when another one is to be shown.

    One ends when something later went well, when its page is left or another file opened, and when the field it
    arose in is emptied: nothing wrong stands there any more.
    """

    changed = Signal()

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._standing: list[_Trouble] = []

    @property
    def sentences(self) -> list[str]:
        """Every sentence once, oldest first."""
        return [trouble.sentence for trouble in self._standing]

    def add(self, sentence: str) -> None:
        """Something went wrong, in the field that has the keyboard if there is one."""
        if sentence in self.sentences:
            return
        trouble = _Trouble(sentence)
        self._standing.append(trouble)
        QTimer.singleShot(0, self, lambda: setattr(trouble, "young", False))
        field = QApplication.focusWidget()
        if isinstance(field, QLineEdit) and field.text().strip():
            field.textChanged.connect(lambda text: None if text.strip() else self._drop(trouble))
        self.changed.emit()

    def dismiss_first(self) -> None:
        """The user has read the one shown."""
        if self._standing:
            self._drop(self._standing[0])

    def end_old(self) -> None:
        """Something later went well, or the page is left."""
        self._keep([trouble for trouble in self._standing if trouble.young])

    def end_all(self) -> None:
        """Another file, or none."""
        self._keep([])

    def _drop(self, gone: _Trouble) -> None:
        self._keep([trouble for trouble in self._standing if trouble is not gone])

    def _keep(self, left: list[_Trouble]) -> None:
        if len(left) != len(self._standing):
            self._standing = left
            self.changed.emit()
