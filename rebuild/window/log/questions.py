"""The Questions page: what is not known yet, what it holds up, and the entries kept from being lost."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QSplitter,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.half_typed import HalfTyped
from rebuild.window.desk.live_page import LivePage
from rebuild.window.ink.shapes import shape_for, shape_icon
from rebuild.window.labels.printing import print_question
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.tree_list import KEY, line, tree_list
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.words.log import QuestionState
from rebuild.words.photos import PhotoPhase
from rebuild.work.landings import rows as landing_rows
from rebuild.work.log import rows as log_rows
from rebuild.work.log.acts import answer, ask
from rebuild.work.log.rows import QuestionRow, questions
from rebuild.work.machines.rows_parts import names
from rebuild.work.photos import rows_shown
from rebuild.work.question_pack import rows_filing
from rebuild.work.question_pack.acts import file_answer
from rebuild.work.question_pack.rows import question_pack
from rebuild.work.question_pack.rows_filing import FilingRow, filings
from rebuild.work.records import rows_kept
from rebuild.work.records.field import show_day
from rebuild.work.records.rows_kept import Kept, kept_entries
from rebuild.work.records.rows_settings import verdict_rule

_COLUMNS = ("Question", "State", "About", "Holds up", "Asked")


class QuestionsPage(LivePage):
    """Questions above, the answer to the chosen one below, kept entries at the foot."""

    shows = (log_rows, rows_kept, landing_rows, rows_shown, rows_filing)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Questions", parent)
        self._shown: int | None = None
        self._stored = ("", "")
        self._begun: dict[int, tuple[str, str]] = {}
        self._filings: list[FilingRow] = []
        self._new = QLineEdit()
        self._new.setAccessibleName("New question")
        self._open_only = QCheckBox("&Open only")
        self.list = tree_list("Questions", _COLUMNS, banded=True)
        self._whole = PlainLabel()
        self._whole.setWordWrap(True)
        self._answer = QPlainTextEdit()
        self._answer.setAccessibleName("Answer")
        self._answer.setPlaceholderText("What was found out, or what you assume until someone knows")
        self._answer.setTabChangesFocus(True)
        self._by = QLineEdit()
        self._by.setAccessibleName("Answered by")
        self._by.setPlaceholderText("Who or what says so")
        self._known = QPushButton("It is &known")
        self._assumed = QPushButton("We &assume it")
        self.pack_button = QPushButton("Print to send…")
        self.copy_button = QPushButton("Copy as text")
        self.filing = QComboBox()
        self.filing.setAccessibleName("File to")
        self.spec = QLineEdit()
        self.spec.setAccessibleName("Spec")
        self.spec.setPlaceholderText("as a spec: 25 H7")
        self.file_button = QPushButton("Answer and file")
        self.file_button.setToolTip(
            "Store the answer, and put it where it is wanted; one undo takes both back"
        )
        self.photos = AttachedPhotos(desk, "question", "Photos to send", self, phase=PhotoPhase.QUESTION)
        self.kept = tree_list(
            "Entries kept from being lost",
            ("Kept", "Meant for", "Typed", "Why"),
            banded=True,
        )
        EmptyState(
            self.list,
            "What nobody knows yet, and what it holds up.",
            "Ask the first question",
            self._new.setFocus,
        )
        self._settle = QPushButton("Dealt &with")
        for tree in (self.list, self.kept):
            tree.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.values = PlainLabel()
        self.values.setWordWrap(True)
        self.values.setAccessibleName("Values without a row")
        self._kept_box = QWidget()
        self._lay_out()
        self._wire()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self._new, 1)
        top.addWidget(self._open_only)
        below = QWidget()
        form = QVBoxLayout(below)
        form.setContentsMargins(0, 4, 0, 0)
        row = QHBoxLayout()
        row.addWidget(self._by, 1)
        row.addWidget(self._known)
        for button in (self._assumed, self.pack_button, self.copy_button):
            row.addWidget(button)
        self._whole.setMinimumHeight(self._whole.fontMetrics().lineSpacing())
        form.addWidget(self._whole)
        form.addWidget(self._answer)
        form.addLayout(row)
        filed = QHBoxLayout()
        filed.addWidget(PlainLabel("File to"))
        filed.addWidget(self.filing, 3)
        filed.addWidget(self.spec, 1)
        filed.addWidget(self.file_button)
        form.addLayout(filed)
        form.addWidget(self.photos)
        kept = QVBoxLayout(self._kept_box)
        kept.setContentsMargins(0, 4, 0, 0)
        kept.addWidget(PlainLabel("Entries kept from being lost"))
        kept.addWidget(self.kept)
        kept.addWidget(self._settle, 0, Qt.AlignmentFlag.AlignLeft)
        whole = QSplitter(Qt.Orientation.Vertical)
        for widget, stretch in ((self.list, 5), (below, 2), (self._kept_box, 2)):
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
        self._known.clicked.connect(lambda: self._store(assumed=False))
        self._assumed.clicked.connect(lambda: self._store(assumed=True))
        self.pack_button.clicked.connect(self.print_pack)
        self.copy_button.clicked.connect(self.copy_pack)
        self.file_button.clicked.connect(self.file)
        self.filing.currentIndexChanged.connect(lambda _at: self._say_filing())
        self._settle.clicked.connect(self._settle_kept)

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
                self._fill(questions(connection, self._desk.machine_id), kept_entries(connection), here)
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

    def _fill(self, rows: list[QuestionRow], kept: list[Kept], here: int | None) -> None:
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
        for entry in kept:
            self.kept.addTopLevelItem(line((entry.at, entry.meant_for, entry.typed, entry.why), entry.id))
        self._kept_box.setVisible(bool(kept))

    def _current(self) -> QuestionRow | None:
        item = self.list.currentItem()
        row = item.data(0, KEY) if item is not None else None
        return row if isinstance(row, QuestionRow) else None

    def _show(self) -> None:
        """Show the chosen question; an answer begun for another one waits until that is chosen again."""
        self._lay_by()
        row = self._current()
        self._shown = row.id if row else None
        self._stored = (row.answer, row.answered_by) if row else ("", "")
        self._offer_filings()
        self.photos.show_row(self._shown)
        answer, by = self._begun.pop(row.id, self._stored) if row else self._stored
        self._whole.setText(row.text if row else "Choose a question above to answer it.")
        if (self._answer.toPlainText(), self._by.text()) != (answer, by):
            self._answer.setPlainText(answer)
            self._by.setText(by)
        for control in (
            self._answer,
            self._by,
            self._known,
            self._assumed,
            self.pack_button,
            self.copy_button,
            self.filing,
            self.file_button,
        ):
            control.setEnabled(row is not None)

    def _offer_filings(self) -> None:
        """Where the answer to the question shown may go; what was chosen stays chosen."""
        here, found = self.filing.currentText(), []
        if self._shown is not None and self._desk.is_open:
            with self._desk.store.read() as connection:
                found = filings(connection, self._shown)
        self._filings = found
        self.filing.clear()
        self.filing.addItems([one.words for one in found])
        self.filing.setCurrentIndex(max(0, self.filing.findText(here)) if found else -1)
        self._say_filing()

    def _say_filing(self) -> None:
        """A spec is typed only where one goes."""
        at = self.filing.currentIndex()
        one = self._filings[at] if 0 <= at < len(self._filings) else None
        self.spec.setVisible(one is not None and one.filing.record == "feature")
        if one is not None and one.spec:
            self.spec.setPlaceholderText(f"as a spec; now {one.spec}")

    def file(self) -> None:
        """Store the answer and file it where the list says, in one act."""
        at, row = self.filing.currentIndex(), self._current()
        if row is None or not 0 <= at < len(self._filings):
            return
        text, by = self._answer.toPlainText(), self._by.text()
        before, self._stored = self._stored, (text, by)
        spec = self.spec.text() if self.spec.isVisibleTo(self) else ""
        words = self._desk.attempt(
            lambda: file_answer(self._desk.store, row.id, text, by, self._filings[at].filing, spec)
        )
        if words is None:
            self._stored = before
        else:
            self.spec.clear()
            self._desk.say(f"Answer stored and filed in {words}.")

    def print_pack(self) -> None:
        """Write the chosen question with sizes and photos as a PDF, to be sent."""
        if self._shown is not None:
            print_question(self._desk, self, self._shown)

    def copy_pack(self) -> None:
        """Put the chosen question with its sizes on the clipboard."""
        key = self._shown
        if key is None:
            return
        with self._desk.store.read() as connection:
            pack = question_pack(connection, key, verdict_rule(self._desk.store))
        QApplication.clipboard().setText(pack.text())
        self._desk.say("The question, its machine, part and sizes are on the clipboard.")

    def _lay_by(self) -> None:
        """Keep an answer that differs from what is stored, under its question."""
        typed = (self._answer.toPlainText(), self._by.text())
        if self._shown is not None and typed != self._stored:
            self._begun[self._shown] = typed

    def laid_by(self) -> list[HalfTyped]:
        """The new question, and every answer begun and not stored, of the question shown and of others."""
        begun = dict(self._begun)
        shown = (self._answer.toPlainText(), self._by.text())
        if self._shown is not None and shown != self._stored:
            begun[self._shown] = shown
        said = [
            (f"{word} question no. {key}", text)
            for key, texts in begun.items()
            for word, text in zip(("answer to", "who answered"), texts, strict=True)
        ]
        return [
            HalfTyped(meant, text)
            for meant, text in [*said, ("new question", self._new.text())]
            if text.strip()
        ]

    def put_by(self) -> None:
        """Answers begun and not stored go to the kept entries; the file may close next."""
        self._lay_by()
        begun = [("answer to a question", text) for text, _by in self._begun.values()]
        for meant, text in [*begun, ("new question", self._new.text())]:
            if text.strip() and self._desk.is_open:
                self._desk.attempt(partial(self._desk.store.keep_entry, meant, text, "It was not stored."))
        self._begun.clear()
        self._shown = None
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

    def _store(self, *, assumed: bool) -> None:
        row = self._current()
        if row is not None:
            text, by = self._answer.toPlainText(), self._by.text()
            before, self._stored = self._stored, (text, by)
            try:
                answer(self._desk.store, row.id, text, by, assumed=assumed)
            except RebuildError as trouble:
                self._stored = before
                self._desk.say(str(trouble), Say.TROUBLE)
            else:
                self._desk.say("Answer stored.")

    def _settle_kept(self) -> None:
        for item in self.kept.selectedItems():
            key = int(item.data(0, KEY))
            self._desk.attempt(partial(self._desk.store.settle_kept, key))


def _item(row: QuestionRow) -> QTreeWidgetItem:
    asked = " ".join(filter(None, (show_day(row.asked_at) if row.asked_at else "", row.asked_where)))
    words = [row.text.replace("\n", " "), row.state.value, row.about, row.holds_up, asked]
    return line(words, row, shape_icon(shape_for(row.state)), icon_at=1)
