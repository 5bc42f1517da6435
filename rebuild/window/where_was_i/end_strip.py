"""The strip at the foot of the page: a session ends with three short answers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtGui import QKeySequence, QPainter, QPaintEvent, QPalette, QShortcut
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QPushButton, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel

_FIELDS = (
    ("did", "Did", "what was done", 0, 0),
    ("left", "Left", "what lies out, and in what state: caps finger tight, not oiled rear", 1, 0),
    ("next_step", "Next", "the first thing next time", 2, 0),
    ("hours", "Hours", "in all: 1.5, 90 min or 1:30", 0, 2),
    ("split", "Hours by part", "a code and its hours, with commas", 1, 2),
)


class EndStrip(QWidget):
    """Did, left, next; Ctrl+Enter stores them in the bench log. Trouble keeps what was typed."""

    def __init__(self, desk: Desk, now: Callable[[], dt.datetime], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk, self._now = desk, now
        self.setAccessibleName("End the session")
        self.fields = {name: QLineEdit(self) for name, *_ in _FIELDS}
        self.store_button = QPushButton("En&d the session", self)
        self.store_button.setToolTip("Ctrl+Enter: store it in the bench log")
        self.draft_button = QPushButton("From the day’s acts", self)
        self.draft_button.setToolTip("Draft did, left and next from what was done today; then edit it")
        self.said = PaneTrouble(desk, self.fields.values(), self)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 8, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(3)
        for name, label, hint, row, column in _FIELDS:
            field = self.fields[name]
            field.setAccessibleName(label)
            field.setPlaceholderText(hint)
            caption = PlainLabel(label, self)
            caption.setBuddy(field)
            grid.addWidget(caption, row, column)
            grid.addWidget(field, row, column + 1)
            field.returnPressed.connect(self._on)
        ends = QHBoxLayout()
        ends.addWidget(self.draft_button)
        ends.addWidget(self.store_button)
        grid.addLayout(ends, 2, 3)
        grid.addWidget(self.said, 3, 0, 1, 4)
        grid.setColumnStretch(1, 4)
        grid.setColumnStretch(3, 1)
        self.store_button.clicked.connect(self.store)
        self.draft_button.clicked.connect(self.draft)
        QShortcut(QKeySequence("Ctrl+Return"), self, self.store)

    def _on(self) -> None:
        """Enter goes on to the next of the fields; from the last it stores."""
        order = list(self.fields.values())
        here = next((at for at, field in enumerate(order) if field.hasFocus()), len(order) - 1)
        if here == len(order) - 1:
            self.store()
        else:
            order[here + 1].setFocus()

    def draft(self) -> None:
        """Fill what is still empty from the day's acts; what was typed stays."""
        from rebuild.work.where_was_i.rows_session import session_draft

        machine = self._desk.machine_id
        if machine is None:
            return
        with self._desk.store.read() as connection:
            found = session_draft(connection, machine, self._now())
        for name, words in (("did", found.did), ("left", found.left), ("next_step", found.next_step)):
            if not self.fields[name].text().strip():
                self.fields[name].setText(words)
        self.fields["did"].setFocus()
        if not found.did:
            self._desk.say("Nothing was stored today yet.")

    def store(self) -> None:
        """Store the session; on trouble the sentence is shown and nothing is lost."""
        from rebuild.work.where_was_i import acts as reentry

        machine = self._desk.machine_id
        if machine is None:
            return
        typed = {name: field.text() for name, field in self.fields.items()}
        try:
            reentry.end_session(self._desk.store, machine, at=self._now(), **typed)
        except RebuildError as trouble:
            self.said.tell(trouble)
            return
        self.said.end()
        for field in self.fields.values():
            field.clear()
        self._desk.say("Stored in the bench log. Good night.")

    def put_by(self) -> None:
        """What was begun and not stored goes to the kept entries; the file may close next."""
        words = "; ".join(field.text().strip() for field in self.fields.values() if field.text().strip())
        if words and self._desk.is_open:
            why = "The session was not stored."
            self._desk.attempt(lambda: self._desk.store.keep_entry("bench log", words, why))
        for field in self.fields.values():
            field.clear()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.Mid))
        painter.drawLine(0, 0, self.width(), 0)
        painter.end()
