"""The Book page: what the machine's book would hold, what is wanted in it, and building it beside the window."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QProgressBar,
    QPushButton,
    QSizePolicy,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from rebuild.sheets.book.holds import holds, on_the_title
from rebuild.sheets.book.options import BookOptions, file_name
from rebuild.store.reading import reading
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.job import Job, Tell
from rebuild.window.desk.live_page import LivePage
from rebuild.window.forms.whole_line import WholeLine
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.book import rows as book_rows
from rebuild.work.book.rows import read_book
from rebuild.work.machines import rows_tree as tree
from rebuild.work.records.wall_clock import now

_PAPERS = ("A4", "Letter")


@dataclass(frozen=True, slots=True)
class _Holds:
    """What the book of a machine would hold."""

    machine: int
    rows: tuple[tuple[str, str], ...]
    title: tuple[tuple[str, str], ...]


class BookPage(LivePage):
    """Options on the left, what it will hold on the right; the book is built on a thread of its own."""

    shows = (book_rows,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "Book", parent)
        self._machine: int | None = None
        self._file: Path | None = None
        self._written: Path | None = None
        self._again = False
        self.cost = QCheckBox("P&rices and sums")
        self.photos = QCheckBox("Ph&otos")
        self.log = QCheckBox("Bench lo&g")
        self.log.setChecked(True)
        self.dated = QCheckBox("To&day’s date on the title page")
        self.dated.setToolTip("Without it the same file gives the same book for ever, to the byte")
        self.paper = QComboBox()
        self.paper.addItems(_PAPERS)
        self.paper.setAccessibleName("Paper")
        self.paper.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.target = WholeLine()
        self.target.setAccessibleName("Where the book is written")
        self.choose = QPushButton("&Choose…")
        self.build = QPushButton("&Build the book")
        self.cancel = QPushButton("S&top")
        self.show_book = QPushButton("Ope&n it")
        self.show_folder = QPushButton("Open &its folder")
        self.bar = QProgressBar()
        self.bar.setRange(0, 100)
        self.bar.setAccessibleName("How far the book is")
        self.says = PlainLabel()
        self.says.setWordWrap(True)
        self.holds = PlainTable("What the book will hold", ("Chapter", "Holds"))
        self.title = PlainTable("What stands on the title page", ("On the title page", "As it stands now"))
        for table in (self.holds, self.title):
            table.when_empty("Stands here as soon as the file has been read for it.")
        self.job = Job(self)
        self._reader = Job(self)
        self._lay_out()
        self._wire()
        self._fresh()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        for box in (self.cost, self.photos, self.log, self.dated):
            form.addRow("" if form.rowCount() else "With", box)
        form.addRow("Paper", self.paper)
        line = QHBoxLayout()
        line.addWidget(self.target, 1)
        line.addWidget(self.choose)
        form.addRow("Write to", line)
        buttons = QHBoxLayout()
        for button in (self.build, self.cancel, self.show_book, self.show_folder):
            buttons.addWidget(button)
        buttons.addStretch(1)
        left = QWidget()
        side = QVBoxLayout(left)
        side.setContentsMargins(0, 0, 8, 0)
        intro = PlainLabel(
            "One PDF of everything: identity with its evidence, what was found, decided, made, fitted and proved. "
            "Figures and plots are drawn as lines. A chapter without anything to say is left out."
        )
        intro.setWordWrap(True)
        side.addWidget(intro)
        side.addLayout(form)
        side.addLayout(buttons)
        side.addWidget(self.bar)
        side.addWidget(self.says)
        side.addSpacing(8)
        self.title.stand_whole()
        side.addWidget(self.title)
        side.addStretch(1)
        whole = QSplitter(Qt.Orientation.Horizontal)
        whole.addWidget(left)
        whole.addWidget(self.holds)
        whole.setChildrenCollapsible(False)
        whole.setSizes([560, 500])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addWidget(whole)

    def _wire(self) -> None:
        self.choose.clicked.connect(self._choose)
        self.build.clicked.connect(self.start)
        self.cancel.clicked.connect(self.job.cancel)
        self.show_book.clicked.connect(lambda: self._open(self._written))
        self.show_folder.clicked.connect(lambda: self._open(self._written.parent if self._written else None))
        self.job.progressed.connect(self._progress)
        self.job.done.connect(self._done)
        self.job.failed.connect(self._failed)
        self._reader.done.connect(self._show_holds)
        self._reader.failed.connect(self.says.setText)
        self._desk.closed.connect(self._close)

    def _close(self) -> None:
        self.job.finish()
        self._reader.finish()
        self._fresh()

    def _fresh(self) -> None:
        """Another file or machine: another name for the book."""
        machine = self._desk.machine_id if self._desk.is_open else None
        self._machine, self._file = machine, self._desk.store.path if self._desk.is_open else None
        self._written = None
        self.says.setText("" if machine is not None else "No machine yet.")
        self.holds.plain.fill([])
        self.title.plain.fill([])
        if machine is not None:
            self.target.setText(str(self._usual_target(machine)))
        self._enable()

    def _usual_target(self, machine: int) -> Path:
        with self._desk.store.read() as connection:
            names = tree.machine_names(connection)
        return self._desk.store.path.parent / f"{file_name(names.get(machine, 'machine'))}.pdf"

    def refresh(self) -> None:
        """Read what the book will hold, beside the window; once more when it changes meanwhile."""
        if self.machine != self._machine or (self._desk.is_open and self._desk.store.path != self._file):
            self._fresh()
        self._again = self._reader.running
        if self._again or self._machine is None or not self._desk.is_open:
            return
        path, machine = self._desk.store.path, self._machine

        def read(_tell: Tell) -> object:
            with reading(path) as connection:
                book = read_book(connection, machine)
                return _Holds(machine, holds(book), on_the_title(book))

        self._reader.start(read)

    def _show_holds(self, answer: object) -> None:
        if isinstance(answer, _Holds) and answer.machine == self._machine:
            self.holds.plain.fill(list(enumerate(answer.rows)))
            said = ((name, words or "not noted, left out") for name, words in answer.title)
            self.title.plain.fill(list(enumerate(said)))
        if self._again:
            self.refresh()

    def options(self) -> BookOptions:
        """What is ticked."""
        printed = now().date() if self.dated.isChecked() else None
        return BookOptions(
            self.cost.isChecked(),
            self.photos.isChecked(),
            self.log.isChecked(),
            self.paper.currentText(),
            printed,
        )

    def start(self) -> None:
        """Build the book; the window stays free meanwhile."""
        if self._machine is None or self.job.running:
            return
        target = Path(self.target.text().strip())
        if not self.target.text().strip() or not target.parent.is_dir():
            self._desk.say(
                f"“{target.parent}” is not a folder. Choose where the book is written.", Say.TROUBLE
            )
            self.target.setFocus()
            return
        path, machine, options = self._desk.store.path, self._machine, self.options()
        target = target if target.suffix else target.with_suffix(".pdf")

        def build(tell: Tell) -> object:
            from rebuild.sheets.book.build import build_book

            return build_book(path, machine, target, options, tell)

        self._written = None
        self.job.start(build)
        self.says.setText("Building…")
        self._enable()

    def _progress(self, share: float, words: str) -> None:
        self.bar.setValue(round(100 * share))
        self.says.setText(f"{words}…")

    def _done(self, written: object) -> None:
        assert isinstance(written, Path)
        self._written = written
        self.bar.setValue(100)
        self.says.setText(f"Written: {written}")
        self._desk.say(f"The machine’s book is written: {written.name}.")
        self._enable()

    def _failed(self, sentence: str) -> None:
        self.bar.setValue(0)
        self.says.setText(sentence)
        self._desk.say(sentence, Say.TROUBLE)
        self._enable()

    def _enable(self) -> None:
        ready, busy = self._machine is not None, self.job.running
        for widget in (self.build, self.choose, self.target):
            widget.setEnabled(ready and not busy)
        self.cancel.setEnabled(busy)
        self.bar.setVisible(busy)
        for button in (self.show_book, self.show_folder):
            button.setEnabled(self._written is not None and not busy)

    def _choose(self) -> None:
        name, _kind = QFileDialog.getSaveFileName(self, "Write the book", self.target.text(), "PDF (*.pdf)")
        if name:
            self.target.setText(name)

    def _open(self, path: Path | None) -> None:
        if path is not None and not QDesktopServices.openUrl(QUrl.fromLocalFile(str(path))):
            self._desk.say(f"There is no program to show it. It lies in {path}.", Say.ASK)
