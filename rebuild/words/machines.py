"""Words of machines: their kind and what of them is in scope."""

from __future__ import annotations

from enum import StrEnum


class MachineKind(StrEnum):
    """What the machine does."""

    LATHE = "lathe"
    MILL = "mill"
    SHAPER = "shaper"
    SURFACE_GRINDER = "surface grinder"
    PLANER = "planer"
    DRILL = "drill"
    OTHER = "other"


class Scope(StrEnum):
    """How far the owner means to go; it sets what is good enough for every part."""

    GET_RUNNING = "get running"
    REFURBISH = "refurbish"
    RECONDITION = "recondition"
    RESTORE = "restore"
