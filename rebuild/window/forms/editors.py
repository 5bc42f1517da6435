"""Editors of one field: a line, several lines, a word of a list, a reference found by typing.

All share ``typed`` and ``put`` and two signals: ``touched`` at the user's every change, ``settled``
when he is done with it. The wheel never changes a value that is only being scrolled past.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Protocol, cast

from PySide6.QtCore import QEvent, QObject, QSize, Qt, QTimer, Signal, SignalInstance
from PySide6.QtGui import QFocusEvent, QKeyEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QCompleter, QLineEdit, QPlainTextEdit, QWidget

from rebuild.window.desk.gauge_keys import GIVES_BACK, TAKES_GAUGE
from rebuild.window.forms.elided_line import ElidedLine
from rebuild.window.forms.whole_line import WholeLine
from rebuild.window.forms.word_keys import WordKeys
from rebuild.words.joints import Tightness
from rebuild.work.records.field import Field, FieldKind, said_moment
from rebuild.work.records.rows import Choice

LINES_SHOWN = 3
#: A value longer than this many average letters is scrolled.
MOST_LETTERS = 24


class Editor(Protocol):
    """What a form needs of an editor; every editor here is also a QWidget."""

    touched: SignalInstance
    settled: SignalInstance

    def typed(self) -> str:
        """The text as it would be stored."""

    def put(self, text: str) -> None:
        """Show a stored text; not a change of the user's."""


class LineEditor(WholeLine):
    """One line of text, shown whole."""

    touched = Signal()
    settled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.textEdited.connect(lambda _text: self.touched.emit())
        self.editingFinished.connect(self.settled)

    def typed(self) -> str:
        return self.text()

    def put(self, text: str) -> None:
        if text != self.text():
            self.setText(text)
            self.setCursorPosition(0)


class DayEditor(LineEditor):
    """One line for a day, told as it is said. How one may be typed stands there only while the caret does."""

    EXAMPLE = "e.g. yesterday, 12 March"

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._stored = ""

    def typed(self) -> str:
        """What was put, to the letter, as long as nothing else is typed: leaving the field is no act."""
        return self._stored if self.text() == said_moment(self._stored) else self.text()

    def put(self, text: str) -> None:
        self._stored = text
        super().put(said_moment(text))

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.setPlaceholderText(self.EXAMPLE)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.setPlaceholderText("")


class ValueEditor(LineEditor):
    """One line for a value: never so narrow that what stands in it is cut, up to ``MOST_LETTERS``."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.textChanged.connect(self.updateGeometry)

    def minimumSizeHint(self) -> QSize:
        """As wide as its words and the cursor after them."""
        letter = self.fontMetrics().averageCharWidth()
        least = super().minimumSizeHint()
        words = self.fontMetrics().horizontalAdvance(self.text())
        return QSize(least.width() + min(max(words, 6 * letter), MOST_LETTERS * letter), least.height())


class LongEditor(QPlainTextEdit):
    """Several lines; Tab moves on, leaving it or Ctrl+Enter settles."""

    touched = Signal()
    settled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._filling = False
        self.setTabChangesFocus(True)
        self.setFixedHeight(LINES_SHOWN * self.fontMetrics().lineSpacing() + 12)
        self.textChanged.connect(self._changed)

    def typed(self) -> str:
        return self.toPlainText()

    def put(self, text: str) -> None:
        if text != self.toPlainText():
            self._filling = True
            self.setPlainText(text)
            self._filling = False

    def _changed(self) -> None:
        if not self._filling:
            self.touched.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.settled.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and (
            event.modifiers() & Qt.KeyboardModifier.ControlModifier
        ):
            self.settled.emit()
            event.ignore()  # a dialog takes it as its own main act
            return
        super().keyPressEvent(event)


class _QuietCombo(QComboBox):
    """A combo box the wheel does not turn in passing."""

    touched = Signal()
    settled = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)
        self.activated.connect(self._chosen)

    def _chosen(self, _index: int) -> None:
        self.touched.emit()
        self.settled.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()


class WordEditor(_QuietCombo):
    """One word of a short closed list; letters of any of its words find it. ``said`` are shown in place of some."""

    def __init__(
        self, words: Sequence[str], parent: QWidget | None = None, said: Mapping[str, str] | None = None
    ) -> None:
        super().__init__(parent)
        for word in words:
            self.addItem((said or {}).get(word, word), word)
        self._keys = WordKeys()
        self.view().installEventFilter(self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Letters choose; all other keys are the combo box's own."""
        row = self._row_for(event, self.currentIndex())
        if row is None:
            super().keyPressEvent(event)
        elif row != self.currentIndex():
            self.setCurrentIndex(row)
            self.activated.emit(row)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Letters go along the open list in the same way."""
        if watched is self.view() and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            row = self._row_for(event, self.view().currentIndex().row())
            if row is not None:
                self.view().setCurrentIndex(self.model().index(row, self.modelColumn()))
                return True
        return super().eventFilter(watched, event)

    def _row_for(self, event: QKeyEvent, current: int) -> int | None:
        return self._keys.row_for(event, [self.itemText(at) for at in range(self.count())], current)

    def typed(self) -> str:
        return str(self.currentData() or "")

    def put(self, text: str) -> None:
        self.setCurrentIndex(max(0, self.findData(text)))


class ReferenceEditor(_QuietCombo):
    """Something of the file, found by typing any part of its name."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._short: dict[str, list[int]] = {}
        #: Whether part of a name is taken where exactly one choice has a word that begins so.
        self.takes_only_holder = False
        self.setEditable(True)
        self.setLineEdit(ElidedLine(self))
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        completer = QCompleter(self.model(), self)
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.setCompleter(completer)
        self.setMaxVisibleItems(16)
        line = self.line()
        line.textEdited.connect(lambda _text: self.touched.emit())
        line.editingFinished.connect(self._show_holder)
        line.editingFinished.connect(self.settled)
        self.currentIndexChanged.connect(self._show_its_beginning)

    def _show_its_beginning(self) -> None:
        """A long name chosen from the list begins in sight, as one filled in does."""
        QTimer.singleShot(0, self.line(), lambda: self.line().setCursorPosition(0))

    def _only_holder(self, text: str) -> int:
        """The place of the one choice with a word that begins as typed; -1 for none, or for several."""
        if not self.takes_only_holder or not text:
            return -1
        begins = re.compile(rf"\b{re.escape(text)}", re.IGNORECASE)
        found = [at for at in range(1, self.count()) if begins.search(self.itemText(at))]
        return found[0] if len(found) == 1 else -1

    def _show_holder(self) -> None:
        """What was taken for part of a name is shown whole."""
        text = self.currentText().strip()
        at = self._only_holder(text)
        if at >= 0 and self.typed() == str(self.itemData(at)):
            self.setCurrentIndex(at)

    def line(self) -> QLineEdit:
        """The line typed into."""
        return cast(QLineEdit, self.lineEdit())

    def offer(self, choices: Sequence[Choice]) -> None:
        """Fill the list; what is shown stays."""
        shown = self.typed()
        self.clear()
        self._short = {}
        self.addItem("", None)
        for choice in choices:
            self.addItem(choice.label, choice.id)
            for word in {word.casefold() for word in choice.short if word}:
                self._short.setdefault(word, []).append(choice.id)
        self.put(shown)

    def typed(self) -> str:
        """The id as text, found by its label, its code or its name alone; else what was typed, refused and kept."""
        text = self.currentText().strip()
        index = self.findText(text, Qt.MatchFlag.MatchFixedString)
        if index < 0:
            meant = self._short.get(text.casefold(), [])
            if len(meant) == 1:
                return str(meant[0])
            index = self._only_holder(text)
            return text if index < 0 else str(self.itemData(index))
        key = self.itemData(index)
        return "" if key is None else str(key)

    def put(self, text: str) -> None:
        index = self.findData(int(text)) if text.isdigit() else 0
        if index >= 0:
            self.setCurrentIndex(index)
        if index <= 0:
            self.setEditText("" if text.isdigit() else text)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.line().setFont(self.font())


def editor_of(field: Field, parent: QWidget | None = None) -> QWidget:
    """The editor a field wants; it satisfies ``Editor``."""
    if field.kind is FieldKind.LONG_TEXT:
        return LongEditor(parent)
    if field.kind is FieldKind.REFERENCE:
        box = ReferenceEditor(parent)
        box.setProperty(GIVES_BACK, True)
        return box
    if field.kind is FieldKind.YES_NO:
        return WordEditor(("no", "yes"), parent)
    if field.kind is FieldKind.CHOICE and field.choices is not None:
        words = [member.value for member in field.choices]
        said = {one.value: one.said for one in field.choices if isinstance(one, Tightness)}
        return WordEditor(["", *words] if field.optional_choice else words, parent, said)
    if field.name == "unit":
        return WordEditor(("mm", "in"), parent)
    line = DayEditor(parent) if field.kind is FieldKind.MOMENT else LineEditor(parent)
    line.setProperty(GIVES_BACK if field.kind is FieldKind.TEXT else TAKES_GAUGE, True)
    line.setPlaceholderText(_EXAMPLES.get(field.kind, ""))
    return line


_EXAMPLES = {
    FieldKind.CELSIUS: "in C or F",
    FieldKind.MINUTES: "in min, h or d",
    FieldKind.SPEC: "a size or its limits, as 6 H7 or 12 ±0.1",
    FieldKind.SLOPE: "0.02 mm/m, or 20 in µm/m",
    FieldKind.HOURS: "in h; or 90 min, 1:30",
    FieldKind.TORQUE: "in N·m, lb-ft or lb-in",
    FieldKind.TORQUE_BAND: "in N·m, lb-ft or lb-in; or 40-45 lb-ft",
}
