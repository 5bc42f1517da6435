"""Start the window: application, palette, frame; the file asked for, the demo, or the last one.

Nothing heavy is imported here before ``run``: most of a start is imports, and they go a quarter faster
while the collector of cyclic garbage waits.
"""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.errors import FileDamaged, RebuildError
from rebuild.window.desk.gc_pause import gc_paused
from rebuild.window.shell.display import why_no_window

with gc_paused(for_good=True):
    import rebuild.window.shell.beside_qt  # noqa: F401 - before Qt: it says why

    # isort: split
    from rebuild.window.shell.unread import leave_sources_unread

    leave_sources_unread()
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from rebuild.window.desk.look_over import STUMBLED
    from rebuild.window.shell.on_screen import fit_to_screen

if TYPE_CHECKING:
    from rebuild.window.desk.desk import Desk
    from rebuild.window.desk.memory import Memory
    from rebuild.window.shell.frame import Frame

NO_DISPLAY = 3
SETTLE_MS = 400


def run(path: Path | None, demo: bool = False, picture: Path | None = None) -> int:
    """Show the window and stay until it is closed; returns the exit code.

    Args:
        path: the file to open; None goes on with the one open last, or shows the first page.
        demo: open the demo (at ``path`` when given), built first when it is not there.
        picture: write a picture of the window there and leave.
    """
    reason = why_no_window()
    if reason:
        print(reason, file=sys.stderr)
        return NO_DISPLAY
    with gc_paused(for_good=True):
        app = application()
        from rebuild.window.shell.last_resort import last_resort
    with last_resort() as faults:
        with gc_paused(for_good=True):
            frame = _frame(path, demo=demo)
            faults.look_over = frame.desk.look_over_at_once
            if picture is None:
                fit_to_screen(frame)
            frame.show()
        faults.again.connect(frame.desk.say_trouble)
        return _stay(app, frame, path, demo=demo, picture=picture)


def _stay(app: QApplication, frame: Frame, path: Path | None, *, demo: bool, picture: Path | None) -> int:
    if demo and not frame.desk.is_open:
        frame.files.open_demo(path)
    QTimer.singleShot(SETTLE_MS, frame, lambda: _get_ready(frame))
    if picture is not None:
        QTimer.singleShot(SETTLE_MS, frame, lambda: _picture(frame, picture))
    code = app.exec()
    frame.desk.close()
    return code


def application() -> QApplication:
    """The application with its palette, made once."""
    from rebuild.window.ink.scheme import Scheme

    there = QApplication.instance()
    if isinstance(there, QApplication):
        return there
    app = QApplication(sys.argv[:1])
    app.setApplicationName("Rebuild")
    app.setApplicationDisplayName("Rebuild")
    Scheme(app)
    return app


def _frame(path: Path | None, *, demo: bool) -> Frame:
    from rebuild.window.desk.memory import Memory, memory_path

    memory = Memory(memory_path())
    return frame_for(_demo_there(path) if demo else path or last_open(memory), memory)


def frame_for(path: Path | None, memory: Memory) -> Frame:
    """The frame, with the file opened before it is made, so that each pane reads once.

    A file that cannot be opened or shown leaves the window on its first page, with the sentence why.
    """
    from rebuild.store.unreadable import in_words
    from rebuild.window.desk.desk import Desk, Say
    from rebuild.window.shell.frame import Frame

    desk = Desk()
    desk.left_on = memory.left_on
    refused, damaged = _open_first(desk, memory, path) if path is not None else ("", False)
    try:
        frame = _round_bad_cells(desk, memory)
    except _STUMBLED as trouble:
        if not desk.is_open:
            raise
        refused, damaged = _cannot_be_shown(desk.store.path, trouble), True
        desk.close()
        desk = Desk()
        frame = Frame(desk, memory)
    if refused:
        frame.start.say(refused)
        if damaged and path is not None:
            QTimer.singleShot(0, frame, partial(frame.files.offer_mending, path, refused))
    elif desk.is_open and desk.store.unreadable:
        desk.say(in_words(desk.store.unreadable), Say.TROUBLE)
    return frame


def _round_bad_cells(desk: Desk, memory: Memory) -> Frame:
    """The frame; where a page stumbles over a file not looked over yet, that is done and the frame made again."""
    from rebuild.window.shell.frame import Frame

    try:
        return Frame(desk, memory)
    except _STUMBLED:
        if not desk.is_open or desk.store.looked_over:
            raise
        desk.store.look_over()
        return Frame(desk, memory)


#: What a page may end in when the file holds what nobody could have entered.
_STUMBLED = (RebuildError, *STUMBLED)


def _cannot_be_shown(path: Path, trouble: Exception) -> str:
    said = (
        trouble
        if isinstance(trouble, RebuildError)
        else f"{path.name}: the file cannot be shown ({trouble!r})."
    )
    return f"{said} Run “rebuild check” on the file; “rebuild repair” makes a sound copy."


def _demo_there(path: Path | None) -> Path | None:
    """The demo's file when it has been built already."""
    from rebuild.demo.where import demo_path

    wanted = path or demo_path()
    return wanted if wanted.is_file() else None


def _open_first(desk: Desk, memory: Memory, path: Path) -> tuple[str, bool]:
    """Open a file before there is a window; returns the sentence when it is refused, and whether it is damaged."""
    from rebuild.window.desk.left_as_is import is_quick_to_look_over, lies_as_left

    try:
        desk.open(path, looked_over=is_quick_to_look_over(path) and not lies_as_left(memory, path))
    except RebuildError as trouble:
        return str(trouble), isinstance(trouble, FileDamaged)
    except _STUMBLED as trouble:
        return _cannot_be_shown(path, trouble), True
    memory.opened(path)
    return "", False


def last_open(memory: Memory) -> Path | None:
    """The file that was open when the window was last closed, if it is still there."""
    name = memory.text("open")
    return Path(name) if name and Path(name).is_file() else None


def _picture(frame: Frame, path: Path) -> None:
    if not frame.grab().save(str(path)):
        print(f"The picture could not be written to {path}.", file=sys.stderr)
    frame.close()


def _get_ready(frame: Frame) -> None:
    """After the first paint: what the first act needs."""
    from rebuild.window.shell.readiness import get_ready

    get_ready(frame, frame.desk)
