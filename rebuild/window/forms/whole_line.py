"""A line that shows all that stands in it: while nobody types there, a text too long goes on beneath itself."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QSize
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import QLineEdit, QStyle, QStyleOptionFrame, QWidget

from rebuild.window.lists.wrapped import wrapped

#: More lines than these are not shown: a text so long is no line any more.
MOST_LINES = 6
#: What Qt's own line keeps free before its first letter and after its last [px].
EDGE = 2


class WholeLine(QLineEdit):
    """A line editor that grows by the lines its text needs; typed in it is one line, as tall as before."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.textChanged.connect(self._fit)

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines shown, as broken to the width."""
        text = self.text()
        if not text or self.echoMode() is not QLineEdit.EchoMode.Normal:
            return (text,)
        room = max(1, self._room().width() - 2 * EDGE)
        return wrapped(text, room, self.fontMetrics(), self.font().key())[:MOST_LINES]

    def sizeHint(self) -> QSize:
        return super().sizeHint() + self._more()

    def minimumSizeHint(self) -> QSize:
        return super().minimumSizeHint() + self._more()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Qt's own line while it has the keyboard or fits; else the same frame with the lines in it."""
        lines = self.lines
        if self.hasFocus() or len(lines) < 2:
            super().paintEvent(event)
            return
        frame = QStyleOptionFrame()
        self.initStyleOption(frame)
        painter = QPainter(self)
        self.style().drawPrimitive(QStyle.PrimitiveElement.PE_PanelLineEdit, frame, painter, self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Text))
        room, high = self._room().adjusted(EDGE, 0, -EDGE, 0), self.fontMetrics().height()
        top = room.top() + max(0, (room.height() - high * len(lines)) // 2)
        for place, words in enumerate(lines):
            painter.drawText(QRect(room.left(), top + place * high, room.width(), high), 0, words)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._fit()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._fit()
        self.update()

    def _more(self) -> QSize:
        return QSize(0, (self._lines_kept - 1) * self.fontMetrics().height())

    _lines_kept = 1

    def _fit(self) -> None:
        """Ask for the height; not in the middle of typing, when what stands below would jump."""
        lines = len(self.lines)
        if lines != self._lines_kept and not self.hasFocus():
            self._lines_kept = lines
            self.updateGeometry()

    def _room(self) -> QRect:
        frame = QStyleOptionFrame()
        self.initStyleOption(frame)
        inner = self.style().subElementRect(QStyle.SubElement.SE_LineEditContents, frame, self)
        margins = self.textMargins()
        return inner.marginsRemoved(margins)
