"""Words of controls: what the hand takes hold of."""

from __future__ import annotations

from enum import StrEnum


class ControlKind(StrEnum):
    """The sort of control."""

    KNOB = "knob"
    HANDWHEEL = "handwheel"
    CRANK = "crank"
    LEVER = "lever"
    CLUTCH = "clutch"
    DIAL = "dial"
    LOCK = "lock"
    STOP = "stop"
    SWITCH = "switch"
    PEDAL = "pedal"
    OTHER = "other"
