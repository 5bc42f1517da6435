"""The files of a drop: each one dropped, and those of a folder that can be read as pictures."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtGui import QDropEvent

from rebuild.work.photos.acts import photos_in


def files_dropped(event: QDropEvent) -> list[Path]:
    """What was dropped, folders opened. Raises OSError: a folder cannot be read."""
    paths: list[Path] = []
    for url in event.mimeData().urls():
        path = Path(url.toLocalFile())
        paths += photos_in(path) if path.is_dir() else [path]
    return paths
