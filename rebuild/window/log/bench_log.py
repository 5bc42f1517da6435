"""The Bench log page: what each session did, found, left and means to do next."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.half_typed import HalfTyped
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.field_rows import FieldRows
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.ruled import ruled
from rebuild.work.editing.acts import edit, remove
from rebuild.work.log import rows as log_rows
from rebuild.work.log.acts import log_session
from rebuild.work.log.rows import LogRow, log
from rebuild.work.records.field import show_day, show_moment
from rebuild.work.records.fields import FIELDS, field_of
from rebuild.work.records.rows import card

NO_SESSION = "What each session did, found and left. Type the first one beside."
NONE_FOUND = "No session holds these words."
_ROW = Qt.ItemDataRole.UserRole


class BenchLogPage(LivePage):
    """Sessions on the left, newest first; one of them, or a new one, on the right."""

    shows = (log_rows,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Bench log", parent)
        self._editing: int | None = None
        self._machine = desk.machine_id
        self._begun: dict[int, dict[str, str]] = {}
        self._seen: dict[str, str] = {}
        self._find = QLineEdit()
        self._find.setPlaceholderText("Find in the log")
        self._find.setAccessibleName("Find in the log")
        self.sessions = ruled(QListWidget())
        self.sessions.setAccessibleName("Sessions, newest first")
        self.empty = EmptyState(self.sessions, NO_SESSION)
        self._heading = PlainLabel()
        self.fields = FieldRows(FIELDS["log_entry"])
        self._trouble = PlainLabel()
        self._trouble.setWordWrap(True)
        self._save = QPushButton("S&tore")
        self._new = QPushButton("&New session")
        self._remove = QPushButton("&Remove")
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        left = QWidget()
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 0, 0)
        side.addWidget(self._find)
        side.addWidget(self.sessions)
        right = QWidget()
        form = QVBoxLayout(right)
        form.setContentsMargins(8, 0, 0, 0)
        buttons = QHBoxLayout()
        for button in (self._save, self._new, self._remove):
            buttons.addWidget(button)
        buttons.addStretch(1)
        for widget in (self._heading, self.fields, self._trouble):
            form.addWidget(widget)
        form.addLayout(buttons)
        form.addStretch(1)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(right)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(0, 2)
        whole.setStretchFactor(1, 3)
        whole.setSizes([460, 780])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def _wire(self) -> None:
        for signal in (self._desk.closed, self._desk.machine_changed):
            signal.connect(self._start_over)
        self._find.textChanged.connect(self.refresh)
        self.sessions.currentItemChanged.connect(self._show_session)
        self._save.clicked.connect(self.store)
        self._new.clicked.connect(self.new_session)
        self._remove.clicked.connect(self._take_out)
        QShortcut(QKeySequence("Ctrl+Return"), self, self.store)

    def showEvent(self, event: QShowEvent) -> None:
        """Ready for a new session, unless one is begun."""
        super().showEvent(event)
        if self._editing is None and not any(self.fields.typed().values()):
            self.new_session()

    def _start_over(self) -> None:
        """Another machine: what was begun on this one waits until it is shown again."""
        typed = self.fields.typed()
        if self._editing is None and any(typed.values()) and self._machine is not None:
            self._begun[self._machine] = typed
        self._machine = self._desk.machine_id if self._desk.is_open else None
        self._editing = None
        self.fields.show_texts(self._begun.pop(self._machine or 0, {}))
        self._head_new()
        self.look_again()

    @property
    def unsaved(self) -> bool:
        """What stands in the form is another than what is stored."""
        return any(text != self._seen.get(name, "") for name, text in self.fields.typed().items())

    def laid_by(self) -> list[HalfTyped]:
        """Every session begun and not stored, of this machine and of others, field by field."""
        shown = self.fields.typed()
        changed = {name: text for name, text in shown.items() if text != self._seen.get(name, "")}
        return [
            HalfTyped(f"bench log, {field_of('log_entry', name).label.lower()}", text)
            for texts in (*self._begun.values(), changed)
            for name, text in texts.items()
            if text.strip()
        ]

    def put_by(self) -> None:
        """Sessions begun and not stored go to the kept entries; the file may close next."""
        typed = self.fields.typed()
        begun = dict(self._begun)
        changed = {name: text for name, text in typed.items() if text != self._seen.get(name, "")}
        if self._desk.is_open and self._machine is not None and (self._editing is None or changed):
            begun[self._machine] = typed if self._editing is None else changed
        for texts in begun.values():
            words = "; ".join(text.strip() for text in texts.values() if text.strip())
            if words:
                self._desk.attempt(
                    partial(self._desk.store.keep_entry, "bench log", words, "The session was not stored.")
                )
        self._begun.clear()
        self._editing, self._seen = None, {}
        self.fields.show_texts({})

    def show_row(self, _table: str, key: int) -> None:
        """Choose one session."""
        self._find.clear()
        self.refresh()
        for at in range(self.sessions.count()):
            if self.sessions.item(at).data(_ROW) == key:
                self.sessions.setCurrentRow(at)

    def refresh(self) -> None:
        """Read the sessions again; the one being written is not touched."""
        self.sessions.blockSignals(True)
        self.sessions.clear()
        if self._desk.is_open and self._desk.machine_id is not None:
            with self._desk.store.read() as connection:
                rows = log(connection, self._desk.machine_id)
            words = self._find.text().lower().split()
            for row in rows:
                text = _line(row)
                if all(word in f"{text} {row.found} {row.left_on_bench}".lower() for word in words):
                    item = QListWidgetItem(text)
                    item.setToolTip(plain_tip(show_moment(row.at)))
                    item.setData(_ROW, row.id)
                    self.sessions.addItem(item)
                    if row.id == self._editing:
                        self.sessions.setCurrentItem(item)
            self.empty.say(NONE_FOUND if rows else NO_SESSION)
        self.sessions.blockSignals(False)

    def new_session(self) -> None:
        """Begin a new session; a half-written new one is kept."""
        if self._editing is not None:
            self._editing = None
            self.fields.show_texts({})
        self._head_new()
        self.sessions.setCurrentRow(-1)
        self.fields.focus_first()

    def _head_new(self) -> None:
        self._seen = {}
        self._heading.setText("New session (no date: now; Ctrl+Enter stores it)")
        self._remove.setEnabled(False)

    def _show_session(self, item: QListWidgetItem | None) -> None:
        if item is None:
            return
        if self._editing is None and any(self.fields.typed().values()):
            self._desk.say("Store the session you began to write first; it is still in the form.", Say.ASK)
            self.sessions.blockSignals(True)
            self.sessions.setCurrentRow(-1)
            self.sessions.blockSignals(False)
            return
        self._editing = int(item.data(_ROW))
        with self._desk.store.read() as connection:
            self._seen = card(connection, "log_entry", self._editing).fields
        self.fields.show_texts(self._seen)
        self._heading.setText(f"Session of {self._seen['at']}")
        self._remove.setEnabled(True)

    def store(self) -> None:
        """Store what is in the form; trouble is shown at its field and nothing is lost."""
        machine = self._desk.machine_id
        if machine is None:
            return
        typed = self.fields.typed()
        try:
            if self._editing is None:
                given = {name: text for name, text in typed.items() if text.strip()}
                self._editing = log_session(self._desk.store, machine, given)
            else:
                new = {name: text for name, text in typed.items() if text != self._seen[name]}
                if new:
                    edit(self._desk.store, "log_entry", [self._editing], new, seen=self._seen)
        except RebuildError as trouble:
            self.fields.show_trouble(trouble)
            self._desk.say(str(trouble), Say.TROUBLE)
            return
        with self._desk.store.read() as connection:
            self._seen = card(connection, "log_entry", self._editing).fields
        self.fields.show_texts(self._seen)
        self._heading.setText(f"Session of {self._seen['at']}")
        self._remove.setEnabled(True)
        self.refresh()
        self._desk.say("Stored in the bench log.")

    def _take_out(self) -> None:
        if self._editing is not None:
            key, self._editing = self._editing, None
            self._desk.attempt(
                lambda: remove(self._desk.store, "log_entry", [key]), "Removed; undo brings it back."
            )
            self.fields.show_texts({})
            self.new_session()


def _line(row: LogRow) -> str:
    hours = f" · {row.hours:g} h" if row.hours else ""
    did = row.did or row.found or row.left_on_bench
    nxt = f"\nNext: {row.next_step}" if row.next_step else ""
    return f"{show_day(row.at)}{hours}\n{did}{nxt}"
