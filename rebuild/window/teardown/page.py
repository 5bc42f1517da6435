"""The Teardown page: the log of one subassembly on the left, what hangs on it on the right."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QComboBox, QPushButton, QSplitter, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.labels.printing import print_of, wanted_now
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.layout.views import Views
from rebuild.window.layout.wrapped_row import WrappedRow
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.teardown.attempt_chooser import AttemptChooser
from rebuild.window.teardown.back_pane import BackPane
from rebuild.window.teardown.detail import RemovalDetail
from rebuild.window.teardown.next_attempt import ask_next_attempt
from rebuild.window.teardown.off_line import OffLine
from rebuild.window.teardown.second_pane import SecondPane
from rebuild.words.counted import counted
from rebuild.words.teardown import RemovalWay
from rebuild.work.machines import rows_tree as tree
from rebuild.work.photos import rows_shown
from rebuild.work.places.rows_off import off_parts
from rebuild.work.teardown import (
    acts as teardown,
    rows_candidates,
    rows_removals as removals,
    rows_second_teardown,
    rows_whose,
)
from rebuild.work.teardown.rows_removals import AttemptRow, RemovalRow

_COLUMNS = (
    "No.", "What", "How", "Which way round", "Match marks", "Broken or lost", "Stored in", "Back",
    "Fasteners and shims", "Noted",
)  # fmt: skip


class TeardownPage(LivePage):
    """What came off, in order; said into the line beneath."""

    shows = (tree, removals, rows_candidates, rows_second_teardown, rows_shown, rows_whose)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Teardown", parent)
        self._every: list[AttemptRow] = []
        self._rows: list[RemovalRow] = []
        self.groups = QComboBox(self)
        self.attempts = AttemptChooser(self)
        self.counts = PlainLabel(self)
        self.heading = PlainLabel(self)
        self.next_attempt = QPushButton("Taken down &again", self)
        self.print_button = QPushButton("Pr&int…", self)
        self.log = PlainTable("Removal log, first off first", _COLUMNS, self)
        self.log.columns.leave_out((3, 4, 5, 6))
        self.off = OffLine(desk, self)
        self.detail = RemovalDetail(desk, self)
        self.back = BackPane(desk, self)
        self.second = SecondPane(desk, self)
        self.attempt_form = EditForm(desk, "attempt", self, most_columns=1)
        self.views = Views(
            [
                ("Details", self.detail),
                ("Refit", self.back),
                ("New teardown", self.second),
                ("Attempt", self.attempt_form),
            ],
            self,
        )
        self._compose()
        self._wire()

    def _compose(self) -> None:
        for chooser, name, shortest in ((self.groups, "Subassembly", 22), (self.attempts, "Attempt", 19)):
            chooser.setAccessibleName(name)
            chooser.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            chooser.setMinimumContentsLength(shortest)
        self.next_attempt.setToolTip("It went on, and comes off again: begin the next attempt")
        top = WrappedRow((self.counts,))
        for widget in (self.groups, self.attempts, self.next_attempt, self.print_button):
            top.addWidget(widget)
        top.addWidget(self.counts)
        self.counts.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.log.when_empty(
            "What came off stands here, first off first: how, in which order, with which fasteners.",
            "Log the first part",
            self.off.line.setFocus,
        )
        left = QWidget(self)
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(top)
        column.addWidget(self.heading)
        column.addWidget(self.log, 1)
        column.addWidget(self.off)
        whole = QSplitter(Qt.Orientation.Horizontal, self)
        whole.addWidget(left)
        whole.addWidget(self.views)
        whole.setChildrenCollapsible(False)
        whole.setStretchFactor(0, 3)
        whole.setStretchFactor(1, 2)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 6, 8, 8)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self.groups.activated.connect(self._choose_group)
        self.groups.installEventFilter(self)
        self.attempts.activated.connect(lambda _at: self._show_attempt())
        self.next_attempt.clicked.connect(self.begin_next)
        self.print_button.clicked.connect(self.print_log)
        self.off.stored.connect(self._logged)
        self.off.photographed.connect(self._photographed)
        self.log.selectionModel().selectionChanged.connect(lambda _new, _old: self._show_detail())
        self._desk.selection_changed.connect(self._follow)
        for keys, by in (("Alt+Up", -1), ("Alt+Down", 1)):
            shortcut = QShortcut(QKeySequence(keys), self.log)
            shortcut.setContext(Qt.ShortcutContext.WidgetShortcut)
            shortcut.activated.connect(lambda by=by: self._shift(by))

    def line_to_type_in(self) -> QWidget:
        """The removal line: what is typed on arriving names what comes off, and chooses no other subassembly."""
        return self.off.line

    def panes(self) -> list[QWidget]:
        """The panes F6 goes round."""
        return [self.off.line, self.log, self.views]

    def put_by(self) -> None:
        """The file may close next: lines of the log begun and not stored go to the kept entries."""
        self.off.put_by()

    def print_log(self) -> None:
        """Write the log of the subassembly shown as a PDF."""
        if self.machine is not None:
            wanted = replace(wanted_now(self._desk), subassembly_id=self.group)
            print_of(self._desk, self, "removals", wanted)

    def show_row(self, table: str, key: int) -> None:
        """Choose one line of the log, in whichever attempt of the subassembly it stands; an attempt, at its draft."""
        self.refresh()
        if table == "attempt":
            self._show_draft(key)
            return
        for at in range(self.attempts.count()):
            self.attempts.setCurrentIndex(at)
            self._show_attempt()
            if key in self.log.plain.ids:
                self.log.choose(key)
                self.log.setFocus()
                return

    # Showing

    def refresh(self) -> None:
        """Read subassemblies, attempts and the log again; what is chosen stays chosen."""
        machine = self.machine
        self._fill_groups()
        if machine is None:
            self._every, self.attempts.rows, self._rows = [], [], []
            self._show_attempt()
            return
        with self._desk.store.read() as connection:
            every = removals.attempts(connection, machine)
        self._every = every
        rows = [row for row in every if row.subassembly_id == self.group]
        self.attempts.offer(rows, of_the_whole=self.group is None)
        self._show_attempt()

    @property
    def group(self) -> int | None:
        """The subassembly shown; None is the machine as a whole."""
        key = self.groups.currentData()
        return int(key) if key is not None else None

    @property
    def attempt(self) -> AttemptRow | None:
        """The attempt shown; None while none is, or those of every subassembly are."""
        return self.attempts.chosen

    @property
    def shows_every(self) -> bool:
        """Whether the logs of all subassemblies stand together."""
        return self.group is None and self.attempts.every_chosen

    def _fill_groups(self) -> None:
        wanted = self._desk.selection.subassembly_id if self._desk.is_open else None
        self.groups.clear()
        self.groups.addItem("The machine as a whole", None)
        if self.machine is None:
            return
        with self._desk.store.read() as connection:
            rows = tree.subassemblies(connection, self.machine)
        named = {row.id: f"{row.code} {row.name}".strip() for row in rows}
        for key in tree.order_of_subassemblies(rows):
            self.groups.addItem(named[key], key)
        self.groups.setCurrentIndex(max(0, self.groups.findData(wanted)))

    def _show_attempt(self) -> None:
        attempt = self.attempt
        here = self.log.chosen()
        self.log.plain.fill(self._read_log(attempt))
        if here is not None:
            self.log.choose(here)
        if self.log.chosen() is None and self._rows:
            self.log.choose(self._rows[-1].id)
        self.counts.setText(self._counted(attempt))
        self.heading.setText(self._heading(attempt))
        self.next_attempt.setEnabled(bool(attempt and attempt.removals))
        whole = "the machine as a whole"
        self.off.show_group(self.group, self.groups.currentText() if self.group is not None else whole)
        self.detail.show_samples(self.off.unit)
        newest = not attempt or attempt == self.attempts.rows[0]
        self.off.setEnabled(self.machine is not None and newest)
        self.back.show_attempts(self._to_draft(attempt), whole=self.shows_every)
        self.second.show_attempt(attempt.id if attempt else None)
        self.attempt_form.show_record(attempt.id if attempt else None)
        self._show_detail()

    def _to_draft(self, attempt: AttemptRow | None) -> list[AttemptRow]:
        """The attempts a draft is made of: the one shown, or the newest on each subassembly."""
        if not self.shows_every:
            return [attempt] if attempt is not None else []
        newest: dict[int | None, AttemptRow] = {}
        for row in sorted(self._every, key=lambda row: row.number):
            newest[row.subassembly_id] = row
        return list(newest.values())

    def _read_log(self, attempt: AttemptRow | None) -> list[tuple[int, tuple[str, ...]]]:
        self._rows = []
        if self.shows_every and self.machine is not None:
            with self._desk.store.read() as connection:
                both = removals.of_machine(connection, self.machine)
            self._rows = [row for _of, row in both]
            photos = self._photos_of(self._rows)
            return [(row.id, (f"{of.of} {row.number}", *_line(row, photos)[1:])) for of, row in both]
        if attempt is not None:
            with self._desk.store.read() as connection:
                self._rows = removals.removals(connection, attempt.id)
        photos = self._photos_of(self._rows)
        return [(row.id, _line(row, photos)) for row in self._rows]

    def _photos_of(self, rows: list[RemovalRow]) -> dict[int, int]:
        with self._desk.store.read() as connection:
            return rows_shown.photographed(connection, [row.id for row in rows]) if rows else {}

    def _counted(self, attempt: AttemptRow | None) -> str:
        if self.shows_every and self._rows:
            return f"{len(self._rows)} off, {sum(row.refitted for row in self._rows)} on again"
        return f"{attempt.removals} off, {attempt.refitted} on again" if attempt else "nothing off yet"

    def _heading(self, attempt: AttemptRow | None) -> str:
        """Which log this is, in words."""
        if self.machine is None:
            return ""
        if self.shows_every:
            return "Log of the whole machine: every subassembly, in order of time"
        of = self.groups.currentText() if self.group is not None else "the machine as a whole"
        if attempt:
            return f"Log of {of}, attempt {attempt.number}"
        away = self._off_elsewhere()
        if away:
            were = f"{counted(away, 'part')} of it {'is' if away == 1 else 'are'} off by another log"
            return f"Log of {of}: nothing in it; {were}: see “The machine as a whole”"
        return f"Log of {of}: nothing off yet"

    def _off_elsewhere(self) -> int:
        """How many parts of the subassembly in hand are off without a log of its own."""
        if self.machine is None or self.group is None:
            return 0
        with self._desk.store.read() as connection:
            off = off_parts(connection, self.machine)
            listed = tree.parts(connection, self.machine) if off else ()
        return sum(part.id in off and part.subassembly_id == self.group for part in listed)

    def _show_detail(self) -> None:
        key = self.log.chosen()
        self.detail.show_row(next((row for row in self._rows if row.id == key), None))

    def _follow(self) -> None:
        if self.isVisible() and self.group != self._desk.selection.subassembly_id:
            self.refresh()

    def _show_draft(self, attempt_id: int) -> None:
        """Turn to the refit of an attempt, its draft button in hand."""
        found = next((row for row in self._every if row.id == attempt_id), None)
        if found is None:
            return
        self._desk.choose(subassembly_id=found.subassembly_id)
        self.refresh()
        self.attempts.setCurrentIndex(max(0, self.attempts.findData(attempt_id)))
        self._show_attempt()
        self.views.show_view(1)
        self.back.draft_button.setFocus()

    def choose(self, removal_id: int) -> None:
        """Turn to one removal, in the attempt that holds it."""
        for at in range(self.attempts.count()):
            if removal_id in self.log.plain.ids:
                break
            self.attempts.setCurrentIndex(at)
            self._show_attempt()
        self.log.choose(removal_id)

    # Acting

    def _choose_group(self) -> None:
        self._desk.choose(subassembly_id=self.group, part_ids=(), key=None, task_ids=())
        self.refresh()
        self.off.line.setFocus()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The arrows open the list of subassemblies; what is typed on the closed box is a removal, not a choice."""
        if watched is self.groups and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
                self.groups.showPopup()
                return True
            held = event.modifiers() & ~(
                Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier
            )
            if event.text().strip() and event.text().isprintable() and not held:
                self.off.line.setFocus()
                self.off.line.insert(event.text())
                self.off.line.textEdited.emit(self.off.line.text())
                return True
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.off.line.setFocus()
                return True
        return super().eventFilter(watched, event)

    def _logged(self, removal_id: int) -> None:
        with self._desk.store.read() as connection:
            it = rows_whose.logged(connection, removal_id)
            row = next(row for row in removals.removals(connection, it.attempt_id) if row.id == removal_id)
        said = f"No. {it.number} {row.called}: {row.way}" + (f", in {row.place}" if row.place else "")
        if it.subassembly_id == self.group:
            self.log.choose(removal_id)
            self.log.scrollToBottom()
            said = f"Logged: {self.detail.heading.text()}"
        else:
            said = f"Logged in the log of {it.log_of}: {said}"
        self._desk.say(said)

    def _photographed(self, paths: list[Path]) -> None:
        """Photos pasted into the line: of the removal chosen in the log, the last one logged unless another was."""
        if self.log.chosen() is None:
            self._desk.say("Log what came off first; its photo is pasted after it.", Say.ASK)
        else:
            self.detail.take(paths)

    def begin_next(self) -> None:
        """Begin the next attempt; what stopped the last one and what was changed is noted on it."""
        if self.machine is not None and self.attempt is not None:
            ask_next_attempt(self._desk, self.machine, self.attempt, self._begun, self)

    def _begun(self, attempt_id: int) -> None:
        self.refresh()
        self.attempts.setCurrentIndex(self.attempts.findData(attempt_id))
        self._show_attempt()
        self.off.line.setFocus()

    def _shift(self, by: int) -> None:
        key = self.log.chosen()
        if key is None or self.shows_every:
            return
        at = self.log.plain.ids.index(key)
        self._desk.attempt(lambda: teardown.reorder_removals(self._desk.store, [key], max(0, at + by)))
        self.log.choose(key)


def _line(row: RemovalRow, photos: Mapping[int, int]) -> tuple[str, ...]:
    held = [one.words for one in row.fasteners] + [f"shims {pack.words}" for pack in row.shims]
    on = "on" if row.refitted else "drafted" if row.refit_id else ""
    broke = row.broke or (row.how.value if row.how in (RemovalWay.BROKEN, RemovalWay.MISSING) else "")
    sat = (row.orientation, row.match_mark, broke)
    place = ", ".join(filter(None, (row.place, row.now and f"now {row.now}")))
    count = photos.get(row.id, 0)
    shown = counted(count, "photo") if count else ""
    noted = (row.hard and f"hard: {row.hard}", row.found, row.note, shown)
    return (
        str(row.number),
        row.called,
        row.way,
        *sat,
        place,
        on,
        "; ".join(held),
        "; ".join(filter(None, noted)),
    )
