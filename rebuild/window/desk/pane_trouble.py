"""What is wrong, said under a pane's own fields: the one owner of such sentences, and where they end."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel


class PaneTrouble(PlainLabel):
    """A sentence that stands no longer than its cause.

    It is over when the text of the field it names (of any, where it names none) is changed, another word chosen or a
    box ticked, when Escape is pressed there, when something later went well and nothing refused stands there, when the
    pane is left, and when another file or machine is shown.
    """

    def __init__(self, desk: Desk, fields: Iterable[QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWordWrap(True)
        self.setAccessibleName("What is wrong")
        self._lines: list[QLineEdit] = []
        self._refused: dict[QLineEdit, str] = {}
        for field in fields:
            if isinstance(field, QComboBox):
                field.activated.connect(self.end)
            elif isinstance(field, QAbstractButton):
                field.toggled.connect(self.end)
            elif isinstance(field, QLineEdit):
                self._lines.append(field)
                field.textChanged.connect(self._changed)
                field.installEventFilter(self)
        for signal in (desk.opened, desk.closed, desk.machine_changed):
            signal.connect(self.end)
        desk.went_well.connect(self._went_well)
        self.hide()

    def tell(self, trouble: RebuildError | str) -> None:
        """Say what is wrong with what stands in the fields now."""
        where = trouble.where.lower() if isinstance(trouble, RebuildError) else ""
        named = [line for line in self._lines if where and where in line.accessibleName().lower()]
        self._refused = {line: line.text().strip() for line in named or self._lines}
        self.setText(f"▸ {trouble}")
        self.show()

    def end(self, _at: int = 0) -> None:
        """It is over."""
        if self.text():
            self.clear()
            self.hide()

    def _changed(self) -> None:
        """Another text stands in a field it speaks of: nothing is said of that one yet."""
        if any(line.text().strip() != text for line, text in self._refused.items()):
            self.end()

    def _went_well(self) -> None:
        """Something else was stored: what is still typed as it was refused is still wrong."""
        left = any(self._refused.values()) and all(
            line.text().strip() == text for line, text in self._refused.items()
        )
        if not left:
            self.end()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        pane = self.parentWidget()
        if pane is not None and not event.spontaneous() and self.isVisibleTo(pane):
            self.end()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Escape in a field it watches; the key goes on."""
        if isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape:
            self.end()
        return super().eventFilter(watched, event)
