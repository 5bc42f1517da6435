"""A picture file read small."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QImage, QImageReader

#: Endings Qt has no reader for; Pillow reads them.
BY_PILLOW = (".heic",)


def read_scaled(path: Path, side: int) -> QImage:
    """A picture read no larger than ``side``, upright; a null image when it cannot be read."""
    if path.suffix in BY_PILLOW:
        return _by_pillow(path, side)
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    size = reader.size()
    if size.isValid():
        reader.setScaledSize(size.scaled(QSize(side, side), Qt.AspectRatioMode.KeepAspectRatio))
    return reader.read()


def _by_pillow(path: Path, side: int) -> QImage:
    from PIL import ImageOps

    from rebuild.work.photos.rules_pictures import DAMAGE, opened

    try:
        with opened(path) as image:
            upright = ImageOps.exif_transpose(image).convert("RGB")
            upright.thumbnail((side, side))
    except DAMAGE:
        return QImage()
    wide, high = upright.size
    return QImage(upright.tobytes(), wide, high, 3 * wide, QImage.Format.Format_RGB888).copy()
