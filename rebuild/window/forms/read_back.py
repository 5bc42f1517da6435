"""Under a field, while it is being typed: how it is read, or what is wrong, with the readings one may take."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QToolButton, QVBoxLayout, QWidget

from rebuild.errors import Ambiguous, RebuildError
from rebuild.window.layout.plain import PlainLabel


class ReadBack(QWidget):
    """A sentence and, where it asks, a button for each reading. Its room is kept, so nothing below it moves."""

    retyped = Signal(str)

    def __init__(self, called: str, lines: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.said = PlainLabel(self)
        self.said.setAccessibleName(called)
        self.said.setWordWrap(True)
        self.said.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._ways = QHBoxLayout()
        self._ways.setSpacing(6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addWidget(self.said, 1)
        layout.addLayout(self._ways)
        self.setMinimumHeight(lines * self.fontMetrics().lineSpacing())

    def show_words(self, sentence: str) -> None:
        """Say how it is read."""
        self._offer(())
        self.said.setText(sentence)

    def show_trouble(self, trouble: RebuildError, after: QWidget) -> None:
        """Say what is wrong; readings become buttons, which Tab reaches from ``after``."""
        if isinstance(trouble, Ambiguous) and trouble.readings:
            self.said.setText(f"“{trouble.value}” {trouble.what}")
            self._offer(trouble.readings)
            for button in self.ways[::-1]:
                QWidget.setTabOrder(after, button)
        else:
            self.show_words(str(trouble))

    @property
    def ways(self) -> list[QToolButton]:
        """The readings offered now, as buttons."""
        items = (self._ways.itemAt(at) for at in range(self._ways.count()))
        return [widget for item in items if item and isinstance(widget := item.widget(), QToolButton)]

    def _offer(self, readings: tuple[tuple[str, str], ...]) -> None:
        for old in self.ways:
            self._ways.removeWidget(old)
            old.hide()
            old.deleteLater()
        while self._ways.takeAt(0) is not None:
            pass
        for meaning, retyped in readings:
            button = QToolButton(self)
            button.setText(retyped)
            button.setToolTip(meaning)
            button.setAccessibleName(f"Take {retyped}, {meaning}")
            button.clicked.connect(partial(self._take, retyped))
            self._ways.addWidget(button)
        self._ways.addStretch(1)

    def _take(self, retyped: str, _checked: bool = False) -> None:
        self.retyped.emit(retyped)
