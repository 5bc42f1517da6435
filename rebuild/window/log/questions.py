"""The Questions page: what is not known yet, what it holds up, and the entries kept from being lost."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QLineEdit,
    QSplitter,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.half_typed import HalfTyped
from rebuild.window.desk.live_page import LivePage
from rebuild.window.ink.shapes import shape_for, shape_icon
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import KEY, line, tree_list
from rebuild.window.log.answer_pane import AnswerPane
from rebuild.window.log.kept_box import KeptBox
from rebuild.words.log import QuestionState
from rebuild.work.landings import rows as landing_rows
from rebuild.work.log import rows as log_rows
from rebuild.work.log.acts import ask
from rebuild.work.log.rows import QuestionRow, questions
from rebuild.work.machines.rows_parts import names
from rebuild.work.photos import rows_shown
from rebuild.work.question_pack import rows_filing
from rebuild.work.records import rows_kept
from rebuild.work.records.field import show_day
from rebuild.work.records.rows_kept import kept_entries

_COLUMNS = ("Question", "State", "About", "Holds up", "Asked")


class QuestionsPage(LivePage):
    """Questions above, the answer to the chosen one below, kept entries at the foot."""

    shows = (log_rows, rows_kept, landing_rows, rows_shown, rows_filing)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Questions", parent)
        self._new = QLineEdit()
        self._new.setAccessibleName("New question")
        self._open_only = QCheckBox("&Open only")
        self.list = tree_list("Questions", _COLUMNS)
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        EmptyState(
            self.list,
            "What nobody knows yet, and what it holds up.",
            "Ask the first question",
            self._new.setFocus,
        )
        self.pane = AnswerPane(desk)
        self._answer, self._known = self.pane.answer, self.pane.known
        self.photos = self.pane.photos
        self._kept_box = KeptBox(desk)
        self.kept, self._settle = self._kept_box.list, self._kept_box.settle
        self.values = PlainLabel()
        self.values.setWordWrap(True)
        self.values.setAccessibleName("Values without a row")
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self._new, 1)
        top.addWidget(self._open_only)
        whole = QSplitter(Qt.Orientation.Vertical)
        for widget, stretch in ((self.list, 5), (self.pane, 2), (self._kept_box, 2)):
            whole.addWidget(widget)
            whole.setStretchFactor(whole.count() - 1, stretch)
        whole.setChildrenCollapsible(False)
        whole.setSizes([400, 240, 140])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addLayout(top)
        layout.addWidget(whole, 1)
        layout.addWidget(self.values)

    def _wire(self) -> None:
        self._desk.selection_changed.connect(self._follow)
        self._new.returnPressed.connect(self._ask)
        self._open_only.toggled.connect(self.refresh)
        self.list.currentItemChanged.connect(self._show)

    def show_row(self, _table: str, key: int) -> None:
        """Choose one question, also one that is answered."""
        self._open_only.setChecked(False)
        self.refresh()
        for at in range(self.list.topLevelItemCount()):
            item = self.list.topLevelItem(at)
            row = item.data(0, KEY) if item is not None else None
            if item is not None and isinstance(row, QuestionRow) and row.id == key:
                self.list.setCurrentItem(item)

    def refresh(self) -> None:
        """Read the questions and the kept entries again; an answer being typed is not touched."""
        self._say_about()
        here = self._shown
        self.list.blockSignals(True)
        self.list.clear()
        self.kept.clear()
        if self._desk.is_open and self._desk.machine_id is not None:
            with self._desk.store.read() as connection:
                rows, kept = questions(connection, self._desk.machine_id), kept_entries(connection)
            self._fill(rows, here)
            self._kept_box.fill(kept)
        self.list.blockSignals(False)
        self._say_values()
        self._show()

    def _say_values(self) -> None:
        """What a gauge sent and no row has: not known yet either."""
        said = ""
        if self._desk.is_open:
            with self._desk.store.read() as connection:
                said = landing_rows.waiting_words(landing_rows.unplaced(connection))
        self.values.setText(f"{said} The Bench puts them on a row, or throws them away." if said else "")
        self.values.setVisible(bool(said))

    def _fill(self, rows: list[QuestionRow], here: int | None) -> None:
        for row in rows:
            if self._open_only.isChecked() and row.state is not QuestionState.OPEN:
                continue
            item = _item(row)
            self.list.addTopLevelItem(item)
            if row.id == here:
                self.list.setCurrentItem(item)
        first = self.list.topLevelItem(0)
        if self.list.currentItem() is None and first is not None:
            self.list.setCurrentItem(first)

    @property
    def _shown(self) -> int | None:
        return self.pane.shown

    def _current(self) -> QuestionRow | None:
        item = self.list.currentItem()
        row = item.data(0, KEY) if item is not None else None
        return row if isinstance(row, QuestionRow) else None

    def _show(self) -> None:
        self.pane.show_question(self._current())

    def laid_by(self) -> list[HalfTyped]:
        """The new question, and every answer begun and not stored, of the question shown and of others."""
        said = [
            (f"{word} question no. {key}", text)
            for key, texts in self.pane.begun.items()
            for word, text in zip(("answer to", "who answered"), texts, strict=True)
        ]
        return [
            HalfTyped(meant, text)
            for meant, text in [*said, ("new question", self._new.text())]
            if text.strip()
        ]

    def put_by(self) -> None:
        """Answers begun and not stored go to the kept entries; the file may close next."""
        begun = [("answer to a question", text) for text, _by in self.pane.begun.values()]
        for meant, text in [*begun, ("new question", self._new.text())]:
            if text.strip() and self._desk.is_open:
                self._desk.attempt(partial(self._desk.store.keep_entry, meant, text, "It was not stored."))
        self.pane.forget()
        self._new.clear()

    def _follow(self) -> None:
        """Something else was chosen: a new question will be about that."""
        if self.isVisible():
            self._say_about()
        else:
            self.look_again()

    def _say_about(self) -> None:
        """Say in the field for a new question what it will be about."""
        chosen = self._desk.selection
        named = "the machine"
        if self._desk.is_open and chosen.part_ids:
            with self._desk.store.read() as connection:
                named = next(iter(names(connection, chosen.part_ids[:1])), named)
        self._new.setPlaceholderText(f"New question about {named}: type it and press Enter")

    def _ask(self) -> None:
        machine, chosen = self._desk.machine_id, self._desk.selection
        if machine is None or not self._new.text().strip():
            return
        part = chosen.part_ids[0] if chosen.part_ids else None
        step = chosen.task_ids[0] if chosen.task_ids else None
        made = self._desk.attempt(
            lambda: ask(
                self._desk.store,
                machine,
                self._new.text(),
                subassembly_id=chosen.subassembly_id,
                part_id=part,
                task_id=step,
            )
        )
        if made is not None:
            self._new.clear()


def _item(row: QuestionRow) -> QTreeWidgetItem:
    asked = " ".join(filter(None, (show_day(row.asked_at) if row.asked_at else "", row.asked_where)))
    words = [row.text.replace("\n", " "), row.state.value, row.about, row.holds_up, asked]
    return line(words, row, shape_icon(shape_for(row.state)), icon_at=1)
