"""Photos taken in beside the window: one by one, with a button that stops; a bad file never costs the rest."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QPushButton, QWidget

from rebuild.errors import BadEntry, FileTrouble
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.job import Job, Tell
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.counted import counted
from rebuild.words.photos import PhotoPhase
from rebuild.work.photos.about import About
from rebuild.work.photos.acts import Shows
from rebuild.work.photos.acts_take import Kept, TakenIn, keep, note

#: Files that together are smaller are read at once: a few small ones need no thread.
AT_ONCE_BYTES = 400_000
#: Sentences about single files that are said; the rest is counted.
MOST_SAID = 4


@dataclass(frozen=True, slots=True)
class Read:
    """What a thread has read: photos kept, sentences of refused files, how many files were not looked at."""

    kept: tuple[Kept, ...]
    refused: tuple[str, ...]
    left: int


@dataclass(frozen=True, slots=True)
class _Asked:
    """Files to be taken in, and what they are photos of."""

    paths: tuple[Path, ...]
    machine: int
    about: About | None
    phase: PhotoPhase
    shows: Shows | None


class Taking(QWidget):
    """Hidden while nothing is taken in. ``ended`` tells what came of it, once it is noted."""

    ended = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._asked: _Asked | None = None
        self._queue: list[_Asked] = []
        self.job = Job(self)
        self.bar = QProgressBar(self)
        self.bar.setAccessibleName("How far it is")
        self.bar.setTextVisible(False)
        self.said = PlainLabel(self)
        self.stop = QPushButton("Stop", self)
        self.stop.setToolTip("What was read so far is taken in")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        for widget, stretch in ((self.said, 2), (self.bar, 3), (self.stop, 0)):
            row.addWidget(widget, stretch)
        self.hide()
        self.stop.clicked.connect(self.job.cancel)
        self.job.progressed.connect(self._progress)
        self.job.done.connect(self._note)
        self.job.failed.connect(self._failed)
        desk.closed.connect(self._drop)

    def take(
        self,
        paths: Sequence[Path],
        *,
        about: About | None = None,
        phase: PhotoPhase = PhotoPhase.AS_FOUND,
        shows: Shows | None = None,
    ) -> None:
        """Take photos in, to what they are about, else by their tags; what is asked for meanwhile follows."""
        machine = self._desk.machine_id
        if not paths or machine is None:
            return
        asked = _Asked(tuple(paths), machine, about, phase, shows)
        if self.job.running:
            self._queue.append(asked)
            return
        self._begin(asked)

    def _begin(self, asked: _Asked) -> None:
        self._asked, paths = asked, asked.paths
        work = partial(read_all, self._desk.store.path, tuple(paths))
        if _bytes_of(paths) <= AT_ONCE_BYTES:
            self._note(work(lambda _share, _words: True))
            return
        self.bar.setRange(0, 1000)
        self.bar.setValue(0)
        self.show()
        self.job.start(work)

    def _progress(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 1000))
        self.said.setText(words)

    def _note(self, read: Read) -> None:
        """Note what was read, in one act, and say what became of all."""
        self.hide()
        store, asked = self._desk.store, self._asked
        assert asked is not None
        done = self._desk.attempt(
            lambda: note(store, asked.machine, read.kept, asked.about, asked.phase, read.refused, asked.shows)
        )
        if done is not None:
            self._say(done, read.left)
            self.ended.emit(done)
        if self._queue:
            self._begin(self._queue.pop(0))

    def _say(self, done: TakenIn, left: int) -> None:
        words = f"{counted(len(done.added), 'photo')} taken in"
        words += f", {done.filed} filed by their tags" if done.filed else ""
        words += f", {len(done.already)} were there already" if done.already else ""
        words += f", stopped with {left} not looked at" if left else ""
        troubles = [*done.refused, *done.said]
        more = [f"And {len(troubles) - MOST_SAID} more such sentences"] if len(troubles) > MOST_SAID else []
        how = Say.TROUBLE if troubles else Say.DONE
        self._desk.say(". ".join([words, *troubles[:MOST_SAID], *more]) + ("." if not troubles else ""), how)

    def _failed(self, sentence: str) -> None:
        self.hide()
        self._desk.say(sentence, Say.TROUBLE)

    def _drop(self) -> None:
        self._queue.clear()
        self.job.drop()
        self.hide()


def read_all(project: Path, paths: Sequence[Path], tell: Tell) -> Read:
    """Read and keep files one by one until all are read or ``tell`` says stop. Notes nothing: for any thread."""
    kept: list[Kept] = []
    refused: list[str] = []
    for number, path in enumerate(paths):
        if not tell(number / len(paths), f"{number + 1} of {len(paths)}: {path.name}"):
            return Read(tuple(kept), tuple(refused), len(paths) - number)
        try:
            kept.append(keep(project, path))
        except BadEntry as trouble:
            refused.append(str(trouble))
        except FileTrouble as trouble:  # the folder is full or closed: what follows would fail as well
            refused.append(str(trouble))
            return Read(tuple(kept), tuple(refused), len(paths) - number)
    return Read(tuple(kept), tuple(refused), 0)


def _bytes_of(paths: Sequence[Path]) -> int:
    total = 0
    for path in paths:
        with suppress(OSError):
            total += path.stat().st_size
    return total
