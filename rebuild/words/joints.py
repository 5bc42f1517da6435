"""Words of joints: how tight and how dressed."""

from __future__ import annotations

from enum import StrEnum


class Tightness(StrEnum):
    """How far a joint is, from apart to pinned; the order is the order of the list."""

    APART = "apart"
    LOOSE = "loose"
    FINGER = "finger"
    SNUG = "snug"
    TORQUED = "torqued"
    LOCKED = "locked"
    PINNED = "pinned"

    @property
    def said(self) -> str:
        """The word as it is said of a joint.

        >>> Tightness.FINGER.said, Tightness.SNUG.said
        ('finger tight', 'snug')
        """
        return "finger tight" if self is Tightness.FINGER else self.value


class Dressing(StrEnum):
    """What is on the faces and threads of a joint."""

    DRY = "dry"
    OILED = "oiled"
    GREASED = "greased"
    SEALED = "sealed"


class JointDuty(StrEnum):
    """What a joint is there for; it comes before any figure."""

    THROUGH = "bolt and nut, steel to steel"
    CASTING = "screw into a casting"
    CAP = "bearing cap"
    DOWELLED = "dowelled, screws after the dowels"
    SET_SCREW = "set screw on a shaft"
    GIB = "gib screw"
    JAM_NUT = "jam nut"
    ADJUSTING = "adjusting screw or nut"
    PIN = "pin, rivet or key"
