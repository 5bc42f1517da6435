"""One page of a manual at its zoom, with its call-outs: a click follows one, a drag marks a new one."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from rebuild.window.ink import theme
from rebuild.work.documents.rows import CallOutRow

#: A call-out marked by a mere click is this far across [pixels].
LEAST = 18.0
#: The pointer has moved this far before a press is a drag [pixels].
SLACK = 4
#: So far that it marks a place even when nobody asked to mark [pixels].
DRAG = 12


class PageSheet(QWidget):
    """``drawn`` tells a finished drag as shares of the page; ``clicked`` the id of a call-out."""

    drawn = Signal(QPointF, QPointF)
    clicked = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Page of the manual")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMouseTracking(True)
        self.drawing = False
        self.image = QImage()
        self.words = ""
        self._marks: Sequence[CallOutRow] = ()
        self.chosen: int | None = None
        self._held: QRectF | None = None
        self._from: QPointF | None = None
        self._to: QPointF | None = None

    def show_page(self, size: QSize, marks: Sequence[CallOutRow]) -> None:
        """Be as large as the page at its zoom; the picture comes by ``show_image``."""
        self._marks = marks
        self.setFixedSize(size)
        told = (", ".join(filter(None, (mark.text, mark.named, mark.differs))) for mark in marks)
        self.setAccessibleDescription("; ".join(told))
        self.update()

    def show_image(self, image: QImage, words: str = "") -> None:
        """The picture of the page, or words where there is none."""
        self.image, self.words = image, words
        self.update()

    def hold(self, place: tuple[QPointF, QPointF] | None) -> None:
        """Show a place marked whose item is still to be typed; None shows none."""
        self._held = None if place is None else QRectF(*place).normalized()
        self.update()

    def box(self, mark: CallOutRow) -> QRectF:
        """Where a call-out lies in the widget."""
        wide, high = self.width(), self.height()
        found = QRectF(
            QPointF(mark.x * wide, mark.y * high), QPointF(mark.x2 * wide, mark.y2 * high)
        ).normalized()
        grow_x, grow_y = max(0.0, LEAST - found.width()) / 2, max(0.0, LEAST - found.height()) / 2
        return found.adjusted(-grow_x, -grow_y, grow_x, grow_y)

    def at(self, place: QPointF) -> CallOutRow | None:
        """The smallest call-out under a point."""
        under = [mark for mark in self._marks if self.box(mark).contains(place)]
        return min(under, key=lambda mark: self.box(mark).width() * self.box(mark).height(), default=None)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform)
        scheme = theme.ink()
        if self.image.isNull():
            painter.fillRect(self.rect(), scheme.band)
            painter.setPen(QPen(scheme.faint))
            inside = self.rect().adjusted(12, 12, -12, -12)
            painter.drawText(inside, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.words)
            return
        painter.drawImage(self.rect(), self.image)
        for mark in self._marks:
            self._draw(painter, mark)
        if self._from is not None and self._to is not None:
            painter.setPen(QPen(theme.LIGHT.mark, 2, Qt.PenStyle.DashLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self._from, self._to).normalized())
        if self._held is not None:
            self._draw_held(painter, self._held)

    def _draw_held(self, painter: QPainter, share: QRectF) -> None:
        wide, high = self.width(), self.height()
        box = QRectF(share.x() * wide, share.y() * high, share.width() * wide, share.height() * high)
        painter.setPen(QPen(theme.LIGHT.mark, 2, Qt.PenStyle.DashLine))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(box.adjusted(-4, -4, 4, 4), 5, 5)

    def _draw(self, painter: QPainter, mark: CallOutRow) -> None:
        """A ring; dashed where the machine differs; its words on a plate beside it. A page is white in every scheme."""
        ink, box = theme.LIGHT, self.box(mark)
        style = Qt.PenStyle.DashLine if mark.differs else Qt.PenStyle.SolidLine
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(ink.mark, 3.0 if mark.id == self.chosen else 1.8, style))
        painter.drawRoundedRect(box, 5, 5)
        words = " ".join(filter(None, (mark.text, mark.named, f"≠ {mark.differs}" if mark.differs else "")))
        words = words if len(words) <= 48 else f"{words[:47]}…"
        metrics = painter.fontMetrics()
        plate = QRectF(0, 0, metrics.horizontalAdvance(words) + 8, metrics.height() + 2)
        plate.moveBottomLeft(box.topLeft())
        plate.moveLeft(max(0.0, min(plate.left(), self.width() - plate.width())))
        if plate.top() < 0:
            plate.moveTop(box.bottom())
        painter.setPen(QPen(ink.mark, 1))
        painter.setBrush(ink.sheet)
        painter.drawRect(plate)
        painter.setPen(QPen(ink.ink))
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, words)

    def _share(self, place: QPointF) -> QPointF:
        wide, high = max(1, self.width()), max(1, self.height())
        return QPointF(min(1.0, max(0.0, place.x() / wide)), min(1.0, max(0.0, place.y() / high)))

    def _dragged(self, place: QPointF) -> bool:
        """Whether the pointer went so far since it was pressed that a place is meant."""
        return self._from is not None and (place - self._from).toPoint().manhattanLength() > DRAG

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a mark, or press on a call-out."""
        if event.button() is Qt.MouseButton.LeftButton:
            self._from = self._to = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry the mark along; over a call-out the pointer says that it leads somewhere."""
        if self._from is not None and (self.drawing or self._dragged(event.position())):
            self._to = event.position()
            self.update()
        over = self.at(event.position()) is not None and not self.drawing
        self.setCursor(Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Finish the mark, or follow the call-out clicked."""
        start, end = self._from, event.position()
        dragged = self._dragged(end)
        self._from = self._to = None
        self.update()
        if start is None:
            return
        if self.drawing or dragged:
            self.drawn.emit(self._share(start), self._share(end))
            return
        moved: QPoint = (end - start).toPoint()
        mark = self.at(end)
        if mark is not None and moved.manhattanLength() <= SLACK:
            self.clicked.emit(mark.id)
