"""A drawing on a sheet of its own; while there is nothing to draw, a few quiet words say so."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.window.ink import theme


class Picture(QWidget):
    """Base of pictures: ``missing`` says what is not there, ``draw`` draws what is."""

    def __init__(self, name: str, wanted: QSize, least: QSize, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._wanted = wanted
        self.setAccessibleName(name)
        self.setMinimumSize(least)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        """Room for lines and words."""
        return self._wanted

    def missing(self) -> str:
        """Words to show in place of the drawing; empty when there is something to draw."""
        raise NotImplementedError

    def draw(self, painter: QPainter) -> None:
        """Draw; the sheet is clean and the edges are smooth."""
        raise NotImplementedError

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scheme = theme.ink()
        painter.fillRect(self.rect(), scheme.sheet)
        words = self.missing()
        if words:
            painter.setPen(QPen(scheme.faint))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, words)
        else:
            self.draw(painter)
        painter.end()
