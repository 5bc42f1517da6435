"""The line at the foot: what was done last; trouble stays above it until it is over, and can be copied.

A message belongs to where it arose: it is gone when something later went well, when its field is emptied, its page
left or another file opened.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, QTimer, QUrl, Signal
from PySide6.QtGui import QDesktopServices, QGuiApplication, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.hearing import Hearing
from rebuild.window.ink.shapes import Shape, ShapeMark
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.shell.troubles import Troubles
from rebuild.work.records import rows_kept
from rebuild.work.records.rows_kept import kept_entries


class MessageLine(QWidget):
    """Shows the desk's sentences. ``kept_asked`` when the user wants to see the kept entries."""

    kept_asked = Signal()

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._troubles = Troubles(self)
        self._said_now = False
        self._said = PlainLabel(self)
        self._said.setAccessibleName("Last message")
        self._said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self._said.setTextFormat(Qt.TextFormat.PlainText)
        self.trouble = TroubleStrip(self)
        self._written: Path | None = None
        self.open_it = QToolButton(self)
        self.open_it.setText("Open it")
        self.open_it.setAccessibleName("Open what was saved")
        self.open_it.setToolTip("Shows it with the program this computer has for such files")
        self.open_it.hide()
        self.kept = QToolButton(self)
        self.kept.setAutoRaise(True)
        self.kept.setAccessibleName("Kept entries")
        self.kept.setToolTip("What was typed but could not be stored where it was meant")
        self._build()
        self._troubles.changed.connect(self._show_trouble)
        self.trouble.dismissed.connect(self._troubles.dismiss_first)
        self.kept.clicked.connect(self.kept_asked)
        desk.said.connect(self._hear_said)
        desk.wrote.connect(self._hear_wrote)
        self.open_it.clicked.connect(self._open)
        desk.went_well.connect(self.over)
        for signal in (desk.opened, desk.closed):
            signal.connect(self._other_file)
        self._hearing = Hearing(
            desk, self, (rows_kept,), lambda _changed: self._count_kept(), while_hidden=True
        )
        self._count_kept()

    def _build(self) -> None:
        line = QHBoxLayout()
        line.setContentsMargins(8, 2, 8, 3)
        line.addWidget(self._said, 1)
        line.addWidget(self.open_it)
        line.addWidget(self.kept)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addWidget(self.trouble)
        whole.addLayout(line)

    @property
    def sentence(self) -> str:
        """The sentence shown last."""
        return self._said.text()

    @property
    def troubles(self) -> list[str]:
        """Troubles not over yet; the first is shown."""
        return self._troubles.sentences

    def over(self) -> None:
        """Something went well, or the page is left: what was said before is over."""
        self._troubles.end_old()
        if not self._said_now:
            self._say("")

    def _hear_said(self, sentence: str, how: Say) -> None:
        if how is Say.TROUBLE:
            self._troubles.add(sentence)
        else:
            self._say(sentence)
            self._said_now = True
            QTimer.singleShot(0, self, self._age)

    def _hear_wrote(self, path: Path) -> None:
        """The sentence just said names a file: it can be opened as long as the sentence stands."""
        self._written = path
        self.open_it.show()

    def _open(self) -> None:
        path = self._written
        if path is not None and not QDesktopServices.openUrl(QUrl.fromLocalFile(str(path))):
            self._desk.say(f"There is no program to show it. It lies in {path}.", Say.ASK)

    def _age(self) -> None:
        self._said_now = False

    def _say(self, sentence: str) -> None:
        self.open_it.hide()
        self._said.setText(sentence)
        self._said.setToolTip(plain_tip(sentence))

    def _show_trouble(self) -> None:
        standing = self._troubles.sentences
        self.trouble.show_sentence(standing[0] if standing else "", len(standing) - 1)

    def _other_file(self) -> None:
        self._troubles.end_all()
        self._say("")

    def _count_kept(self) -> None:
        count = 0
        if self._desk.is_open:
            with self._desk.store.read() as connection:
                count = len(kept_entries(connection))
        self.kept.setVisible(bool(count))
        self.kept.setText(f"{count} kept {'entry' if count == 1 else 'entries'}…")

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Mid))
        painter.drawLine(0, 0, self.width(), 0)
        painter.end()


class TroubleStrip(QWidget):
    """One trouble: a shape and the word, the sentence, copy and dismiss."""

    dismissed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.AlternateBase)
        mark = ShapeMark(Shape.CAUTION, self)
        mark.setAccessibleName("Trouble")
        self.text = PlainLabel(self)
        self.text.setWordWrap(True)
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._more = PlainLabel(self)
        self.copy = self._button("Copy", "Copy the sentence")
        self.dismiss = self._button("Dismiss", "Dismiss the message")
        self.copy.clicked.connect(lambda: QGuiApplication.clipboard().setText(self.text.text()))
        self.dismiss.clicked.connect(self.dismissed)
        line = QHBoxLayout(self)
        line.setContentsMargins(8, 4, 8, 4)
        line.setSpacing(8)
        line.addWidget(mark)
        line.addWidget(self.text, 1)
        line.addWidget(self._more)
        line.addWidget(self.copy)
        line.addWidget(self.dismiss)
        self.hide()

    def _button(self, text: str, spoken: str) -> QToolButton:
        button = QToolButton(self)
        button.setText(text)
        button.setAccessibleName(spoken)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return button

    def show_sentence(self, sentence: str, more: int) -> None:
        """Show a trouble and how many wait behind it; nothing when there is none."""
        self.text.setText(sentence)
        self.text.setAccessibleName(f"Trouble: {sentence}")
        self._more.setText(f"and {more} more" if more > 0 else "")
        self.setVisible(bool(sentence))
