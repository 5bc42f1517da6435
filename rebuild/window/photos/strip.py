"""A strip of small photos where the work is: shown beside what they are of, dropped or pasted onto it."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path

from PySide6.QtCore import QMimeData, QSize, Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QListView, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.photos.dropped import files_dropped
from rebuild.window.photos.thumbs import ROW, ThumbModel
from rebuild.work.photos.rows import PhotoRow

SMALL = 96
NO_PICTURE = "The clipboard holds no picture: copy one, or the files of some, or drop them here."


class PhotoStrip(QWidget):
    """``taken`` gets the files dropped or pasted; ``opened`` is told of a photo double-clicked."""

    def __init__(
        self, desk: Desk, name: str, taken: Callable[[list[Path]], None], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._desk, self._taken = desk, taken
        self.setAcceptDrops(True)
        self.model = ThumbModel(self)
        self.list = QListView(self)
        self.list.setModel(self.model)
        self.list.setAccessibleName(name)
        self.list.setViewMode(QListView.ViewMode.IconMode)
        self.list.setFlow(QListView.Flow.LeftToRight)
        self.list.setWrapping(False)
        self.list.setIconSize(QSize(SMALL, SMALL))
        self.list.setMovement(QListView.Movement.Static)
        self.list.setFixedHeight(SMALL + 34)
        self.list.setToolTip("Drop photos here, or paste one")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.list)
        paste = QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), self.list)
        paste.setContext(Qt.ShortcutContext.WidgetShortcut)
        paste.activated.connect(self.paste)
        desk.closed.connect(self.model.stop)

    def show_rows(self, rows: Sequence[PhotoRow]) -> None:
        """Show these photos."""
        self.model.set_rows(self._desk.store.path if self._desk.is_open else Path(), list(rows))

    def shown(self) -> list[int]:
        """The ids of the photos shown, in order."""
        rows = (self.model.index(at).data(ROW) for at in range(self.model.rowCount()))
        return [row.id for row in rows if isinstance(row, PhotoRow)]

    def paste(self) -> None:
        """Take the picture or the files of the clipboard; with none there, say so."""
        if not take_clipboard(self._taken):
            self._desk.say(NO_PICTURE, Say.ASK)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Files are welcome."""
        if event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Take what was dropped: photos, or whole folders."""
        self._taken(files_dropped(event))


def pictures_held() -> bool:
    """Whether the clipboard holds a picture or files."""
    held: QMimeData | None = QApplication.clipboard().mimeData()
    return held is not None and (held.hasUrls() or held.hasImage())


def take_clipboard(taken: Callable[[list[Path]], None]) -> bool:
    """Hand on the files of the clipboard, or its picture written out as one; False when it holds neither."""
    held = QApplication.clipboard().mimeData()
    if not pictures_held():
        return False
    if held.hasUrls():
        taken([Path(url.toLocalFile()) for url in held.urls()])
    elif held.hasImage():
        path = Path(tempfile.mkdtemp(dir=_pasted().name)) / "pasted.png"
        if QApplication.clipboard().image().save(str(path)):
            taken([path])
    return True


@cache
def _pasted() -> tempfile.TemporaryDirectory[str]:
    """Where pasted pictures lie until the program ends: a large one is read by another thread a moment later."""
    return tempfile.TemporaryDirectory(prefix="rebuild-pasted-")
