"""The operations of a sheet as numbered cards; the chosen one opens into its fields, in place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QGridLayout, QScrollArea, QVBoxLayout, QWidget

from rebuild.window.ink import theme
from rebuild.window.ink.shapes import Shape, ShapeMark
from rebuild.window.layout.plain import PlainLabel


@dataclass(frozen=True, slots=True)
class CardWords:
    """What a card says: ``facts`` is how it is done, on one line; ``done`` the day it was."""

    id: int
    number: int
    what: str
    facts: str
    done: str = ""


class StepCard(QFrame):
    """One card; ``place`` takes the form while it is chosen."""

    taken = Signal(int)
    moved = Signal(int)
    opened = Signal()
    ticked = Signal()

    def __init__(self, words: CardWords, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words = words
        self.chosen = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        number = PlainLabel(str(words.number))
        number.setFont(theme.large(self.font(), 1.6))
        number.setMinimumWidth(number.fontMetrics().horizontalAdvance("00") + 4)
        number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        what, facts, done = PlainLabel(words.what), PlainLabel(words.facts), PlainLabel(words.done)
        for label in (what, facts):
            label.setWordWrap(True)
        facts.setVisible(bool(words.facts))
        mark = ShapeMark(Shape.DONE if words.done else Shape.TO_DO, self)
        self.place = QVBoxLayout()
        grid = QGridLayout(self)
        grid.setContentsMargins(6, 5, 8, 5)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(1)
        grid.addWidget(number, 0, 0, 2, 1)
        grid.addWidget(what, 0, 1)
        grid.addWidget(mark, 0, 2)
        grid.addWidget(done, 0, 3)
        grid.addWidget(facts, 1, 1, 1, 3)
        grid.addLayout(self.place, 2, 1, 1, 3)
        grid.setColumnStretch(1, 1)
        told = f"Step {words.number}: {words.what}" + (f", done {words.done}" if words.done else "")
        self.setAccessibleName(told)
        self.setAccessibleDescription(words.facts)

    def choose(self, chosen: bool) -> None:
        """Show it as the one in hand, or not."""
        self.chosen = chosen
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, scheme = QPainter(self), theme.ink()
        painter.fillRect(self.rect(), scheme.sheet)
        painter.setPen(QPen(scheme.rule, 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)
        if self.chosen:
            painter.fillRect(0, 0, 4, self.height() - 1, scheme.ink)
        if self.hasFocus():
            painter.setPen(QPen(scheme.focus, 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -2))
        painter.end()

    def mousePressEvent(self, _event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.taken.emit(self.words.id)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down go to the cards beside it, Enter into its fields, Space ticks it."""
        if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self.moved.emit(-1 if event.key() == Qt.Key.Key_Up else 1)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.opened.emit()
        elif event.key() == Qt.Key.Key_Space:
            self.ticked.emit()
        else:
            super().keyPressEvent(event)


class StepCards(QScrollArea):
    """The cards under each other. ``chosen_changed``: another is in hand, 0 for none; its form lies within it."""

    chosen_changed = Signal(int)
    ticked = Signal()

    def __init__(self, form: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._form = form
        self.cards: list[StepCard] = []
        self.key = 0
        self.setAccessibleName("Steps of the sheet")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._inside = QWidget()
        self._column = QVBoxLayout(self._inside)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addStretch(1)
        self.setWidget(self._inside)

    def minimumSizeHint(self) -> QSize:
        return QSize(240, 90)

    def fill(self, rows: Sequence[CardWords]) -> None:
        """Show other cards; the one in hand stays so, and what is being typed in it."""
        if [card.words for card in self.cards] == list(rows):
            return
        had_focus = next((card.words.id for card in self.cards if card.hasFocus()), 0)
        self._form.setParent(self)
        self._form.hide()
        for card in self.cards:
            self._column.removeWidget(card)
            card.hide()
            card.deleteLater()
        self.cards = []
        for at, words in enumerate(rows):
            card = StepCard(words, self._inside)
            card.taken.connect(self.choose)
            card.moved.connect(lambda by, at=at: self._go(at + by))
            card.opened.connect(self._open)
            card.ticked.connect(self.ticked)
            self._column.insertWidget(at, card)
            card.show()
            self.cards.append(card)
        ids = [words.id for words in rows]
        self.choose(self.key if self.key in ids else ids[0] if ids else 0)
        if had_focus in ids:
            self.cards[ids.index(had_focus)].setFocus()

    def choose(self, key: int) -> None:
        """Take a card in hand: the form is opened in it."""
        changed, self.key = key != self.key, key
        for card in self.cards:
            mine = card.words.id == key
            card.choose(mine)
            if mine and self._form.parentWidget() is not card:
                card.place.addWidget(self._form)
                self._form.show()
        if changed:
            self.chosen_changed.emit(key)

    def _go(self, at: int) -> None:
        if 0 <= at < len(self.cards):
            self.cards[at].setFocus(Qt.FocusReason.OtherFocusReason)
            self.ensureWidgetVisible(self.cards[at])

    def _open(self) -> None:
        self._form.setFocus()
        self._form.focusNextChild()
