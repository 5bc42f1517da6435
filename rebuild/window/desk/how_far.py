"""A small window that says how far one piece of work is, with a button that stops it."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QProgressBar, QVBoxLayout, QWidget

from rebuild.window.layout.plain import PlainLabel


def far_bar(parent: QWidget) -> QProgressBar:
    """A bar of hundredths without a figure in it: the words beside it say what is done."""
    bar = QProgressBar(parent)
    bar.setRange(0, 100)
    bar.setTextVisible(False)
    bar.setAccessibleName("How far it is")
    return bar


class HowFar(QDialog):
    """Words, a bar and *Stop*; who derives from it says what stopping does."""

    def __init__(self, title: str, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.words = PlainLabel(title, self)
        self.bar = far_bar(self)
        self.stop = QDialogButtonBox(self)
        self.stop.addButton("Stop", QDialogButtonBox.ButtonRole.RejectRole)
        layout = QVBoxLayout(self)
        for widget in (self.words, self.bar, self.stop):
            layout.addWidget(widget)
        self.setMinimumWidth(420)

    def far(self, share: float, words: str) -> None:
        """Show how far it is, of 1, and at what."""
        self.bar.setValue(round(100 * share))
        self.words.setText(f"{words}…")
