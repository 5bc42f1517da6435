"""The open file is no longer at its path: said loudly, with the ways to go on."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import FileElsewhere
from rebuild.window.layout.plain import PlainLabel


class LostFile(QDialog):
    """Go on where the file is now, save what is held under a new name, or close.

    It goes by itself when the file is back at its path. It is answered by its buttons alone: a gauge's digits and Enter
    are kept. Escape puts it away until the next act. What would throw away the last copy is asked once more.
    """

    go_on = Signal(object)
    save_as = Signal()
    let_go = Signal()
    #: A gauge sent this, or it was typed, while the question stood.
    typed = Signal(str)

    def __init__(self, trouble: FileElsewhere, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle("The file is no longer where it was")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.said = PlainLabel(str(trouble), self)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setWordWrap(True)
        self.said.setAccessibleName("What happened")
        went = Path(trouble.went_to) if trouble.went_to else None
        self.go = QPushButton(f"Go on in {went.name}" if went else "Go on where it is", self)
        self.go.setVisible(went is not None)
        self.save = QPushButton("Save under a new name…", self)
        self.close_file = QPushButton("Close the file", self)
        self.close_file.setToolTip("What could not be stored is written out as plain text first")
        self._last_copy = went is None
        self._burst = ""
        for button in (self.go, self.save, self.close_file):
            button.setAutoDefault(False)
        self.go.clicked.connect(lambda: self.go_on.emit(went))
        self.save.clicked.connect(self.save_as)
        self.close_file.clicked.connect(self._close_asked)
        ways = QHBoxLayout()
        for button in (self.go, self.save, self.close_file):
            ways.addWidget(button)
        ways.addStretch(1)
        layout = QVBoxLayout(self)
        layout.addWidget(self.said)
        layout.addLayout(ways)
        self.setMinimumWidth(520)
        self.setFocus()

    def _close_asked(self) -> None:
        if self._last_copy:
            self._last_copy = False
            self.said.setText(
                f"{self.said.text()}\n\nWhat is open here is the last copy of it. Closing throws it away: "
                "save it under a new name first, or press the button again."
            )
            self.close_file.setText("Throw the last copy away")
            return
        self.let_go.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keep what is typed or sent meanwhile; Enter ends it and presses nothing."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self._burst.strip():
                self.typed.emit(self._burst.strip())
            self._burst = ""
        elif event.text().isprintable() and event.text():
            self._burst += event.text()
        else:
            super().keyPressEvent(event)
