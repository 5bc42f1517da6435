"""Which part an unknown thing is: named by hand or chosen, and asked about where that part lies somewhere already."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QStringListModel, Qt, QTimer
from PySide6.QtWidgets import QCompleter, QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.boxes.rows_suspects import part_named, part_titles


class ItIs(QWidget):
    """A line for the part's code or name; a part that is at two places at once is a question with two answers."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._thing: int | None = None
        self._into: int | None = None
        self._asked = ""
        self.line = QLineEdit(self)
        self.same = self._button("It is the same one", lambda: self._settle(alike=False))
        self.alike = self._button("Another one alike", lambda: self._settle(alike=True))
        self.trouble = PaneTrouble(desk, [self.line], self)
        # One for good: Enter in its list ends in another thing in hand, and one let go of in its own event filter
        # ends the program.
        self._titles = QStringListModel(self)
        completer = QCompleter(self._titles, self.line)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.line.setCompleter(completer)
        self._lay_out()
        self.line.returnPressed.connect(self._name_soon)
        self.line.textEdited.connect(lambda _text: self._ask(None))

    def _button(self, words: str, act: Callable[[], None]) -> QPushButton:
        button = QPushButton(words, self)
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: act())
        button.hide()
        return button

    def _lay_out(self) -> None:
        self.line.setAccessibleName("It is")
        self.line.setPlaceholderText("you know it: its code or name, then Enter")
        row = QHBoxLayout()
        row.addWidget(PlainLabel("It is", self))
        row.addWidget(self.line, 1)
        answers = QHBoxLayout()
        answers.addWidget(self.same)
        answers.addWidget(self.alike)
        answers.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row)
        layout.addWidget(self.trouble)
        layout.addLayout(answers)

    def show_thing(self, part_id: int | None) -> None:
        """Another thing is in hand, or none: what was typed and asked belongs to the one before."""
        if part_id == self._thing:
            return
        self._thing = part_id
        self.line.clear()
        self._ask(None)
        self.trouble.end()
        if part_id is not None:
            with self._desk.store.read() as connection:
                titles = part_titles(connection, part_id)
            self._titles.setStringList(titles)

    def _name_soon(self) -> None:
        """Enter in the open list of names is heard before the name chosen there stands in the line."""
        names = self.line.completer().popup()
        if names is not None and names.isVisible():
            QTimer.singleShot(0, self, self.name_it)
        else:
            self.name_it()

    def name_it(self) -> None:
        """The thing is the part named in the line; one not named outright is asked about once."""
        thing, text = self._thing, self.line.text()
        if thing is None:
            return
        try:
            with self._desk.store.read() as connection:
                found = part_named(connection, thing, text)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return
        if not found.outright and self._asked != text:
            self._asked = text
            self.trouble.tell(f"{found.called}? Enter again if it is that part, or type more of its name.")
            return
        self.merge(found.part_id)

    def merge(self, into_id: int) -> None:
        """The thing is the part ``into_id``; where that lies somewhere already, it is asked first."""
        from rebuild.work.boxes.acts_merge import AlreadyLies, merge

        thing = self._thing
        if thing is None:
            return
        try:
            said = merge(self._desk.store, thing, into_id)
        except AlreadyLies as trouble:
            self.trouble.tell(trouble)
            self._ask(into_id)
            self.same.setFocus()
            return
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return
        self._done(said)

    def _settle(self, *, alike: bool) -> None:
        """The answer to where it lies already."""
        from rebuild.work.boxes.acts_merge import another_alike, merge

        thing, into, store = self._thing, self._into, self._desk.store
        if thing is None or into is None:
            return
        try:
            said = another_alike(store, thing, into) if alike else merge(store, thing, into, same=True)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return
        self._done(said)

    def _done(self, said: str) -> None:
        self.trouble.end()
        self._desk.went_well.emit()
        self._desk.say(f"{said} Undo parts them again.")

    def _ask(self, into_id: int | None) -> None:
        """Show the two answers about a part, or take them away."""
        self._into = into_id
        self._asked = ""
        self.same.setVisible(into_id is not None)
        self.alike.setVisible(into_id is not None)
