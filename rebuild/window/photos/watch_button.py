"""The button that begins and ends the watching of a folder, and says which is watched."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.photos.watch import FolderWatch


class WatchButton(QPushButton):
    """It begins to watch a folder the user names, or ends."""

    def __init__(self, desk: Desk, watch: FolderWatch, parent: QWidget | None = None) -> None:
        super().__init__("&Watch a folder…", parent)
        self._desk = desk
        self._watch = watch
        self.clicked.connect(self._begin_or_end)
        watch.lost.connect(self._lost)

    def _begin_or_end(self) -> None:
        if self._watch.folder is not None:
            self._watch.end()
            self._say()
            return
        name = QFileDialog.getExistingDirectory(self.parentWidget(), "Watch a folder for new photos")
        if name:
            self._desk.attempt(lambda: self._watch.begin(Path(name)))
        self._say()

    def _say(self) -> None:
        folder = self._watch.folder
        self.setText("&Watch a folder…" if folder is None else "End &watching")
        if folder is not None:
            self._desk.say(f"New photos in “{folder.name}” are taken in by themselves.")

    def _lost(self, sentence: str) -> None:
        self._say()
        self._desk.say(sentence, Say.TROUBLE)
