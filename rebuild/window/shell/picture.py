"""A picture of the window without showing one: for a terminal, a report, a machine without a display."""

from __future__ import annotations

import os
from pathlib import Path
from tempfile import TemporaryDirectory

from rebuild.errors import FileTrouble
from rebuild.window.shell.display import why_no_window

SIZE = (1280, 800)


def take_picture(project: Path, png: Path) -> None:
    """Open a project in a window of its own, paint it, and write the picture. Raises FileTrouble.

    The user's own window state is neither read nor written.
    """
    if why_no_window():
        os.environ["QT_QPA_PLATFORM"] = "offscreen"

    from rebuild.window.shell.start import application

    app = application()
    from rebuild.window.desk.desk import Desk
    from rebuild.window.desk.memory import Memory
    from rebuild.window.shell.frame import Frame

    desk = Desk()
    desk.open(project)
    with TemporaryDirectory() as folder:
        frame = Frame(desk, Memory(Path(folder) / "window.ini"))
        frame.resize(*SIZE)
        frame.show()
        app.processEvents()
        written = frame.grab().save(str(png), "PNG")
        frame.close()
    if not written:
        raise FileTrouble(
            "the picture cannot be written.", where=png.name, way_out="Choose a folder you may write to."
        )
