"""Ask where a printed sheet goes, and write it there."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from rebuild.errors import FileTrouble
from rebuild.window.desk.desk import Desk


def save_sheet(parent: QWidget, desk: Desk, name: str, write: Callable[[Path], object]) -> Path | None:
    """Ask for a PDF's name and call ``write`` with it; None when the user thought better of it."""
    proposed = str(desk.store.path.with_name(f"{name}.pdf"))
    chosen, _kind = QFileDialog.getSaveFileName(parent, f"Print {name.lower()}", proposed, "PDF (*.pdf)")
    if not chosen:
        return None
    path = Path(chosen).with_suffix(".pdf")

    def act() -> bool:
        try:
            write(path)
        except OSError as trouble:
            raise FileTrouble(
                f"cannot be written ({trouble.strerror}).", where=path.name, way_out="Choose another folder."
            ) from trouble
        return True

    if not desk.attempt(act):
        return None
    desk.say_written(path)
    return path
