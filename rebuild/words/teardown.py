"""Words of the removal log: how things came off, and their fasteners."""

from __future__ import annotations

from enum import StrEnum


class RemovalWay(StrEnum):
    """How something came off."""

    LIFTED = "lifted"
    SLID = "slid off"
    UNSCREWED = "unscrewed"
    LEFT_HAND = "unscrewed left hand"
    DRIVEN = "driven out"
    PRESSED = "pressed out"
    PULLED = "pulled"
    DRILLED = "drilled out"
    CUT = "cut"
    BROKEN = "broken off"
    MISSING = "not there"
    OTHER = "another way"


class FastenerKind(StrEnum):
    """What sits in a hole."""

    SCREW = "screw"
    BOLT = "bolt"
    STUD = "stud"
    NUT = "nut"
    SET_SCREW = "set screw"
    TAPER_PIN = "taper pin"
    DOWEL = "dowel"
    ROLL_PIN = "roll pin"
    KEY = "key"
    RIVET = "rivet"
    RING = "retaining ring"
    OTHER = "other"


class FastenerPoint(StrEnum):
    """The point of a set screw."""

    CUP = "cup"
    CONE = "cone"
    FLAT = "flat"
    DOG = "dog"
    HALF_DOG = "half dog"
    OVAL = "oval"


class FastenerState(StrEnum):
    """How a fastener was found."""

    TIGHT = "tight"
    SNUG = "snug"
    FINGER = "finger"
    LOOSE = "loose"
    PINNED = "pinned"
    ADJUSTED = "adjusted"
    MISSING = "missing"
    BROKEN = "broken"
    STRIPPED = "stripped"
