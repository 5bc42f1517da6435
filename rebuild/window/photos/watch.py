"""Watch a folder: photos that come into it are taken in by themselves, once they have stopped growing."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from rebuild.errors import FileTrouble
from rebuild.work.photos.acts import photos_in

LOOK_MS = 2000


class FolderWatch(QObject):
    """Looks every two seconds. ``arrived`` tells new whole files; ``lost`` that the folder is no longer there."""

    arrived = Signal(list)
    lost = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.folder: Path | None = None
        self._seen: set[Path] = set()
        self._growing: dict[Path, int] = {}
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self.look)

    def begin(self, folder: Path) -> None:
        """Watch a folder; what lies there already is left. Raises FileTrouble."""
        self._seen = set(photos_in(folder))
        self._growing.clear()
        self.folder = folder
        self._timer.start()

    def end(self) -> None:
        """Watch no longer."""
        self._timer.stop()
        self.folder = None

    def look(self) -> None:
        """Look once: a file is whole when it has the size it had at the look before."""
        if self.folder is None:
            return
        try:
            there = photos_in(self.folder)
            sizes = {path: path.stat().st_size for path in there if path not in self._seen}
        except FileTrouble as trouble:
            self.end()
            self.lost.emit(str(trouble))
            return
        except OSError:
            return  # one was moved away while it was looked at; the next look tells
        whole = [path for path, size in sizes.items() if size and self._growing.get(path) == size]
        self._growing = sizes
        self._seen.update(whole)
        if whole:
            self.arrived.emit(whole)
