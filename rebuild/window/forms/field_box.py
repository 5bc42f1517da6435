"""One field of a form: its label, its editor, and beneath it the sentence of what is wrong."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPalette
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QToolButton, QVBoxLayout, QWidget

from rebuild.errors import Ambiguous, BadEntry, RebuildError
from rebuild.window.forms.editors import Editor, LineEditor, ReferenceEditor, editor_of
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.places import place_meant, place_words
from rebuild.work.records.field import Field, FieldKind

LABEL_WIDTH = 118


class FieldBox(QWidget):
    """A labelled editor that can say a sentence."""

    settled = Signal(str)
    wanted_again = Signal()

    def __init__(self, field: Field, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.field = field
        self.is_touched = False
        self.seen = ""
        self.offered = ""
        self.widget = editor_of(field, self)
        self.widget.setAccessibleName(field.label)
        self.widget.setAccessibleDescription(field.help)
        self.widget.setToolTip(field.help)
        self.setFocusProxy(self.widget)
        self._keeps_room = False
        self._trouble: Trouble | None = None
        self._puts_back = False
        self._under: QWidget | None = None
        self._build()
        if field.refers_to == "place":
            self._typed_into.installEventFilter(self)
        self.editor.touched.connect(self._touched)
        self.editor.settled.connect(lambda: self.settled.emit(self.field.name))

    @property
    def editor(self) -> Editor:
        """The editor, as the form sees it."""
        return cast(Editor, self.widget)

    @property
    def unsaved(self) -> bool:
        """What stands here is neither stored nor given up."""
        return self.is_touched or bool(self.trouble)

    @property
    def is_wide(self) -> bool:
        """Whether it wants the whole width of the form."""
        return self.field.kind is FieldKind.LONG_TEXT

    @property
    def trouble(self) -> str:
        """The sentence shown, or an empty text."""
        return self._trouble.sentence if self._trouble is not None else ""

    def _build(self) -> None:
        label = PlainLabel(self.field.label, self)
        label.setBuddy(self.widget)
        label.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        label.setContentsMargins(0, 4, 0, 0)
        label.setFixedWidth(LABEL_WIDTH)
        label.setWordWrap(True)
        label.setForegroundRole(QPalette.ColorRole.PlaceholderText)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(1)
        self._grid.addWidget(label, 0, 0)
        self._grid.addWidget(self.widget, 0, 1)
        self._grid.setColumnStretch(1, 1)

    def fill(self, text: str) -> None:
        """Show a stored text and forget any trouble."""
        self.seen = text
        self.is_touched = False
        self.editor.put(text)
        self.clear_trouble()

    def let_escape_put_back(self) -> None:
        """From now on Escape puts the stored text back into the field, where another stands in it."""
        self._puts_back = True
        self._typed_into.installEventFilter(self)

    @property
    def _typed_into(self) -> QWidget:
        return self.widget.line() if isinstance(self.widget, ReferenceEditor) else self.widget

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Escape with something to put back is this field's; with nothing it goes on to the window."""
        is_key = event.type() in (QEvent.Type.KeyPress, QEvent.Type.ShortcutOverride)
        if not is_key or not isinstance(event, QKeyEvent):
            return super().eventFilter(watched, event)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and event.type() == QEvent.Type.KeyPress:
            # A combo box hands Enter to its line twice; a filter sees the one key pressed.
            if self.offered and self.editor.typed().strip() == self.offered and not event.isAutoRepeat():
                self.wanted_again.emit()
            return super().eventFilter(watched, event)
        if not self._puts_back or event.key() != Qt.Key.Key_Escape:
            return super().eventFilter(watched, event)
        if self.editor.typed() == self.seen and not self.trouble:
            return super().eventFilter(watched, event)
        if event.type() == QEvent.Type.KeyPress:
            self.put_back()
        event.accept()
        return True

    def put_back(self) -> None:
        """The stored text again; in a line the typed one is one Ctrl+Z away."""
        if isinstance(self.widget, LineEditor):
            self.widget.selectAll()
            self.widget.insert(self.seen)
        self.fill(self.seen)

    def show_trouble(self, error: RebuildError) -> None:
        """Say what is wrong; the typed text stays. Honest readings can be taken with one key."""
        self.clear_trouble()
        typed = self.editor.typed().strip()
        if self.field.refers_to == "place" and typed and not typed.isdecimal():
            self.offered, error = typed, _no_place_yet(self.field.label, typed)
        self._trouble = Trouble(error, self)
        self._trouble.retyped.connect(self._take)
        # Where room is kept for it a sentence has the width of the label too, so that it is not a line longer.
        self._grid.addWidget(self._trouble, 1, *((0, 1, 2) if self._keeps_room else (1, 1, 1)))
        for button in self._trouble.ways[::-1]:
            QWidget.setTabOrder(self._typed_into, button)
        if self._under is not None:
            self._trouble.setMinimumHeight(self._under.minimumHeight())
            self._under.hide()
        self.widget.setAccessibleDescription(str(error))

    def clear_trouble(self) -> None:
        """Take the sentence away."""
        self.offered = ""
        if self._trouble is not None:
            self._trouble.hide()
            self._trouble.deleteLater()
            self._trouble = None
            if self._under is not None:
                self._under.show()
            self.widget.setAccessibleDescription(self.field.help)

    def keep_room(self, lines: int) -> None:
        """Keep room for a sentence of so many lines, so that no field moves when one comes."""
        self._keeps_room = lines > 0
        if lines:
            # A grid leaves its space beside a row only while something stands there: none, and the rows stay.
            self._grid.setVerticalSpacing(0)
            self._grid.setRowMinimumHeight(1, lines * (self.fontMetrics().lineSpacing() + 3))

    def put_under(self, widget: QWidget) -> None:
        """Put a widget (a read-back) under the editor; a sentence of trouble stands in its place."""
        self._under = widget
        self._keeps_room = False
        self._grid.setRowMinimumHeight(1, 0)
        self._grid.addWidget(widget, 2, 1)

    def take(self, text: str) -> None:
        """A reading that was offered, as if it had been typed."""
        self.editor.put(text)
        self.editor.touched.emit()

    def _take(self, text: str) -> None:
        self.take(text)
        self.settled.emit(self.field.name)

    def _touched(self) -> None:
        """Another text stands here: what was said of the one before is over."""
        self.is_touched = True
        self.clear_trouble()


class Trouble(QWidget):
    """A sentence under a field, with a mark that needs no colour, and the readings one may take."""

    retyped = Signal(str)

    def __init__(self, error: RebuildError, parent: QWidget) -> None:
        super().__init__(parent)
        self.sentence = _short(error)
        asks = isinstance(error, Ambiguous) and error.readings
        # The ways on are its buttons: they are not told a second time.
        told = f"“{error.value}” {error.what}" if asks else self.sentence
        text = PlainLabel(f"▸ {told}", self)
        text.setAccessibleName(f"Trouble: {self.sentence}")
        text.setWordWrap(True)
        text.setAlignment(Qt.AlignmentFlag.AlignTop)
        text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 3)
        layout.setSpacing(2)
        layout.addWidget(text, 1)
        self.ways: list[QToolButton] = []
        line = QHBoxLayout()
        line.setSpacing(6)
        for meaning, retyped in error.readings if isinstance(error, Ambiguous) else ():
            button = QToolButton(self)
            button.setText(retyped)
            button.setToolTip(meaning)
            button.setAccessibleName(f"Take {retyped}, {meaning}")
            button.clicked.connect(lambda _checked=False, chosen=retyped: self.retyped.emit(chosen))
            line.addWidget(button)
            self.ways.append(button)
        if self.ways:
            line.addStretch(1)
            layout.addLayout(line)


def _no_place_yet(label: str, typed: str) -> BadEntry:
    called = place_words(*place_meant(typed))
    return BadEntry(
        "is no place yet.",
        where=label,
        value=typed,
        way_out=f"Enter once more makes it: {called}. Or choose one from the list.",
    )


def _short(error: RebuildError) -> str:
    """The sentence without the field's name, which stands beside it."""
    return str(error)
