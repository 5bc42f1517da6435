"""Add one record after another: Enter adds and closes, Ctrl+Enter adds and begins the next."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFrame,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.forms.record_form import RecordForm
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.records.field import Field

WIDTH_OF_COLUMN = 390
ROUND_IT = 96
TALLEST = 700
#: Lines kept free under each field of every dialog for what is wrong with it, so that no field moves.
ROOM = 2


@dataclass(frozen=True, slots=True)
class Adding:
    """What a dialog adds: its words, its fields, and the act that stores them.

    ``act`` takes the typed texts and returns the new id; ``after`` is told that id (select it);
    ``prefill`` gives the texts a fresh form starts with; ``under_for`` says anew where it goes for what is typed.
    """

    title: str
    under: str
    fields: Sequence[Field]
    act: Callable[[dict[str, str]], int]
    after: Callable[[int], None] = lambda _key: None
    prefill: Callable[[], Mapping[str, str]] = dict
    further: Sequence[Field] = field(default_factory=tuple)
    again: bool = True
    under_for: Callable[[Mapping[str, str]], str] | None = None


class AddDialog(QDialog):
    """The dialog of one ``Adding``. On an error it stays, with the sentence beside the field."""

    def __init__(self, desk: Desk, adding: Adding, parent: QWidget | None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.adding = adding
        self.setWindowTitle(adding.title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.form = RecordForm(desk, [*adding.fields, *adding.further], self, most_columns=2)
        self._said = PlainLabel(self)
        self._said.setWordWrap(True)
        self._said.setAccessibleName("Message")
        self._said.hide()
        self._began: dict[str, str] = {}
        self._warned_of: dict[str, str] | None = None
        for box in self.form.boxes.values():
            box.editor.touched.connect(self._said.hide)
            box.keep_room(ROOM)
        self._build()
        self._begin()

    def _build(self) -> None:
        under = self._under = PlainLabel(self.adding.under, self)
        under.setAccessibleName("Where it goes")
        under.setVisible(bool(self.adding.under))
        if self.adding.under_for is not None:
            for box in self.form.boxes.values():
                box.editor.touched.connect(self._say_where)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Fields")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel, self)
        self.add_button = QPushButton("Add", self)
        self.add_button.setDefault(True)
        self.add_button.clicked.connect(lambda: self.add(again=False))
        buttons.addButton(self.add_button, QDialogButtonBox.ButtonRole.AcceptRole)
        self.next_button = QPushButton("Add and next", self)
        self.next_button.setAutoDefault(False)
        self.next_button.setToolTip("Ctrl+Enter")
        self.next_button.clicked.connect(lambda: self.add(again=True))
        buttons.addButton(self.next_button, QDialogButtonBox.ButtonRole.ActionRole)
        self.next_button.setVisible(self.adding.again)
        buttons.rejected.connect(self.reject)
        self._buttons = buttons
        layout = QVBoxLayout(self)
        for widget in (under, scroll, self._said, buttons):
            layout.addWidget(widget)
        self._scroll = scroll
        self._fit(scroll)

    def offer_beside(self, words: str, do: Callable[[], object]) -> QPushButton:
        """A further button, for something that has to be there first."""
        button = QPushButton(words, self)
        button.setAutoDefault(False)
        button.clicked.connect(do)
        self._buttons.addButton(button, QDialogButtonBox.ButtonRole.HelpRole)
        return button

    def _fit(self, scroll: QScrollArea) -> None:
        """As large as the form wants, in two columns when it is a long one."""
        columns = 2 if len(self.form.boxes) > 8 else 1
        self.form.flow(columns)
        scroll.setMinimumWidth(columns * WIDTH_OF_COLUMN)
        wanted = self.form.sizeHint().height() + ROUND_IT
        self.resize(columns * WIDTH_OF_COLUMN + 30, 0)
        self.grow_to(wanted)

    def grow_to(self, height: int) -> None:
        """As high as wanted [px], no higher than a small screen shows with its buttons; never lower than it is."""
        self.resize(self.width(), max(self.height(), min(TALLEST, height)))

    def _begin(self) -> None:
        first = dict(self.adding.prefill())
        for name, box in self.form.boxes.items():
            box.clear_trouble()
            if name in first:
                box.fill(first[name])
            elif box.field.choices is None and box.field.name != "unit":
                box.fill("")
        self._began = self.form.typed()
        self._say_where()
        empty = [box for name, box in self.form.boxes.items() if not first.get(name)]
        (empty or list(self.form.boxes.values()))[0].widget.setFocus()

    def _say_where(self) -> None:
        """What is typed may send it elsewhere."""
        if self.adding.under_for is not None:
            self._under.setText(self.adding.under_for(self.form.typed()))

    def add(self, *, again: bool) -> None:
        """Store what is typed; stay when it cannot be taken, or for the next one."""
        self.form.clear_troubles()
        self._said.hide()
        try:
            key = self.adding.act(self.form.typed())
        except RebuildError as trouble:
            if not self.form.show_trouble(trouble):
                self.say(str(trouble))
            elif (box := self.form.box_of(trouble)) is not None:
                QTimer.singleShot(0, box, lambda: self._make_room(box))
            return
        self.adding.after(key)
        if again:
            self._begin()
        else:
            self.accept()

    def _make_room(self, box: QWidget) -> None:
        """Grow for a sentence as far as a dialog may, and bring its field into view."""
        wanted = self.form.minimumHeight() + self.height() - self._scroll.viewport().height()
        self.grow_to(wanted)
        self._scroll.ensureWidgetVisible(box)

    def say(self, sentence: str) -> None:
        """A sentence that belongs to no single field."""
        self._said.setText(f"▸ {sentence}")
        self._said.show()

    def reject(self) -> None:
        """Escape or Cancel: what is filled in goes only at the second press."""
        typed = self.form.typed()
        filled = sum(text != self._began.get(name, "") for name, text in typed.items())
        if not filled or typed == self._warned_of:
            super().reject()
            return
        self._warned_of = typed
        fields = "one field" if filled == 1 else f"{filled} fields"
        self.say(f"What you typed in {fields} is not stored. Esc once more throws it away; Enter adds it.")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier and self.adding.again:
            self.add(again=True)
            return
        super().keyPressEvent(event)
