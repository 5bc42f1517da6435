"""One long piece of work beside the window: it tells how far it is, can be stopped, ends with a value or a sentence."""

from __future__ import annotations

import sys
from collections.abc import Callable
from threading import Event

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal, SignalInstance
from shiboken6 import isValid

from rebuild.errors import RebuildError

#: A busy Python thread gives the window its turn this often; the default of 5 ms is felt as stutter.
SWITCH_S = 0.001

#: How work ends that broke by a fault of the program; the last resort shows the report.
FAULT = "This could not be done: a fault of the program, not of what you asked. Its report can be copied."

#: Hears how far it is (0 to 1) and a few words; False asks to stop.
Tell = Callable[[float, str], bool]
Work = Callable[[Tell], object]


class Job(QObject):
    """Runs one piece of work at a time on a thread of its own, with frozen values in and out.

    ``done`` and ``failed`` speak of the newest work only: what was asked before it is dropped.
    """

    progressed = Signal(float, str)
    done = Signal(object)
    failed = Signal(str)
    _told = Signal(object, float, str)
    _came = Signal(object, object)
    _refused = Signal(object, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._newest: Event | None = None  #: stops the newest work, and tells it from older work
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._told.connect(self._pass_on)
        self._came.connect(self._end_well)
        self._refused.connect(self._end_badly)

    @property
    def running(self) -> bool:
        """Whether something is under way whose end will be told."""
        return self._newest is not None

    def start(self, work: Work) -> bool:
        """Begin, unless something is under way already."""
        if self.running:
            return False
        self.ask(work)
        return True

    def ask(self, work: Work) -> None:
        """Begin; earlier work that has not ended is stopped, and its end is not told."""
        self._give_up()
        self._newest = stop = Event()
        sys.setswitchinterval(SWITCH_S)
        self._pool.start(_Run(self, work, stop))

    def cancel(self) -> None:
        """Ask it to stop; it ends with a sentence soon after."""
        if self._newest is not None:
            self._newest.set()

    def finish(self) -> None:
        """Stop what is under way and wait for its thread; its end is still told."""
        self.cancel()
        self._pool.waitForDone()

    def drop(self) -> None:
        """Stop what is under way and wait for its thread; its end is not told."""
        self._give_up()
        self._pool.waitForDone()

    def forget(self) -> None:
        """Stop what is under way without waiting for it; its end is not told."""
        self._give_up()

    def _give_up(self) -> None:
        self.cancel()
        self._newest = None
        self._pool.clear()

    def _pass_on(self, stop: object, share: float, words: str) -> None:
        if stop is self._newest:
            self.progressed.emit(share, words)

    def _end_well(self, stop: object, value: object) -> None:
        if stop is self._newest:
            self._newest = None
            self.done.emit(value)

    def _end_badly(self, stop: object, sentence: str) -> None:
        if stop is self._newest:
            self._newest = None
            self.failed.emit(sentence)


class _Run(QRunnable):
    def __init__(self, job: Job, work: Work, stop: Event) -> None:
        super().__init__()
        self._job, self._work, self._stop = job, work, stop

    def run(self) -> None:
        """On the worker's thread."""
        try:
            value = self._work(self._tell)
        except RebuildError as trouble:
            self._say(self._job._refused, str(trouble))
        except BaseException:
            self._say(self._job._refused, FAULT)  # else whoever waits for the end waits for ever
            raise
        else:
            self._say(self._job._came, value)

    def _say(self, signal: SignalInstance, what: object) -> None:
        """Tell the window how it ended; a window that closed meanwhile asks for nothing more."""
        if isValid(self._job):
            signal.emit(self._stop, what)

    def _tell(self, share: float, words: str) -> bool:
        """Pass progress on; False when it shall stop."""
        self._job._told.emit(self._stop, share, words)
        return not self._stop.is_set()
