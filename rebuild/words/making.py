"""Words of making: shapes, progress, where limits are from."""

from __future__ import annotations

from enum import StrEnum


class PartShape(StrEnum):
    """The shape a part to be made has, for its drawing, steps and tools."""

    BUSH = "bush"
    SHAFT = "stepped shaft"
    NUT = "nut"
    SCREW = "screw"
    PIN = "pin"
    TAPER_PIN = "taper pin"
    COLLAR = "collar"
    WASHER = "washer"
    SPACER = "spacer"
    HANDLE = "handle"
    KEY = "key"
    GIB = "gib strip"
    GEAR = "gear"
    OTHER = "other"


class MakingProgress(StrEnum):
    """How far a making sheet is; between draft and being made it waits or is ready."""

    DRAFT = "draft"
    RELEASED = "released"
    BEING_MADE = "being made"
    MADE = "made"
    ACCEPTED = "accepted"
    SCRAPPED = "scrapped"


class LimitsFrom(StrEnum):
    """Where the limits on a making sheet come from."""

    MATE = "mate"
    SPEC = "spec of the feature"
    TABLE = "table"
    GENERAL = "general tolerance"
    OLD_PART = "old part"
    OWN = "own"
