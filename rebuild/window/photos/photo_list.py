"""The photos of the page as a list of small pictures, each with its words under it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtWidgets import QAbstractItemView, QListView, QWidget

from rebuild.window.photos.thumbs import ROW, SIDE, ThumbModel
from rebuild.work.photos.rows import PhotoRow

#: The words under a picture: lines, and letters a line.
LINES, LETTERS = 2, 18


class PhotoList(QListView):
    """Several photos may be chosen; the current one is shown large beside the list."""

    def __init__(self, model: ThumbModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._photos = model
        self.setModel(model)
        self.setAccessibleName("Photos")
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setIconSize(QSize(SIDE, SIDE))
        self.setWordWrap(True)
        self._size_grid()
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setUniformItemSizes(True)
        self.setMovement(QListView.Movement.Static)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)

    def current(self) -> PhotoRow | None:
        """The photo shown large."""
        return self._photos.row(self.currentIndex().row())

    def chosen(self) -> list[int]:
        """The photos chosen, by id."""
        found = [index.data(ROW) for index in self.selectionModel().selectedIndexes()]
        return [row.id for row in found if isinstance(row, PhotoRow)]

    def choose(self, photo_id: int) -> None:
        """Choose one photo by id, where it is in the list."""
        for at in range(self._photos.rowCount()):
            row = self._photos.row(at)
            if row is not None and row.id == photo_id:
                self.setCurrentIndex(self._photos.index(at))

    def _size_grid(self) -> None:
        """A picture with two lines of words under it, which are not cut where the text is large."""
        letters = self.fontMetrics()
        wide = max(SIDE + 14, LETTERS * letters.averageCharWidth())
        self.setGridSize(QSize(wide, SIDE + LINES * letters.lineSpacing() + 8))

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._size_grid()
