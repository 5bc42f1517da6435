"""Small pictures for the list, read beside the window's thread and kept in Qt's pixmap cache."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRunnable,
    Qt,
    QThreadPool,
    Signal,
)
from PySide6.QtGui import QColor, QImage, QPixmap, QPixmapCache

from rebuild.window.ink import theme
from rebuild.window.ink.thumbnail import read_scaled
from rebuild.window.layout.plain import plain_tip
from rebuild.window.lists.said import moment
from rebuild.work.photos.rows import PhotoRow

Index = QModelIndex | QPersistentModelIndex
SIDE = 148
ROW = Qt.ItemDataRole.UserRole
_NO_PARENT = QModelIndex()


class ThumbModel(QAbstractListModel):
    """Photos as small pictures; a picture is read when it is first asked for."""

    _came = Signal(str, QImage)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows: list[PhotoRow] = []
        self._project = Path()
        self._asked: set[str] = set()
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._came.connect(self._arrived)

    def set_rows(self, project: Path, rows: list[PhotoRow]) -> None:
        """Show these photos."""
        if rows == self._rows and project == self._project:
            return
        self.beginResetModel()
        self._rows, self._project = rows, project
        self.endResetModel()

    def row(self, at: int) -> PhotoRow | None:
        """The photo of a row."""
        return self._rows[at] if 0 <= at < len(self._rows) else None

    def rowCount(self, parent: Index = _NO_PARENT) -> int:
        """How many photos."""
        return 0 if parent.isValid() else len(self._rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Words at once; the picture when it has been read."""
        photo = self.row(index.row())
        if photo is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return photo.about or (moment(photo.taken_at) or photo.file_name)
        if role == Qt.ItemDataRole.ToolTipRole or role == Qt.ItemDataRole.AccessibleTextRole:
            taken = f"{photo.taken_at:%Y-%m-%d %H:%M}" if photo.taken_at else "no date"
            told = "\n".join(
                filter(None, (photo.about, photo.proves, f"{photo.phase.value}, {taken}", photo.file_name))
            )
            return plain_tip(told) if role == Qt.ItemDataRole.ToolTipRole else told
        if role == Qt.ItemDataRole.DecorationRole:
            return self._picture(photo)
        return photo if role == ROW else None

    def _picture(self, photo: PhotoRow) -> QPixmap:
        found = QPixmap()
        if QPixmapCache.find(photo.sha256, found):
            return found
        if photo.sha256 not in self._asked:
            self._asked.add(photo.sha256)
            self._pool.start(_Read(self, photo.sha256, photo.path(self._project)))
        return _empty()

    def _arrived(self, sha256: str, image: QImage) -> None:
        self._asked.discard(sha256)
        QPixmapCache.insert(sha256, QPixmap.fromImage(image) if not image.isNull() else _empty())
        for at, photo in enumerate(self._rows):
            if photo.sha256 == sha256:
                self.dataChanged.emit(self.index(at), self.index(at), [Qt.ItemDataRole.DecorationRole])

    def stop(self) -> None:
        """Drop what is still to be read and wait for the thread."""
        self._pool.clear()
        self._pool.waitForDone()


class _Read(QRunnable):
    def __init__(self, owner: ThumbModel, sha256: str, path: Path) -> None:
        super().__init__()
        self._owner, self._sha256, self._path = owner, sha256, path

    def run(self) -> None:
        """On the pool's thread: a scaled read, upright as the camera was held."""
        self._owner._came.emit(self._sha256, read_scaled(self._path, SIDE))


def _empty() -> QPixmap:
    blank = QPixmap(SIDE, SIDE)
    colour: QColor = theme.ink().band
    blank.fill(colour)
    return blank
