"""Works the plan out beside the window's thread: frozen values in, frozen values out, stale answers dropped."""

from __future__ import annotations

import datetime as dt
import sys
from dataclasses import dataclass

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

from rebuild.errors import RebuildError
from rebuild.trade.schedule.plan import Chances, Plan, chances, make_plan
from rebuild.trade.schedule.plan_input import PlanInput

#: A busy Python thread gives the window its turn this often; the default of 5 ms is felt as stutter.
SWITCH_S = 0.001


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan with its chances, or why there is none."""

    plan: Plan | None
    chances: Chances | None
    trouble: str = ""


class PlanWorker(QObject):
    """Runs one computation at a time; ``done`` carries only the answer to the newest question."""

    done = Signal(object)
    _came = Signal(int, object)

    def __init__(self, parent: QObject | None = None, *, now: dt.datetime | None = None) -> None:
        super().__init__(parent)
        self._generation = 0
        self._now = now
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._came.connect(self._hand_over)

    def ask(self, given: PlanInput, *, draws: int = 2000, seed: int = 1) -> None:
        """Begin; earlier questions that have not been answered are dropped."""
        self._generation += 1
        self._pool.clear()
        sys.setswitchinterval(SWITCH_S)
        now = self._now or dt.datetime.now()  # noqa: DTZ005 - the shop's wall clock
        self._pool.start(_Job(self, self._generation, given, now, draws, seed))

    def stop(self) -> None:
        """Drop what is under way and wait for the thread to end."""
        self._generation += 1
        self._pool.clear()
        self._pool.waitForDone()

    def _hand_over(self, generation: int, answer: Answer) -> None:
        if generation == self._generation:
            self.done.emit(answer)


class _Job(QRunnable):
    def __init__(
        self, owner: PlanWorker, generation: int, given: PlanInput, now: dt.datetime, draws: int, seed: int
    ) -> None:
        super().__init__()
        self._owner, self._generation, self._given = owner, generation, given
        self._now, self._draws, self._seed = now, draws, seed

    def run(self) -> None:
        """On the worker thread."""
        try:
            answer = Answer(
                make_plan(self._given, self._now),
                chances(self._given, self._now, draws=self._draws, seed=self._seed),
            )
        except RebuildError as trouble:
            answer = Answer(None, None, str(trouble))
        self._owner._came.emit(self._generation, answer)
