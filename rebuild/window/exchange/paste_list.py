"""A list of parts brought in from the clipboard; what holds none is said, and what to do instead."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QMimeData
from PySide6.QtWidgets import QApplication, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.exchange.import_dialog import ImportDialog
from rebuild.window.exchange.import_words import ENDINGS


def paste_list(desk: Desk, window: QWidget) -> ImportDialog | None:
    """Show how the list in the clipboard would go into the chosen subassembly; with none there say so, open nothing."""
    held: QMimeData | None = QApplication.clipboard().mimeData()
    held = held or QMimeData()  # an empty clipboard has none
    files = [Path(url.toLocalFile()) for url in held.urls() if url.isLocalFile()]
    lists = [path for path in files if path.suffix.lower() in ENDINGS]
    if not lists and (files or not held.text().strip()):
        desk.say(_no_list(files, picture=held.hasImage()), Say.ASK)
        return None
    dialog = ImportDialog(desk, window)
    dialog.setWindowTitle("Paste a list of parts")
    dialog.open()
    if lists:
        dialog.read(lists[0])
    else:
        dialog.read_pasted(held.text())
    return dialog


def _no_list(files: Sequence[Path], *, picture: bool) -> str:
    """Why nothing is pasted, and what to do instead."""
    if files:
        name = files[0].name
        return f"The clipboard holds “{name}”, which is no list of parts; photos are pasted under Photos."
    if picture:
        return (
            "The clipboard holds a picture, no list of parts: paste it under Photos, or in the removal line."
        )
    return "The clipboard is empty: copy a list of parts first, in a spreadsheet or a text; Ctrl+N adds one part."
