"""A label of one line that gives way where there is no room."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.window.layout.plain import PlainLabel, plain_tip


class ElidedLabel(PlainLabel):
    """One line that gives way in the middle when there is no room; the whole text is its tip."""

    def __init__(
        self, parent: QWidget | None = None, where: Qt.TextElideMode = Qt.TextElideMode.ElideMiddle
    ) -> None:
        super().__init__(parent)
        self._where = where
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def minimumSizeHint(self) -> QSize:
        return QSize(40, self.fontMetrics().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(self.foregroundRole()))
        text = self.fontMetrics().elidedText(self.text(), self._where, self.width())
        self.setToolTip(plain_tip(self.text()) if text != self.text() else "")
        painter.drawText(self.rect(), int(Qt.AlignmentFlag.AlignVCenter), text)
        painter.end()
