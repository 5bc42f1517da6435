"""A manual taken in beside the window: page by page, with a button that stops; nothing is noted until all is read."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QPushButton, QWidget

from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.job import Job
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.work.documents.rules_files import PDF, KeptDocument, keep


class TakingManual(QWidget):
    """Hidden while nothing is taken in. ``ended`` tells the id of each manual noted."""

    ended = Signal(int)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._machine = 0
        self._queue: list[tuple[Path, ...]] = []
        self._refused: list[str] = []
        self.job = Job(self)
        self.bar = QProgressBar(self)
        self.bar.setAccessibleName("How far it is")
        self.bar.setTextVisible(False)
        self.said = PlainLabel(self)
        self.stop = QPushButton("Stop", self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        for widget, stretch in ((self.said, 2), (self.bar, 3), (self.stop, 0)):
            row.addWidget(widget, stretch)
        self.hide()
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
        if not self._queue:
            if self._refused:
                self._desk.say(" ".join(self._refused), Say.TROUBLE)
            self._refused.clear()
            return
        paths, project = self._queue.pop(0), self._desk.store.path
        self.bar.setRange(0, 1000)
        self.said.setText(paths[0].name)
        self.show()
        self.job.start(lambda tell: keep(project, paths, tell))

    def _progress(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.said.setText(words)

    def _note(self, kept: object) -> None:
        from rebuild.work.documents.acts import note

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
        self._queue.clear()
        self.job.cancel()

    def _drop(self) -> None:
        self._queue.clear()
        self._refused.clear()
        self.job.drop()
        self.hide()
