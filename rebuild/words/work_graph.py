"""Words of the work graph: how one piece of work holds another, and how a piece stands."""

from __future__ import annotations

from enum import StrEnum


class Holding(StrEnum):
    """Why one piece of work waits for another."""

    LINK = "comes first"
    WHILE_OFF = "only while it is still off"
    STILL_ON = "has not come off yet"
    ON_AGAIN = "is on again already"
    OPENING = "done through its opening"
    MEANS = "the shop has not got what it needs"
    POSITION = "must stand at its position"
    CHAIN = "comes before it in the making"
    MAKING = "the part is not made yet"
    MASTER = "the master must be known first"
    CHOOSE = "the master is not chosen"
    UNDECIDED = "the part is still to be decided"
    LOOK = "the fit has changed"
    ANSWER = "an answer is wanted first"
    CURE = "cures or rests"
    PROOF = "must be proved before it is closed"
    OIL = "oil must be seen first"
    FITTED = "is not fitted with its mate yet"
    DELIVERY = "is not there yet"
    AWAY = "lies elsewhere"
    MISSING = "is missing"
    HAZARD = "must be tested before it is worked"
    TREATED = "is not clean or painted yet"
    GATE = "a gate is not open"


class Standing(StrEnum):
    """How a piece of work stands."""

    READY = "ready"
    HELD = "held"
    RUNS = "runs by itself"
    CLOSED = "closed"
