"""Words of the first run."""

from __future__ import annotations

from enum import StrEnum


class RunState(StrEnum):
    """How far a step of the run-in is."""

    TO_RUN = "to run"
    RUNNING = "running"
    RUN = "run"
    STOPPED = "stopped"


def run_state(stored: str, *, begun: bool) -> RunState:
    """The one state of a step of the run-in: begun and not ended it runs, as older files tell only by its date.

    >>> run_state("to run", begun=True).value, run_state("run", begun=True).value
    ('running', 'run')
    """
    state = RunState(stored)
    return RunState.RUNNING if state is RunState.TO_RUN and begun else state


class CutKind(StrEnum):
    """The piece a cut test is made on."""

    TWO_COLLAR = "two collars"
    FACING = "facing"


class LookWhen(StrEnum):
    """When something is looked at."""

    BEFORE_POWER = "before power"
    FIRST_POWER = "first power"
    AFTER_RUN = "after the run-in"
