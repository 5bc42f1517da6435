"""Pages drawn beside the window: the newest asked for is told, a few are kept."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QImage

from rebuild.errors import RebuildError
from rebuild.window.desk.job import Job, Tell
from rebuild.window.ink.thumbnail import read_scaled
from rebuild.work.documents.pdf import page_picture
from rebuild.work.documents.rows import PageRow

#: Pages kept drawn; turning back to one shows it at once.
KEPT = 6
#: Widths asked for are rounded up to this, so that a pane a little wider needs no new picture [pixels].
STEP = 200


@dataclass(frozen=True, slots=True)
class DrawnPage:
    """A page drawn ``width`` pixels wide; a null image with a sentence when it cannot be."""

    page_id: int
    width: int
    image: QImage
    trouble: str = ""


class PageDrawer(QObject):
    """``drawn`` tells the page asked for last."""

    drawn = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.job = Job(self)
        self._kept: dict[tuple[int, int], DrawnPage] = {}
        self.job.done.connect(self._came)

    def ask(self, project: Path, page: PageRow, width: int) -> None:
        """Draw a page about ``width`` pixels wide; at once when it is kept, else it comes by ``drawn``."""
        wide = -(-max(1, width) // STEP) * STEP
        kept = self._kept.get((page.id, wide))
        if kept is not None:
            self.job.drop()
            self.drawn.emit(kept)
        else:
            self.job.ask(lambda _tell: draw(project, page, wide, _tell))

    def forget(self) -> None:
        """Wait for the thread and keep nothing: another file is shown."""
        self.job.drop()
        self._kept.clear()

    def _came(self, found: object) -> None:
        assert isinstance(found, DrawnPage)
        if not found.trouble:
            self._kept[found.page_id, found.width] = found
            while len(self._kept) > KEPT:
                self._kept.pop(next(iter(self._kept)))
        self.drawn.emit(found)


def draw(project: Path, page: PageRow, width: int, _tell: Tell) -> DrawnPage:
    """One page as a picture, on any thread; what is wrong with its file is said instead."""
    try:
        path = page.path(project)
        if page.ending != ".pdf":
            image = read_scaled(path, round(width * max(1.0, page.height / max(1.0, page.width))))
            gone = (
                f"The file of this page is missing or cannot be read: {path.name}" if image.isNull() else ""
            )
            return DrawnPage(page.id, width, image, gone)
        made = page_picture(path, page.inner, width)
    except RebuildError as trouble:
        return DrawnPage(page.id, width, QImage(), str(trouble))
    form = QImage.Format.Format_RGB888
    return DrawnPage(page.id, width, QImage(made.pixels, made.width, made.height, made.stride, form).copy())
