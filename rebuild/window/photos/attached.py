"""Photos of one thing where it is worked on: a strip to drop and paste on, read beside the window, noted in one act."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.leads import follow
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.photos.strip import PhotoStrip
from rebuild.window.photos.taking import Taking
from rebuild.window.photos.thumbs import ROW
from rebuild.words.counted import counted
from rebuild.words.photos import PhotoPhase
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import Shows
from rebuild.work.photos.rows import PhotoRow
from rebuild.work.photos.rows_shown import of_removal, of_thing
from rebuild.work.photos.rules_pictures import ENDINGS


class AttachedPhotos(QWidget):
    """The photos of a record's row; ``taken`` tells that photos were put to it."""

    taken = Signal()

    def __init__(
        self,
        desk: Desk,
        record: str,
        name: str,
        parent: QWidget | None = None,
        *,
        about: Callable[[], About | None] = lambda: None,
        phase: PhotoPhase = PhotoPhase.AS_FOUND,
    ) -> None:
        super().__init__(parent)
        self._desk, self._record, self._about, self._phase = desk, record, about, phase
        self._row: int | None = None
        self._name = name
        self.said = PlainLabel(self)
        self.button = QPushButton("Add photos…", self)
        self.button.setAutoDefault(False)
        self.strip = PhotoStrip(desk, name, self.take, self)
        self.taking = Taking(desk, self)
        top = QHBoxLayout()
        top.addWidget(self.said, 1)
        top.addWidget(self.button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3)
        layout.addLayout(top)
        layout.addWidget(self.taking)
        layout.addWidget(self.strip)
        self.button.clicked.connect(lambda _checked=False: self.ask_files())
        paste = QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), self.button)
        paste.setContext(Qt.ShortcutContext.WidgetShortcut)
        paste.activated.connect(self.strip.paste)
        self.button.setToolTip("Or drop photos here; Ctrl+V pastes one")
        self.strip.list.doubleClicked.connect(lambda index: self._open(index.data(ROW)))
        self.taking.ended.connect(lambda _done: self._came())
        self.show_row(None)

    def shown(self) -> list[int]:
        """The ids of the photos shown, in order."""
        return self.strip.shown()

    def show_row(self, row_id: int | None) -> None:
        """Show the photos of another row, or none."""
        self._row = row_id
        rows: Sequence[PhotoRow] = ()
        machine = self._desk.machine_id
        if row_id is not None and self._desk.is_open and machine is not None:
            with self._desk.store.read() as connection:
                rows = (
                    of_removal(connection, machine, row_id)
                    if self._record == "removal"
                    else of_thing(connection, machine, self._record, row_id)
                )
        self.strip.show_rows(rows)
        self.strip.setVisible(bool(rows))
        self.button.setEnabled(row_id is not None)
        told = counted(len(rows), "photo") if rows else "none yet; drop or add some"
        self.said.setText(f"{self._name}: {told}")

    def ask_files(self) -> None:
        """Choose photos of it."""
        kinds = " ".join(f"*{ending}" for ending in ENDINGS)
        names, _ = QFileDialog.getOpenFileNames(self, "Take in photos", "", f"Photos ({kinds})")
        self.take([Path(name) for name in names])

    def take(self, paths: list[Path]) -> None:
        """Take photos in as photos of the row shown, in one act."""
        if self._row is not None and paths:
            shows = Shows(self._record, self._row)
            self.taking.take(paths, about=self._about(), phase=self._phase, shows=shows)

    def _came(self) -> None:
        self.show_row(self._row)
        self.taken.emit()

    def _open(self, row: object) -> None:
        """A double click opens the photo large, where it is marked."""
        if isinstance(row, PhotoRow):
            follow(self._desk, Ref("photo", row.id))
