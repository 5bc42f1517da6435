"""A manual taken in beside the window: page by page, with a button that stops; nothing is noted until all is read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QProgressBar, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.job import Job, Tell
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.work.documents.pdf import Locked
from rebuild.work.documents.rules_files import PDF, KeptDocument, keep


@dataclass(frozen=True, slots=True)
class StillLocked:
    """A PDF that wants a password, and the sentence that says so."""

    path: Path
    sentence: str


class TakingManual(QWidget):
    """Hidden while nothing is taken in. ``ended`` tells the id of each manual noted."""

    ended = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._machine = 0
        self._queue: list[tuple[Path, ...]] = []
        self._refused: list[str] = []
        self._locked: list[Path] = []
        self.job = Job(self)
        self.bar = QProgressBar(self)
        self.bar.setAccessibleName("How far it is")
        self.bar.setTextVisible(False)
        self.said = PlainLabel(self)
        self.stop = QPushButton("Stop", self)
        self.password = QLineEdit(self)
        self.password.setEchoMode(QLineEdit.EchoMode.Password)
        self.password.setAccessibleName("Password of the manual")
        self.password.setPlaceholderText("its password, then Enter; it is kept nowhere")
        row = QHBoxLayout()
        for widget, stretch in ((self.bar, 3), (self.password, 3), (self.stop, 0)):
            row.addWidget(widget, stretch)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        self.said.setWordWrap(True)
        layout.addWidget(self.said)
        layout.addLayout(row)
        self.hide()
        self.password.returnPressed.connect(self._unlock)
        self.stop.clicked.connect(self._stop)
        self.job.progressed.connect(self._progress)
        self.job.done.connect(self._note)
        self.job.failed.connect(self._failed)
        desk.closed.connect(self._drop)

    def take(self, paths: Sequence[Path]) -> None:
        """Take each PDF in as a manual, and all pictures together as the pages of one."""
        machine = self._desk.machine_id
        if not paths or machine is None:
            return
        pdfs = [(path,) for path in paths if path.suffix.lower() == PDF]
        scans = tuple(path for path in paths if path.suffix.lower() != PDF)
        self._queue += [*pdfs, *([scans] if scans else [])]
        if not self.job.running:
            self._machine = machine
            self._next()

    def _next(self) -> None:
        self.hide()
        if self._queue:
            self._read(self._queue.pop(0))
            return
        if self._refused:
            self._desk.say(" ".join(self._refused), Say.TROUBLE)
        self._refused.clear()
        if self._locked:
            self._ask_password()

    def _read(self, paths: tuple[Path, ...], password: str = "") -> None:
        project = self._desk.store.path
        self.bar.setRange(0, 1000)
        self.said.setText(paths[0].name)
        self._wait_for_password(False)
        self.show()

        def work(tell: Tell) -> KeptDocument | StillLocked:
            try:
                return keep(project, paths, tell, password)
            except Locked as trouble:
                return StillLocked(paths[0], str(trouble))

        self.job.start(work)

    def _wait_for_password(self, waiting: bool) -> None:
        self.bar.setVisible(not waiting)
        self.password.setVisible(waiting)
        self.stop.setText("Leave it" if waiting else "Stop")

    def _ask_password(self) -> None:
        """The next locked one waits until its password is typed, or it is left."""
        self.said.setText(f"Password of “{self._locked[0].name}”")
        self._wait_for_password(True)
        self.password.clear()
        self.show()
        self.password.setFocus()

    def _unlock(self) -> None:
        typed = self.password.text()
        if typed and self._locked and not self.job.running:
            self.password.clear()
            self._read((self._locked.pop(0),), typed)

    def _progress(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.said.setText(words)

    def _note(self, kept: object) -> None:
        from rebuild.work.documents.acts import note

        if isinstance(kept, StillLocked):
            self._locked.insert(0, kept.path)
            self._failed(kept.sentence)
            return
        assert isinstance(kept, KeptDocument)
        made = self._desk.attempt(lambda: note(self._desk.store, self._machine, kept))
        if made is not None:
            words = f"“{kept.name}” taken in, {counted(len(kept.pages), 'page')}"
            wordless = kept.wordless
            if wordless:
                words += f"; {wordless} of them have no words, so no search finds what is printed there"
            self._desk.say(f"{words}.")
            self.ended.emit(made)
        self._next()

    def _failed(self, sentence: str) -> None:
        self._refused.append(sentence)
        self._next()

    def _stop(self) -> None:
        if self._locked and not self.job.running:
            self._locked.pop(0)
            self._next()
            return
        self._queue.clear()
        self.job.cancel()

    def _drop(self) -> None:
        self._queue.clear()
        self._refused.clear()
        self._locked.clear()
        self.password.clear()
        self.job.drop()
        self.hide()
