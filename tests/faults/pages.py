"""Walk through every page of the window with a file, as a user would look at each."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rebuild.window.shell.frame import Frame

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


def walk_pages(path: Path) -> None:
    """Open a file as a start does, show every page, choose every machine, quicker than it is looked over beside them.

    Raises:
        AssertionError: a slot ended in what is shown as a fault of the program.
    """
    from rebuild.window.desk.memory import Memory
    from rebuild.window.shell.last_resort import last_resort
    from rebuild.window.shell.start import application, frame_for
    from tests.window.conftest import close_all_windows

    application()
    with last_resort() as faults:
        frame = None
        try:
            frame = frame_for(path, Memory(path.with_suffix(".ini")))
            faults.look_over = frame.desk.look_over_at_once
            _walk(frame)
        finally:
            if frame is not None:
                close_all_windows()
                frame.desk.close()
        assert not faults.reports, next(iter(faults.reports))


def _walk(frame: Frame) -> None:
    from PySide6.QtWidgets import QApplication

    frame.show()
    QApplication.processEvents()
    if not frame.desk.is_open:
        return
    with frame.desk.store.read() as connection:
        machines = connection.exec_driver_sql("SELECT id FROM machine").scalars().all()
    for machine in machines:
        frame.desk.choose_machine(machine)
        for page in frame.pages:
            frame.show_page(page.key)
            QApplication.processEvents()
