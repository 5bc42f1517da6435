"""One long piece of work beside the window: it tells how far it is, can be stopped, ends with a value or a sentence."""

from __future__ import annotations

import sys
from collections.abc import Callable
from threading import Event

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

from rebuild.errors import RebuildError
from rebuild.window.plan.worker import SWITCH_S

#: Hears how far it is (0 to 1) and a few words; False asks to stop.
Tell = Callable[[float, str], bool]
Work = Callable[[Tell], object]


class Job(QObject):
    """Runs one piece of work at a time on a thread of its own, with frozen values in and out."""

    progressed = Signal(float, str)
    done = Signal(object)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stop = Event()
        self._running = False
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self.done.connect(self._ended)
        self.failed.connect(self._ended)

    @property
    def running(self) -> bool:
        """Whether something is under way."""
        return self._running

    def start(self, work: Work) -> bool:
        """Begin, unless something is under way already."""
        if self._running:
            return False
        self._running = True
        self._stop.clear()
        sys.setswitchinterval(SWITCH_S)
        self._pool.start(_Run(self, work))
        return True

    def cancel(self) -> None:
        """Ask it to stop; it ends with a sentence soon after."""
        self._stop.set()

    def finish(self) -> None:
        """Stop what is under way and wait for its thread."""
        self._stop.set()
        self._pool.waitForDone()

    def tell(self, share: float, words: str) -> bool:
        """On the worker's thread: pass progress on; False when it shall stop."""
        self.progressed.emit(share, words)
        return not self._stop.is_set()

    def _ended(self, _value: object) -> None:
        self._running = False


class _Run(QRunnable):
    def __init__(self, job: Job, work: Work) -> None:
        super().__init__()
        self._job, self._work = job, work

    def run(self) -> None:
        """On the worker's thread."""
        try:
            value = self._work(self._job.tell)
        except RebuildError as trouble:
            self._job.failed.emit(str(trouble))
        else:
            self._job.done.emit(value)
