"""Something the first page offers: its name, and beneath it in faint ink what it means."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QSize, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

INSET = 12
LEADING = 4
RULE = 3


class Offer(QAbstractButton):
    """A line to press; under the pointer or the keyboard a rule stands before it."""

    def __init__(self, words: str, told: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(words)
        self._told = told
        self.setAccessibleName(words.replace("&", ""))
        self.setAccessibleDescription(told)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(200, 2 * self.fontMetrics().lineSpacing() + 3 * LEADING)

    def minimumSizeHint(self) -> QSize:
        """Both its lines: pressed together they could not be read."""
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = self.palette()
        line = self.fontMetrics().lineSpacing()
        if self.hasFocus() or self.underMouse():
            painter.fillRect(
                QRect(0, LEADING, RULE, 2 * line + LEADING), colours.color(QPalette.ColorRole.WindowText)
            )
        room = self.width() - INSET
        font = self.font()
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(colours.color(QPalette.ColorRole.WindowText))
        flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextShowMnemonic
        painter.drawText(QRect(INSET, LEADING, room, line), flags, self.text())
        painter.setFont(self.font())
        painter.setPen(colours.color(QPalette.ColorRole.PlaceholderText))
        told = painter.fontMetrics().elidedText(self._told, Qt.TextElideMode.ElideMiddle, room)
        painter.drawText(
            QRect(INSET, LEADING + line, room, line + LEADING), Qt.AlignmentFlag.AlignVCenter, told
        )
        painter.end()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.update()
        return super().event(event)
