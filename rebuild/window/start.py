"""Start the window: application, palette, frame; the file asked for, the demo, or the last one."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QTimer
from PySide6.QtWidgets import QApplication

from rebuild.window.desk import Desk
from rebuild.window.frame import Frame
from rebuild.window.memory import Memory, memory_path
from rebuild.window.scheme import Scheme

NO_DISPLAY = 3
SETTLE_MS = 400


def display_trouble() -> str:
    """Why no window can be shown here, as a sentence; empty when one can."""
    if sys.platform != "linux" or os.environ.get("QT_QPA_PLATFORM"):
        return ""
    if os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"):
        return ""
    return (
        "There is no display here to show a window on. Run it on a desktop, or use the commands that need "
        "none: rebuild --help."
    )


def run(path: Path | None, demo: bool = False, picture: Path | None = None) -> int:
    """Show the window and stay until it is closed; returns the exit code.

    Args:
        path: the file to open; None goes on with the one open last, or shows the first page.
        demo: open the demo, built first when it is not there.
        picture: write a picture of the window there and leave.
    """
    trouble = display_trouble()
    if trouble:
        print(trouble, file=sys.stderr)
        return NO_DISPLAY
    app = _application()
    Scheme(app)
    memory = Memory(memory_path())
    desk = Desk()
    if path is None and not demo:
        path = last_open(memory)
    refused = "" if demo or path is None else _open_first(desk, path)
    frame = Frame(desk, memory)
    if desk.is_open:
        memory.opened(desk.store.path)
    if refused:
        frame.start.say(refused)
    frame.show()
    if demo:
        frame.files.open_demo()
    if picture is not None:
        QTimer.singleShot(SETTLE_MS, frame, lambda: _picture(frame, picture))
    code = app.exec()
    desk.close()
    return code


def _application() -> QApplication:
    app = QCoreApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    app.setApplicationName("Rebuild")
    app.setApplicationDisplayName("Rebuild")
    return app


def _open_first(desk: Desk, path: Path) -> str:
    """Open before the frame is made, so that each pane reads once; returns the sentence when refused."""
    from rebuild.errors import RebuildError

    try:
        desk.open(path)
    except RebuildError as trouble:
        return str(trouble)
    return ""


def last_open(memory: Memory) -> Path | None:
    """The file that was open when the window was last closed, if it is still there."""
    name = memory.text("open")
    return Path(name) if name and Path(name).is_file() else None


def _picture(frame: Frame, path: Path) -> None:
    if not frame.grab().save(str(path)):
        print(f"The picture could not be written to {path}.", file=sys.stderr)
    frame.close()
