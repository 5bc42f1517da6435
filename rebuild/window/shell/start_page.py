"""The first page: make a new file, open one, try the demo, or go on where you were."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QKeyEvent, QPalette
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from rebuild.window.desk.memory import Memory
from rebuild.window.ink import theme
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.shell.offer import Offer

OFFERS = (
    ("new_file", "&New file", "Begin with an empty project; name the machine next"),
    ("open_file", "&Open a file", "A project on this computer; or drag it into this window"),
    ("try_demo", "&Try the demo", "A shaper and a lathe, both in the middle of a rebuild"),
)
WIDTH = 560


class StartPage(QWidget):
    """What to begin with. ``asked`` carries an action's key, ``chosen`` a file."""

    asked = Signal(str)
    chosen = Signal(object)

    def __init__(self, memory: Memory, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._memory = memory
        self._scroll = QScrollArea(self)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setAccessibleName("What to begin with")
        self._column = QWidget(self)
        self._column.setFixedWidth(WIDTH)
        self._list = QVBoxLayout(self._column)
        self._list.setSpacing(2)
        self._said = PlainLabel(self._column)
        self._said.setWordWrap(True)
        self._said.setAccessibleName("Message")
        self._recent = QVBoxLayout()
        self._recent.setSpacing(0)
        self._recent.setContentsMargins(0, 8, 0, 0)
        self._build()
        self.read()

    def _build(self) -> None:
        title = PlainLabel("Rebuild", self._column)
        title.setFont(theme.large(self.font(), 2.2))
        under = PlainLabel(
            "The rebuild of a worn machine tool, from teardown to the machine’s book", self._column
        )
        under.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self._list.addWidget(title)
        self._list.addWidget(under)
        self._list.addWidget(_rule(self._column))
        for key, words, told in OFFERS:
            self._list.addWidget(self._offer(key, words, told))
        self._list.addWidget(self._said)
        self._list.addLayout(self._recent)
        inner = QWidget()
        inner.setAutoFillBackground(False)
        middle = QVBoxLayout(inner)
        middle.addStretch(2)
        middle.addWidget(self._column, 0, Qt.AlignmentFlag.AlignHCenter)
        middle.addStretch(3)
        # In a low window the lines keep their height and are scrolled to.
        self._scroll.setWidget(inner)
        self._scroll.viewport().setAutoFillBackground(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self._scroll)

    def _offer(self, key: str, words: str, told: str) -> Offer:
        button = Offer(words, told, self._column)
        button.setObjectName(key)
        button.clicked.connect(lambda _checked=False: self.asked.emit(key))
        return button

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """The underlined letter alone does it too: there is nothing to type into here."""
        held = event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
        letter = event.text().casefold()
        for key, words, _told in OFFERS:
            if letter and not held and letter == words[words.index("&") + 1].casefold():
                self.asked.emit(key)
                return
        super().keyPressEvent(event)

    def read(self) -> None:
        """Show the recent files."""
        while (item := self._recent.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        recent = self._memory.recent()
        if not recent:
            return
        self._recent.addWidget(_rule(self._column))
        head = PlainLabel("Opened before", self._column)
        head.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self._recent.addWidget(head)
        for path in recent:
            button = Offer(path.name, str(path.parent), self._column)
            button.clicked.connect(lambda _checked=False, chosen=path: self.chosen.emit(chosen))
            self._recent.addWidget(button)

    def say(self, sentence: str) -> None:
        """Show a sentence under the offers; empty takes it away."""
        self._said.setText(f"▸ {sentence}" if sentence else "")
        self._said.setVisible(bool(sentence))

    @property
    def sentence(self) -> str:
        """The sentence shown."""
        return self._said.text()


def _rule(parent: QWidget) -> QFrame:
    rule = QFrame(parent)
    rule.setFrameShape(QFrame.Shape.HLine)
    rule.setForegroundRole(QPalette.ColorRole.Mid)
    return rule


def dropped_file(event: QDragEnterEvent | QDropEvent) -> Path | None:
    """The one file a drag brings, or None."""
    urls = event.mimeData().urls()
    return Path(urls[0].toLocalFile()) if len(urls) == 1 and urls[0].isLocalFile() else None
