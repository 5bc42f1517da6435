"""The window no larger than the screen has room for: its foot, where it is said what was done, must be seen."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QWidget

#: What the frame of a window takes before the system says how wide it is [px].
SIDES, BARS = 8, 40


def fit_to_screen(window: QWidget) -> None:
    """Before it is shown: one that has no room beside its frame fills the screen instead."""
    if outgrows(window.size(), window.screen().availableGeometry().size()):
        window.setWindowState(window.windowState() | Qt.WindowState.WindowMaximized)


def outgrows(size: QSize, room: QSize) -> bool:
    """Whether a window of that size has no room on the screen with its frame.

    >>> outgrows(QSize(1280, 800), QSize(1280, 800)), outgrows(QSize(1280, 800), QSize(1920, 1040))
    (True, False)
    """
    return size.width() + SIDES > room.width() or size.height() + BARS > room.height()
