"""The question chosen and its answer: typed, known or assumed, filed where it is wanted, sent to who may know."""

from __future__ import annotations

from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.labels.printing import print_question
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.log.filing_line import FilingLine
from rebuild.window.photos.attached import AttachedPhotos
from rebuild.words.photos import PhotoPhase
from rebuild.work.log.acts import answer
from rebuild.work.log.rows import QuestionRow
from rebuild.work.question_pack.acts import file_answer
from rebuild.work.question_pack.rows import question_pack
from rebuild.work.records.rows_settings import verdict_rule


class AnswerPane(QWidget):
    """One question in full; an answer begun for another waits until that is chosen again."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._shown: int | None = None
        self._stored = ("", "")
        self._begun: dict[int, tuple[str, str]] = {}
        self._whole = PlainLabel()
        self._whole.setWordWrap(True)
        self._whole.setMinimumHeight(self._whole.fontMetrics().lineSpacing())
        self.answer = QPlainTextEdit()
        self.answer.setAccessibleName("Answer")
        self.answer.setPlaceholderText("What was found out, or what you assume until someone knows")
        self.answer.setTabChangesFocus(True)
        self.by = QLineEdit()
        self.by.setAccessibleName("Answered by")
        self.by.setPlaceholderText("Who or what says so")
        self.known = QPushButton("It is &known")
        self.assumed = QPushButton("We &assume it")
        self.pack_button = QPushButton("Print to send…")
        self.copy_button = QPushButton("Copy as text")
        self.filing = FilingLine(desk)
        self.photos = AttachedPhotos(desk, "question", "Photos to send", self, phase=PhotoPhase.QUESTION)
        self._lay_out()
        self.known.clicked.connect(lambda: self._store(assumed=False))
        self.assumed.clicked.connect(lambda: self._store(assumed=True))
        self.pack_button.clicked.connect(self.print_pack)
        self.copy_button.clicked.connect(self.copy_pack)
        self.filing.button.clicked.connect(self.file)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.addWidget(self.by, 1)
        for button in (self.known, self.assumed, self.pack_button, self.copy_button):
            row.addWidget(button)
        form = QVBoxLayout(self)
        form.setContentsMargins(0, 4, 0, 0)
        form.addWidget(self._whole)
        form.addWidget(self.answer)
        form.addLayout(row)
        form.addWidget(self.filing)
        form.addWidget(self.photos)

    @property
    def shown(self) -> int | None:
        """The id of the question shown."""
        return self._shown

    def show_question(self, row: QuestionRow | None) -> None:
        """Show a question, or that none is chosen."""
        self._lay_by()
        self._shown = row.id if row else None
        self._stored = (row.answer, row.answered_by) if row else ("", "")
        self.filing.offer(self._shown)
        self.photos.show_row(self._shown)
        answer, by = self._begun.pop(row.id, self._stored) if row else self._stored
        self._whole.setText(row.text if row else "Choose a question above to answer it.")
        if self._typed != (answer, by):
            self.answer.setPlainText(answer)
            self.by.setText(by)
        for control in (self.answer, self.by, self.known, self.assumed, self.pack_button, self.copy_button):
            control.setEnabled(row is not None)

    @property
    def _typed(self) -> tuple[str, str]:
        return self.answer.toPlainText(), self.by.text()

    def _lay_by(self) -> None:
        """Keep an answer that differs from what is stored, under its question."""
        if self._shown is not None and self._typed != self._stored:
            self._begun[self._shown] = self._typed

    @property
    def begun(self) -> dict[int, tuple[str, str]]:
        """Every answer begun and not stored, and who says so, by question."""
        begun = dict(self._begun)
        if self._shown is not None and self._typed != self._stored:
            begun[self._shown] = self._typed
        return begun

    def forget(self) -> None:
        """What was begun is kept elsewhere."""
        self._begun.clear()
        self._shown = None

    def _store(self, *, assumed: bool) -> None:
        if self._shown is not None:
            text, by = self._typed
            before, self._stored = self._stored, (text, by)
            try:
                answer(self._desk.store, self._shown, text, by, assumed=assumed)
            except RebuildError as trouble:
                self._stored = before
                self._desk.say(str(trouble), Say.TROUBLE)
            else:
                self._desk.say("Answer stored.")

    def file(self) -> None:
        """Store the answer and file it where the list says, in one act."""
        one, key = self.filing.chosen, self._shown
        if key is None or one is None:
            return
        text, by = self._typed
        before, self._stored = self._stored, (text, by)
        spec = self.filing.typed_spec
        words = self._desk.attempt(lambda: file_answer(self._desk.store, key, text, by, one.filing, spec))
        if words is None:
            self._stored = before
        else:
            self.filing.spec.clear()
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
