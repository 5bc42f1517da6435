"""Walk through every page of the window with a file, as a user would look at each."""

from __future__ import annotations

import os
import sys
import traceback
from pathlib import Path
from types import TracebackType

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


def walk_pages(path: Path) -> None:
    """Open a file as a start does, show every page, choose every machine; raise what a slot raised.

    Raises:
        AssertionError: a slot ended in a traceback.
    """
    from PySide6.QtCore import QCoreApplication, QEvent
    from PySide6.QtWidgets import QApplication

    from rebuild.window.desk.memory import Memory
    from rebuild.window.shell.start import application, frame_for

    application()
    raised: list[str] = []

    def note(kind: type[BaseException], value: BaseException, where: TracebackType | None) -> None:
        raised.append("".join(traceback.format_exception(kind, value, where, limit=-6)))

    hook, sys.excepthook = sys.excepthook, note
    frame = None
    try:
        frame = frame_for(path, Memory(path.with_suffix(".ini")))
        frame.show()
        QApplication.processEvents()
        if frame.desk.is_open:
            with frame.desk.store.read() as connection:
                machines = connection.exec_driver_sql("SELECT id FROM machine").scalars().all()
            for machine in machines:
                frame.desk.choose_machine(machine)
                for page in frame.pages:
                    frame.show_page(page.key)
                    QApplication.processEvents()
    finally:
        if frame is not None:
            frame.close()
            frame.desk.close()
            frame.deleteLater()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        sys.excepthook = hook
    assert not raised, raised[0]
