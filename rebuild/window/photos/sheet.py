"""One photo large, with its marks; a new mark is dragged from where it begins to where it points."""

from __future__ import annotations

import math
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QImage, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from rebuild.window.desk.job import Job
from rebuild.window.ink import theme
from rebuild.window.ink.thumbnail import read_scaled
from rebuild.words.photos import MarkKind
from rebuild.work.photos.rows import MarkRow, PhotoRow

_LARGEST = 2400
_GONE = "The file of this photo is missing or cannot be read:\n{}"
#: A file larger than this is read by another thread: a photo of 12 megapixels takes a tenth of a second and more.
AT_ONCE_BYTES = 400_000
#: So near the end of a mark a press means it [pixels].
NEAR = 14


class PhotoSheet(QWidget):
    """``drawn`` tells a finished drag, start and end as shares of the picture; ``clicked`` a mark that names a part."""

    drawn = Signal(QPointF, QPointF)
    clicked = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Photo")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(240, 180)
        self._image = QImage()
        self._empty = "Choose a photo, or drop photos here"
        self._marks: list[MarkRow] = []
        self._from: QPointF | None = None
        self._to: QPointF | None = None
        self.drawing = False
        self._photo: PhotoRow | None = None
        self.job = Job(self)
        self.job.done.connect(self._came)
        self.setMouseTracking(True)

    def sizeHint(self) -> QSize:
        """A page's worth."""
        return QSize(640, 480)

    def show_photo(self, photo: PhotoRow | None, project: Path, marks: list[MarkRow]) -> None:
        """Show a photo with its marks; None clears. A large file is read beside the window."""
        same = photo is not None and photo == self._photo and not self._image.isNull()
        self._photo, self._marks = photo, marks
        if photo is None:
            self.job.drop()
            self._take(QImage(), "Choose a photo, or drop photos here")
        elif not same or not photo.path(project).is_file():
            self._read(photo.path(project))
        self.setAccessibleDescription(
            ", ".join(f"{mark.kind.value} {mark.said}".strip() for mark in marks) if photo is not None else ""
        )
        self.update()

    def _read(self, path: Path) -> None:
        size = path.stat().st_size if path.is_file() else 0
        if size <= AT_ONCE_BYTES:
            self.job.drop()
            self._take(read_scaled(path, _LARGEST), _GONE.format(path))
        else:
            self._take(QImage(), "Reading the photo…")
            self.job.ask(lambda _tell: (read_scaled(path, _LARGEST), _GONE.format(path)))

    def _came(self, read: object) -> None:
        assert isinstance(read, tuple)
        self._take(*read)

    def _take(self, image: QImage, otherwise: str) -> None:
        self._image, self._empty = image, otherwise
        self.update()

    def field(self) -> QRectF:
        """Where the picture lies in the widget."""
        size = self._image.size().scaled(self.size(), Qt.AspectRatioMode.KeepAspectRatio)
        left, top = (self.width() - size.width()) / 2, (self.height() - size.height()) / 2
        return QRectF(left, top, size.width(), size.height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The picture, its marks, and the one being drawn."""
        painter = QPainter(self)
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform)
        scheme = theme.ink()
        painter.fillRect(self.rect(), scheme.band)
        if self._image.isNull():
            painter.setPen(QPen(scheme.faint))
            painter.drawText(
                self.rect(), Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self._empty
            )
            return
        field = self.field()
        painter.drawImage(field, self._image)
        for mark in self._marks:
            draw_mark(painter, field, mark)
        if self._from is not None and self._to is not None:
            painter.setPen(QPen(QColor("white"), 3, Qt.PenStyle.DashLine))
            painter.drawLine(self._from, self._to)

    def _share(self, place: QPointF) -> QPointF:
        field = self.field()
        x = (place.x() - field.left()) / max(1.0, field.width())
        y = (place.y() - field.top()) / max(1.0, field.height())
        return QPointF(min(1.0, max(0.0, x)), min(1.0, max(0.0, y)))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a mark; outside drawing, follow the one pressed on."""
        mark = self.at(event.position())
        if not self.drawing and mark is not None:
            self.clicked.emit(mark)
        if self.drawing and not self._image.isNull():
            self._from = self._to = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry its end along."""
        if self._from is not None:
            self._to = event.position()
            self.update()
        over = not self.drawing and self.at(event.position()) is not None
        self.setCursor(Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.ArrowCursor)

    def at(self, place: QPointF) -> MarkRow | None:
        """The mark under a point that names a part: on its words, or near where it begins or ends."""
        field = self.field()
        for mark in reversed(self._marks):
            start, end = ends(field, mark)
            box = words_box(self.fontMetrics(), _words_at(mark, start, end), mark.said)
            near = min((place - start).manhattanLength(), (place - end).manhattanLength())
            if mark.part_id is not None and (box.contains(place) or near <= NEAR):
                return mark
        return None

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        """Finish it."""
        if self._from is not None and self._to is not None:
            start, end = self._share(self._from), self._share(self._to)
            self._from = self._to = None
            self.update()
            self.drawn.emit(start, end)


def draw_mark(painter: QPainter, field: QRectF, mark: MarkRow) -> None:
    """A mark in white on a dark edge, so that it reads on any photo."""
    start, end = ends(field, mark)
    for colour, width in ((QColor(0, 0, 0, 200), 6.0), (QColor("white"), 2.6)):
        painter.setPen(QPen(colour, width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if mark.kind is MarkKind.ARROW:
            _arrow(painter, start, end)
        elif mark.kind is MarkKind.RING:
            painter.drawEllipse(start, max(8.0, abs(end.x() - start.x())), max(8.0, abs(end.y() - start.y())))
        elif mark.kind is MarkKind.MATCH_MARK:
            painter.drawLine(start, end)
    if mark.said:
        _words(painter, _words_at(mark, start, end), mark.said)


def ends(field: QRectF, mark: MarkRow) -> tuple[QPointF, QPointF]:
    """Where a mark begins and ends on a picture that fills ``field``."""
    return (
        QPointF(field.left() + mark.x * field.width(), field.top() + mark.y * field.height()),
        QPointF(field.left() + mark.x2 * field.width(), field.top() + mark.y2 * field.height()),
    )


def _words_at(mark: MarkRow, start: QPointF, end: QPointF) -> QPointF:
    return _beside(start, end) if mark.kind is MarkKind.ARROW else start


def words_box(metrics: QFontMetrics, at: QPointF, text: str) -> QRectF:
    """The plate the words of a mark stand on; empty without words."""
    if not text:
        return QRectF()
    return QRectF(
        at.x() + 8, at.y() - metrics.height() - 4, metrics.horizontalAdvance(text) + 10, metrics.height() + 4
    )


def _beside(start: QPointF, end: QPointF) -> QPointF:
    """Where the words of an arrow stand: behind its tail."""
    angle = math.atan2(start.y() - end.y(), start.x() - end.x())
    return start + QPointF(math.cos(angle), math.sin(angle)) * 16


def _arrow(painter: QPainter, start: QPointF, end: QPointF) -> None:
    painter.drawLine(start, end)
    angle = math.atan2(end.y() - start.y(), end.x() - start.x())
    for turn in (math.radians(152), math.radians(-152)):
        painter.drawLine(end, end + QPointF(math.cos(angle + turn), math.sin(angle + turn)) * 15)


def _words(painter: QPainter, at: QPointF, text: str) -> None:
    box = words_box(painter.fontMetrics(), at, text)
    painter.fillRect(box, QColor(0, 0, 0, 190))
    painter.setPen(QPen(QColor("white")))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
