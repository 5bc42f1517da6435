"""Words of gates: what is held, and what was gone on with all the same."""

from __future__ import annotations

from enum import StrEnum


class Gate(StrEnum):
    """What a thing must pass before it is done."""

    POWER = "power"
    SPEED = "run-in speed"
    CLOSING = "closing up"
    IRREVERSIBLE = "cannot be undone"
    ORDER = "order of work"
    TORQUE = "torque"
