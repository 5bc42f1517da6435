"""The first page of labels as it will come out of the printer: drawn from the very PDF."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from rebuild.store.store import Store
from rebuild.trade.labels.stock import Stock
from rebuild.window.ink import theme
from rebuild.work.labels.rows import Label

#: Room the page is shown in [pixels].
SIZE = QSize(300, 390)


class LabelPreview(QWidget):
    """White paper in any scheme, the edges of the labels dotted; empty while nothing can be printed."""

    def __init__(self, store: Store, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._store = store
        self.image = QImage()
        self._stock: Stock | None = None
        self.setFixedSize(SIZE)
        self.setAccessibleName("First page as it will be printed")

    def show_labels(self, labels: Sequence[Label], stock: Stock | None, first: int) -> None:
        """Draw these labels, from label ``first`` of a sheet on. Raises RebuildError."""
        self._stock = stock
        self.image = QImage() if stock is None or not labels else _drawn(labels, stock, first)
        self.update()

    def _page(self, stock: Stock) -> QRectF:
        scale = min(self.width() / stock.page_wide, self.height() / stock.page_high)
        return QRectF(0, 0, stock.page_wide * scale - 1, stock.page_high * scale - 1)

    def paintEvent(self, _event: QPaintEvent) -> None:
        stock = self._stock
        if stock is None or self.image.isNull():
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        page = self._page(stock)
        painter.drawImage(page, self.image)
        ink = theme.LIGHT
        painter.setPen(QPen(ink.faint, 1, Qt.PenStyle.DotLine))
        painter.drawRect(page)
        scale = page.width() / stock.page_wide
        for row in range(stock.down if stock.on_a_page > 1 else 0):
            for column in range(stock.across):
                left = stock.left + column * (stock.wide + stock.gap_across)
                top = stock.top + row * (stock.high + stock.gap_down)
                painter.drawRect(QRectF(left * scale, top * scale, stock.wide * scale, stock.high * scale))


def _drawn(labels: Sequence[Label], stock: Stock, first: int) -> QImage:
    """The first page of their PDF as a picture, sharp enough for the screen. Raises RebuildError."""
    from rebuild.sheets.labels.pages import write_labels
    from rebuild.work.documents.pdf import page_picture

    with TemporaryDirectory(prefix="rebuild-labels-") as folder:
        path = Path(folder) / "labels.pdf"
        write_labels(labels, stock, path, first)
        made = page_picture(path, 0, 3 * SIZE.width())
    form = QImage.Format.Format_RGB888
    return QImage(made.pixels, made.width, made.height, made.stride, form).copy()
