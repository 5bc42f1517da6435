"""Words of the first run."""

from __future__ import annotations

from enum import StrEnum


class RunState(StrEnum):
    """How far a step of the run-in is."""

    TO_RUN = "to run"
    RUN = "run"
    STOPPED = "stopped"


class CutKind(StrEnum):
    """The piece a cut test is made on."""

    TWO_COLLAR = "two collars"
    FACING = "facing"


class LookWhen(StrEnum):
    """When something is looked at."""

    BEFORE_POWER = "before power"
    FIRST_POWER = "first power"
    AFTER_RUN = "after the run-in"
