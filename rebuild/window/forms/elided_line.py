"""The line of a box one chooses from: a name too long for it ends in dots while nobody types, and its tip is whole."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QHelpEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QLineEdit, QToolTip

from rebuild.window.layout.plain import plain_tip

_SIDE = 2


class ElidedLine(QLineEdit):
    """Looks cut nowhere: a name broken off in the middle of a letter reads like another name."""

    @property
    def shown(self) -> str:
        """The words as they stand there now."""
        if self.hasFocus():
            return self.text()
        room = self.width() - 2 * _SIDE
        return self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, room)

    def paintEvent(self, event: QPaintEvent) -> None:
        shown = self.shown
        if shown == self.text():
            super().paintEvent(event)
            return
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Text))
        room = self.rect().adjusted(_SIDE, 0, -_SIDE, 0)
        painter.drawText(room, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), shown)

    def event(self, event: QEvent) -> bool:
        """The tip is the whole name where it is cut, else what the field is for."""
        if (
            isinstance(event, QHelpEvent)
            and event.type() is QEvent.Type.ToolTip
            and self.shown != self.text()
        ):
            QToolTip.showText(event.globalPos(), plain_tip(self.text()), self)
            return True
        return super().event(event)
