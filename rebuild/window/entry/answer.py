"""What the entry line answers: the value read back with its verdict, a question, or what is wrong."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from rebuild.trade.results.working import Working
from rebuild.window.ink.shapes import Shape, ShapeMark, shape_for
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.readings.rows_destination import ReadBack


@dataclass(frozen=True, slots=True)
class Way:
    """One numbered way on: what it says and what it does."""

    words: str
    take: Callable[[], object]


class EntryAnswer(QWidget):
    """A shape, a sentence, and under it the numbered ways on when there is a question; else what ``below`` shows.

    Its room is kept whatever it says, so that nothing beside it moves when a message comes.
    """

    working_wanted = Signal(object)
    told = Signal()  #: it says something else now

    def __init__(self, parent: QWidget | None = None, below: QWidget | None = None) -> None:
        super().__init__(parent)
        self._below = below
        self.mark = ShapeMark(None, self, 16)
        self.sentence = PlainLabel(self)
        self.sentence.setWordWrap(True)
        self.sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.sentence.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.sentence.setAccessibleName("Read back")
        self.sentence.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        self.working = QPushButton("&Working", self)
        self.working.setToolTip("How the verdict was reached")
        self.working.hide()
        self._working: Working | None = None
        self._ways: list[Way] = []
        self.asks = False
        self._row = QGridLayout()
        self._row.setSpacing(4)
        upper = QHBoxLayout()
        upper.setSpacing(6)
        upper.addWidget(self.mark, 0, Qt.AlignmentFlag.AlignTop)
        upper.addWidget(self.sentence, 1)
        upper.addWidget(self.working, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(upper)
        layout.addLayout(self._row)
        layout.addStretch(1)
        if below is not None:
            layout.addWidget(below)
        self.keep_room()
        self.working.clicked.connect(self._open)

    def keep_room(self) -> None:
        """Keep room for three lines and what stands below, which is room for a question with four ways on too."""
        line = self.sentence.fontMetrics().lineSpacing()
        below = self._below.minimumSizeHint().height() if self._below is not None else 0
        button = self.working.sizeHint().height()
        self.setMinimumHeight(max(3 * line + below, 2 * line + 2 * button) + 6)

    @property
    def ways(self) -> Sequence[Way]:
        """The ways on that are offered now."""
        return self._ways

    @property
    def tells_stored(self) -> bool:
        """Whether it reads a stored value back now."""
        return self._working is not None

    def show_stored(self, back: ReadBack, on: str) -> None:
        """Read a stored value back: both units, the verdict in its shape and sentence, and where it lies."""
        finding = _capital(back.judged.value.finding).rstrip(".")
        self._show(f"{back.both}.  {finding}.  {on}", shape_for(back.verdict), ())
        self._working = back.judged.working
        self.working.show()

    def show_words(self, sentence: str, shape: Shape | None = None) -> None:
        """Say something, with no way to choose."""
        self._show(sentence, shape, ())

    def ask(self, sentence: str, ways: Sequence[Way]) -> None:
        """Ask; each way has its number as key."""
        self._show(sentence, Shape.ASKED, ways)

    def take(self, number: int) -> None:
        """Take one of the ways offered, counted from 1."""
        if 1 <= number <= len(self._ways):
            self._ways[number - 1].take()

    def _show(self, sentence: str, shape: Shape | None, ways: Sequence[Way]) -> None:
        self.mark.show_shape(shape)
        self.sentence.setText(sentence)
        self._working = None
        self.working.hide()
        self._ways = list(ways)
        if self._below is not None:
            self._below.setVisible(not self._ways)
        while self._row.count():
            item = self._row.takeAt(0)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for number, way in enumerate(self._ways, 1):
            button = QPushButton(f"{number}   {way.words}", self)
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            button.clicked.connect(lambda _checked=False, number=number: self.take(number))
            self._row.addWidget(button, (number - 1) // 2, (number - 1) % 2, Qt.AlignmentFlag.AlignLeft)
        self._row.setColumnStretch(1, 1)
        self.asks = shape is Shape.ASKED
        self.told.emit()

    def _open(self) -> None:
        if self._working is not None:
            self.working_wanted.emit(self._working)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
