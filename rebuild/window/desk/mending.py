"""A damaged file met in the window: the offer to make a sound one of what can be read, and what came of it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QPlainTextEdit, QVBoxLayout, QWidget

from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted

if TYPE_CHECKING:
    from rebuild.store.repair.repair import Repaired

#: Opens the file made.
Open = Callable[[Path], object]


class Damaged(QDialog):
    """What is wrong with a file, and one button that makes a sound one beside it. The file itself is only read."""

    def __init__(self, path: Path, sentence: str, open_file: Open, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._path, self._open, self._window = path, open_file, parent
        self.setWindowTitle("The file cannot be opened as it is")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.said = PlainLabel(
            f"{sentence}\n\nA sound file can be made from what can be read of it, of the log beside it (-wal) and of "
            f"its backups. {path.name} is only read and stays as it is.",
            self,
        )
        self.said.setWordWrap(True)
        self.said.setAccessibleName("What is wrong")
        ways = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        self.make = ways.addButton("Make a sound file", QDialogButtonBox.ButtonRole.AcceptRole)
        ways.rejected.connect(self.reject)
        ways.accepted.connect(self._make)
        layout = QVBoxLayout(self)
        layout.addWidget(self.said)
        layout.addWidget(ways)
        self.setMinimumWidth(520)

    def _make(self) -> None:
        self.accept()
        mend(self._path, self._open, self._window)


class Mended(QDialog):
    """What was made, every sentence about what could not be saved as it was, and the way into the new file."""

    def __init__(self, made: Repaired, open_file: Open, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle("A sound file was made")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        photos = f" and {counted(made.photos, 'photo')}" if made.photos else ""
        self.said = PlainLabel(f"{made.path.name} holds {counted(made.rows, 'row')}{photos}.", self)
        self.said.setWordWrap(True)
        self.told = QPlainTextEdit("\n".join(made.said) or "Nothing was lost.", self)
        self.told.setReadOnly(True)
        self.told.setAccessibleName("What could not be saved as it was")
        ways = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        self.open_it = ways.addButton(f"Open {made.path.name}", QDialogButtonBox.ButtonRole.AcceptRole)
        ways.rejected.connect(self.reject)
        ways.accepted.connect(self.accept)
        self.accepted.connect(lambda: open_file(made.path))
        layout = QVBoxLayout(self)
        for widget in (self.said, self.told, ways):
            layout.addWidget(widget)
        self.resize(620, 320)


def mend(path: Path, open_file: Open, window: QWidget | None) -> QDialog:
    """Make a sound file beside the window; its end is shown, or the sentence why there is none."""
    from rebuild.store.repair.repair import repair
    from rebuild.window.desk.copying import Copying

    def done(made: object) -> None:
        Mended(made, open_file, window).open()  # type: ignore[arg-type]

    def failed(sentence: str) -> None:
        Damaged(path, sentence, open_file, window).open()

    dialog = Copying("Making a sound file", lambda _tell: repair(path), done, failed, window)
    dialog.stop.hide()  # it is written beside and named when it is whole: there is nothing to stop halfway
    dialog.bar.setRange(0, 0)
    dialog.open()
    return dialog
