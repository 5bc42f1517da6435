"""What an empty list says: what the page is for, and the first act as a button."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QAbstractItemView, QPushButton, QVBoxLayout, QWidget
from shiboken6 import isValid

from rebuild.window.layout.plain import PlainLabel

_WIDEST = 440


class EmptyState(QWidget):
    """Stands over a view while it has no row; ``act`` is what the button does."""

    def __init__(
        self, view: QAbstractItemView, words: str, offer: str = "", act: Callable[[], object] | None = None
    ) -> None:
        super().__init__(view.viewport())
        self._view = view
        self.words = PlainLabel(words, self)
        self.words.setWordWrap(True)
        self.words.setAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignVCenter)
        self.words.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self.words.setMaximumWidth(_WIDEST)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(4, 1, 4, 1)
        layout.setSpacing(0)
        layout.addStretch(1)
        layout.addWidget(self.words, 0, Qt.AlignmentFlag.AlignHCenter)
        self.button: QPushButton | None = None
        if offer and act is not None:
            does = act
            self.button = QPushButton(offer, self)
            self.button.setAutoDefault(False)
            self.button.clicked.connect(lambda _checked=False: does())
            layout.addSpacing(6)
            layout.addWidget(self.button, 0, Qt.AlignmentFlag.AlignHCenter)
        layout.addStretch(2)
        view.viewport().installEventFilter(self)
        model = view.model()
        for signal in (model.modelReset, model.rowsInserted, model.rowsRemoved, model.layoutChanged):
            signal.connect(self._filled_or_not)
        self._follow()

    def say(self, words: str) -> None:
        """Other words, e.g. when a filter hides every row."""
        self.words.setText(words)
        self._follow()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Resize, QEvent.Type.Show):
            self._follow()
        return False

    def _filled_or_not(self) -> None:
        """A list being filled tells of every row; these words care for the first and the last."""
        if isValid(self) and isValid(self._view) and self.isHidden() != (self._view.model().rowCount() > 0):
            self._follow()

    def _follow(self) -> None:
        if not (isValid(self) and isValid(self._view)):
            return
        self.setGeometry(self._view.viewport().rect())
        room = max(80, self.width() - 30)
        wide = min(_WIDEST, room)
        taken = (
            self.button.sizeHint().height() + 8
            if self.button is not None and not self.button.isHidden()
            else 2
        )
        if self.words.heightForWidth(wide) > self.height() - taken:
            wide = room  # a low list: on fewer, longer lines the words stay whole
        self.words.setFixedWidth(wide)
        self.words.setMinimumHeight(min(self.words.heightForWidth(wide), max(0, self.height() - taken)))
        self.setVisible(self._view.model().rowCount() == 0)
