"""The page shown, scrolled and zoomed: fit to the width, the whole page, or so many times larger."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from pathlib import Path

from PySide6.QtCore import QSize, Qt, QTimer
from PySide6.QtGui import QImage, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QScrollArea, QWidget

from rebuild.window.documents.drawn import DrawnPage, PageDrawer
from rebuild.window.documents.sheet import PageSheet
from rebuild.work.documents.rows import CallOutRow, PageRow

ZOOM_STEP, LEAST_ZOOM, MOST_ZOOM = 1.25, 0.2, 6.0
#: A pane being dragged wider asks for a new picture only when it rests [ms].
REST_MS = 120


class Fit(Enum):
    """How large the page is shown."""

    WIDTH = "fit the width"
    PAGE = "whole page"
    FREE = "as zoomed"


class PageView(QScrollArea):
    """Shows one page; the picture comes from ``drawer`` and an older one stands in until then."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Page shown")
        self.sheet = PageSheet(self)
        self.setWidget(self.sheet)
        self.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.fit = Fit.WIDTH
        self.zoom = 1.0
        self.page: PageRow | None = None
        self._project = Path()
        self._marks: Sequence[CallOutRow] = ()
        self.drawer = PageDrawer(self)
        self.drawer.drawn.connect(self._came)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(REST_MS)
        self._rest.timeout.connect(self._ask)

    def show_page(
        self, project: Path, page: PageRow | None, marks: Sequence[CallOutRow], words: str = ""
    ) -> None:
        """Show a page with its call-outs; None shows words instead."""
        other = page is None or self.page is None or page.id != self.page.id
        self.page, self._project, self._marks = page, project, marks
        if other:
            self.sheet.show_image(QImage(), words or "Drawing the page…")
            self.verticalScrollBar().setValue(0)
        self._lay()
        self._rest.stop()
        if page is not None:
            self._ask()

    def set_fit(self, fit: Fit) -> None:
        """Fit the page anew."""
        self.fit = fit
        self._lay()
        self._ask()

    def zoom_by(self, times: float) -> None:
        """Larger or smaller, about what is in the middle."""
        across, down = self.horizontalScrollBar(), self.verticalScrollBar()
        middle = [
            (bar.value() + bar.pageStep() / 2) / max(1, bar.maximum() + bar.pageStep())
            for bar in (across, down)
        ]
        self.zoom = min(MOST_ZOOM, max(LEAST_ZOOM, self._scale() * times))
        self.fit = Fit.FREE
        self._lay()
        for bar, share in zip((across, down), middle, strict=True):
            bar.setValue(round(share * (bar.maximum() + bar.pageStep()) - bar.pageStep() / 2))
        self._rest.start()

    def stand_on(self, mark: CallOutRow) -> None:
        """Bring a call-out into view."""
        middle = self.sheet.box(mark).center().toPoint()
        self.sheet.chosen = mark.id
        self.sheet.update()
        self.ensureVisible(middle.x(), middle.y(), 120, 120)

    def _scale(self) -> float:
        """How many pixels of the screen a point (or a pixel of a scan) takes."""
        page = self.page
        if page is None or page.width <= 0 or page.height <= 0:
            return 1.0
        room = self.maximumViewportSize()
        bar = self.verticalScrollBar().sizeHint().width()
        if self.fit is Fit.PAGE:
            return max(0.05, min(room.width() / page.width, room.height() / page.height))
        if self.fit is Fit.WIDTH:
            return max(0.05, (room.width() - bar) / page.width)
        return self.zoom

    def _lay(self) -> None:
        page, scale = self.page, self._scale()
        size = self.maximumViewportSize()
        if page is not None:
            size = QSize(max(1, round(page.width * scale)), max(1, round(page.height * scale)))
        self.sheet.show_page(size, self._marks)

    def _ask(self) -> None:
        if self.page is not None:
            wide = round(self.sheet.width() * self.devicePixelRatioF())
            self.drawer.ask(self._project, self.page, wide)

    def _came(self, found: object) -> None:
        if isinstance(found, DrawnPage) and self.page is not None and found.page_id == self.page.id:
            self.sheet.show_image(found.image, found.trouble)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.fit is not Fit.FREE or self.page is None:
            self._lay()
            self._rest.start()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """With Ctrl the wheel zooms."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom_by(ZOOM_STEP if event.angleDelta().y() > 0 else 1 / ZOOM_STEP)
        else:
            super().wheelEvent(event)
