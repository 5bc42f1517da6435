"""A row of quiet names over the views they turn to; Alt and a number turns to one."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QStackedWidget, QToolButton, QVBoxLayout, QWidget


class Views(QWidget):
    """Several views of one page, one shown at a time."""

    turned = Signal(int)

    def __init__(self, views: list[tuple[str, QWidget]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.stack = QStackedWidget(self)
        self._buttons = QButtonGroup(self)
        self.row = QHBoxLayout()
        self.row.setSpacing(2)
        for at, (words, view) in enumerate(views):
            button = QToolButton(self)
            button.setText(words)
            button.setAccessibleName(f"Show {words.lower()}")
            button.setCheckable(True)
            button.setAutoRaise(True)
            button.setShortcut(f"Alt+{at + 1}")
            button.setToolTip(f"Alt+{at + 1}")
            self._buttons.addButton(button, at)
            self.row.addWidget(button)
            self.stack.addWidget(view)
        self.row.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(self.row)
        layout.addWidget(self.stack, 1)
        self._buttons.idClicked.connect(self.show_view)
        self.show_view(0)

    @property
    def shown(self) -> int:
        """The place of the view shown."""
        return self.stack.currentIndex()

    def show_view(self, place: int) -> None:
        """Turn to a view by its place."""
        self._buttons.button(place).setChecked(True)
        self.stack.setCurrentIndex(place)
        self.turned.emit(place)
