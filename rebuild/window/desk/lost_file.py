"""The open file is no longer at its path: said loudly, with the ways to go on."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import FileElsewhere


class LostFile(QDialog):
    """Go on where the file is now, save what is held under a new name, or close.

    It goes by itself when the file is back at its path.
    """

    go_on = Signal(object)
    save_as = Signal()
    let_go = Signal()

    def __init__(self, trouble: FileElsewhere, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle("The file is no longer where it was")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.said = QLabel(str(trouble), self)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setWordWrap(True)
        self.said.setAccessibleName("What happened")
        went = Path(trouble.went_to) if trouble.went_to else None
        self.go = QPushButton(f"Go on in {went.name}" if went else "Go on where it is", self)
        self.go.setVisible(went is not None)
        self.save = QPushButton("Save under a new name…", self)
        self.close_file = QPushButton("Close the file", self)
        self.close_file.setToolTip("What could not be stored is written out as plain text first")
        self.go.clicked.connect(lambda: self.go_on.emit(went))
        self.save.clicked.connect(self.save_as)
        self.close_file.clicked.connect(self.let_go)
        ways = QHBoxLayout()
        for button in (self.go, self.save, self.close_file):
            ways.addWidget(button)
        ways.addStretch(1)
        layout = QVBoxLayout(self)
        layout.addWidget(self.said)
        layout.addLayout(ways)
        self.setMinimumWidth(520)
        (self.go if went else self.save).setDefault(True)
