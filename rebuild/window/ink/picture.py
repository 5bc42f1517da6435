"""A drawing on a sheet of its own; while there is nothing to draw, a few quiet words say so.

A right click, or the menu key, copies it or saves it as lines (SVG) that stay sharp at any size.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QMimeData, QPoint, QSize, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFileDialog, QMenu, QMessageBox, QSizePolicy, QWidget

from rebuild.window.ink import theme


class Lines:
    """What every drawing of the program can do besides being looked at: be copied, and saved as lines.

    A widget that draws is one of these too and says by ``render_lines`` what to draw, by ``no_lines`` that there is
    nothing.
    """

    def render_lines(self, painter: QPainter) -> None:
        """Draw all of it as it stands, without what only the screen needs."""
        raise NotImplementedError

    def no_lines(self) -> bool:
        """Whether there is nothing to copy."""
        return False

    def _canvas(self) -> QWidget:
        assert isinstance(self, QWidget)
        return self

    def as_svg(self) -> bytes:
        """The picture as it stands, in lines."""
        from PySide6.QtSvg import QSvgGenerator

        canvas = self._canvas()
        held = QByteArray()
        buffer = QBuffer(held)
        made = QSvgGenerator()
        made.setOutputDevice(buffer)
        made.setSize(canvas.size())
        made.setViewBox(canvas.rect())
        made.setTitle(canvas.accessibleName())
        painter = QPainter(made)
        painter.setFont(canvas.font())
        self.render_lines(painter)
        painter.end()
        return bytes(held.data())

    def copy(self) -> None:
        """Put the picture on the clipboard, in lines and in dots."""
        both = QMimeData()
        both.setData("image/svg+xml", self.as_svg())
        both.setImageData(self._canvas().grab().toImage())
        QGuiApplication.clipboard().setMimeData(both)

    def save_as(self, path: Path) -> str:
        """Write the picture in lines; returns why it could not be, as a sentence, else nothing."""
        try:
            path.with_suffix(".svg").write_bytes(self.as_svg())
        except OSError as trouble:
            return f"{path.name} cannot be written ({trouble.strerror}). Choose another folder."
        return ""

    def offer_lines(self, at: QPoint) -> QMenu | None:
        """Copy, and save as lines, in a menu at a place of the screen; None while there is nothing to draw."""
        if self.no_lines():
            return None
        menu = QMenu(self._canvas())
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.setTitle("This picture")
        menu.addAction("&Copy picture", self.copy)
        menu.addAction("&Save as lines (SVG)…", self._ask_where)
        menu.popup(at)
        return menu

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """A right click, or the menu key."""
        self.offer_lines(event.globalPos())

    def _ask_where(self) -> None:
        canvas = self._canvas()
        chosen, _kind = QFileDialog.getSaveFileName(
            canvas, "Save the picture", f"{canvas.accessibleName()}.svg", "Lines (*.svg)"
        )
        trouble = self.save_as(Path(chosen)) if chosen else ""
        if trouble:
            QMessageBox.warning(canvas, "Save the picture", trouble)


class Picture(Lines, QWidget):
    """Base of pictures: ``missing`` says what is not there, ``draw`` draws what is."""

    def __init__(self, name: str, wanted: QSize, least: QSize, parent: QWidget | None = None) -> None:
        QWidget.__init__(self, parent)
        self._wanted = wanted
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
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

    def no_lines(self) -> bool:
        return bool(self.missing())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        self.render_lines(painter)
        if self.hasFocus():
            painter.setPen(QPen(theme.ink().focus, 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def render_lines(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scheme = theme.ink()
        painter.fillRect(self.rect(), scheme.sheet)
        words = self.missing()
        if words:
            painter.setPen(QPen(scheme.faint))
            flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
            painter.drawText(self.rect().adjusted(12, 8, -12, -8), flags, words)
        else:
            self.draw(painter)
