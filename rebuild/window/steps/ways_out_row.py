"""Why an act was refused, and its ways out: each a button that also takes one key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.window.entry.gauge import TAKES_DIGITS
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.steps.answer_keys import AnswerKeys
from rebuild.work.records.ways_out import Refused, RowLead, Way, WayKind


class _RowButton(QPushButton):
    """Leads to a row; as many of its words as there is room for, all of them in its tip. It widens no pane."""

    def __init__(self, words: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = f"→   {words}"
        self.setAccessibleName(f"Go to: {words}")
        self.setToolTip(plain_tip(words))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setAutoDefault(False)
        self.setFlat(True)
        self.setStyleSheet("text-align: left; padding: 1px 8px;")
        self.setText(self._words.replace("&", "&&"))

    def resizeEvent(self, event: QResizeEvent) -> None:
        room = self.width() - 2 * 8
        fitting = self.fontMetrics().elidedText(self._words, Qt.TextElideMode.ElideRight, room)
        self.setText(fitting.replace("&", "&&"))
        super().resizeEvent(event)


def _scrolled(inside: QWidget, rows: int, most: int) -> QScrollArea:
    """Many rows in the room of a few; half of one more is seen, so that it is plain that there are more."""
    area = QScrollArea()
    area.setAccessibleName(f"{rows} rows that stand against it")
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setWidget(inside)
    area.setFixedHeight(inside.sizeHint().height() * (2 * most + 1) // (2 * rows))
    return area


class WaysOutRow(QWidget):
    """A sentence with its ways out beneath; while it has the keyboard, a letter takes a way and Esc none.

    Asked out of a field that is typed in, it leaves the keyboard there: who types on without looking up would
    answer with a letter of the next words. Then Alt and the letter takes a way.

    A way that wants a reason is taken once the line below says one; Enter in that line takes it.
    """

    taken = Signal(object)
    #: A row that stands against the act, to be gone to.
    led = Signal(object)
    #: Every row has its button; more than so many are scrolled through, so that the list above keeps its room.
    MOST_ROWS = 6
    given_up = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Why not, and what to do instead")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.ways: tuple[Way, ...] = ()
        self._shown: list[QWidget] = []
        self.follows_rows = False
        self.sentence = PlainLabel(self)
        self.sentence.setWordWrap(True)
        self.sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 2, 0, 2)
        self._layout.setSpacing(3)
        self._layout.addWidget(self.sentence)
        self.reason = QLineEdit(self)
        self.reason.setAccessibleName("Reason")
        self.reason.setPlaceholderText("Why, in a few words: it is kept and printed in the book")
        self.reason.returnPressed.connect(self._take_with_reason)
        self.reason.hide()
        self._layout.addWidget(self.reason)
        self.grade = QLineEdit(self)
        self.grade.setAccessibleName("Class of the screw")
        self.grade.setPlaceholderText("Its class, read off the head: 8.8, 10.9 or grade 5, then Enter")
        self.grade.returnPressed.connect(self._take_with_class)
        self.grade.hide()
        self._layout.insertWidget(1, self.grade)
        self._wanting: Way | None = None
        self._keys = AnswerKeys(self)
        self._keys.pressed.connect(self.take_key)
        self._keys.given_up.connect(self._give_up)
        self.hide()

    def ask(self, trouble: RebuildError) -> None:
        """Show a trouble; a refusal shows its ways, and the rows it is about, and takes the keyboard."""
        ways, rows = (trouble.ways, trouble.rows) if isinstance(trouble, Refused) else ((), ())
        self.show_ways(str(trouble), ways, rows)

    def _show_rows(self, rows: Sequence[RowLead]) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        every = list(dict.fromkeys(rows))
        for row in every:
            button = _RowButton(row.words, inside)
            button.clicked.connect(lambda _checked=False, row=row: self.led.emit(row))
            column.addWidget(button)
        if not every:
            inside.deleteLater()
            return
        shown = _scrolled(inside, len(every), self.MOST_ROWS) if len(every) > self.MOST_ROWS else inside
        self._layout.insertWidget(self._layout.count() - 1, shown)
        self._shown.append(shown)

    def show_ways(self, sentence: str, ways: Sequence[Way], rows: Sequence[RowLead] = ()) -> None:
        """Show a sentence with some ways out and the rows it is about; an empty sentence puts the row away."""
        for widget in self._shown:
            self._layout.removeWidget(widget)
            widget.hide()
            widget.deleteLater()
        self._shown = []
        self.ways = tuple(ways)
        typed_in = self._keys.watch({way.key for way in self.ways})
        self.sentence.setText(f"▸ {sentence}" if sentence else "")
        for way in self.ways:
            key = f"Alt+{way.key}" if typed_in else way.key
            button = QPushButton(f"{key}   {way.words.replace('&', '&&')}", self)
            button.setAccessibleName(f"{way.words}, key {key}")
            button.setAutoDefault(False)
            button.setStyleSheet("text-align: left; padding: 3px 8px;")
            button.clicked.connect(lambda _checked=False, way=way: self._take(way))
            self._layout.insertWidget(self._layout.count() - 1, button)
            self._shown.append(button)
        if self.follows_rows:
            self._show_rows(rows)
        self._wanting = next((way for way in self.ways if way.wants_reason), None)
        self.reason.clear()
        self.reason.setVisible(self._wanting is not None)
        self.grade.clear()
        self.grade.setVisible(self._classing() is not None)
        self.setProperty(TAKES_DIGITS, bool(self.ways))
        self.setVisible(bool(sentence))
        if self.ways and not typed_in:
            self.setFocus()

    def clear(self) -> None:
        """Put the row away."""
        self.show_ways("", ())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._give_up()
            return
        if not self.take_key(event.text()):
            super().keyPressEvent(event)

    def take_key(self, typed: str) -> bool:
        """Take the way of a key; False when no way shown has it."""
        for way in self.ways:
            if typed and typed.upper() == way.key:
                self._take(way)
                return True
        return False

    def _give_up(self) -> None:
        self.clear()
        self.given_up.emit()

    def _take_with_reason(self) -> None:
        if self._wanting is not None:
            self._take(self._wanting)

    def _classing(self) -> Way | None:
        return next((way for way in self.ways if way.kind is WayKind.SAY_CLASS), None)

    def _take_with_class(self) -> None:
        if (way := self._classing()) is not None:
            self._take(way)

    def _take(self, way: Way) -> None:
        if way.kind is WayKind.SAY_CLASS:
            self._say_class(way)
            return
        reason = self.reason.text().strip()
        if way.wants_reason and not reason:
            self._wanting = way
            self.reason.setFocus()
            return
        self.clear()
        self.taken.emit(replace(way, reason=reason if way.wants_reason else ""))

    def _say_class(self, way: Way) -> None:
        typed = self.grade.text().strip()
        if not typed:
            self.grade.setFocus()
            return
        self.clear()
        self.taken.emit(replace(way, reason=typed))
