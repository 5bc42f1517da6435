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


class Dressing(StrEnum):
    """What is on the faces and threads of a joint."""

    DRY = "dry"
    OILED = "oiled"
    GREASED = "greased"
    SEALED = "sealed"
