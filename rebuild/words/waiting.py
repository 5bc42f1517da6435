"""Words of waiting: clocks and orders."""

from __future__ import annotations

from enum import StrEnum


class ClockKind(StrEnum):
    """What runs by itself."""

    BATH = "in the bath"
    RECOAT = "recoat"
    CURE = "cure"
    RETORQUE = "re-torque"
    RELEVEL = "re-level"
    LOOK = "look again"


class WaitingKind(StrEnum):
    """What is waited for, or owed back."""

    ORDER = "order"
    SENT_OUT = "sent out"
    QUOTE = "quote"
    LENT = "lent out"
    BORROWED = "borrowed"
