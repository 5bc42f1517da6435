"""Words of steps: kinds, states, links, constraints."""

from __future__ import annotations

from enum import StrEnum


class TaskKind(StrEnum):
    """What sort of work a task is."""

    REMOVE = "remove"
    CLEAN = "clean"
    INSPECT = "inspect"
    MEASURE = "measure"
    DECIDE = "decide"
    MAKE = "make"
    BUY = "buy"
    SEND_OUT = "send out"
    REWORK = "rework"
    PAINT = "paint"
    REFIT = "refit"
    ADJUST = "adjust"
    ALIGN = "align"
    LUBRICATE = "lubricate"
    COMMISSION = "commission"
    STONE = "stone"
    TRIAL_FIT = "trial fit"
    OTHER = "other"


class TaskState(StrEnum):
    """How far a task is."""

    OPEN = "open"
    UNDER_WAY = "under way"
    DONE = "done"
    LEFT_OUT = "left out"


class LinkKind(StrEnum):
    """How one task holds another."""

    BEFORE = "before"
    WHILE_OFF = "while it is still off"


class ConstraintKind(StrEnum):
    """What a step asks of the one who does it, apart from order."""

    AT_POSITION = "only with it at position"
    TWO_PEOPLE = "needs two people or a hoist"
    THROUGH_OPENING = "done through an opening"
    CURE = "must cure or rest"
    PROVE_FIRST = "must be proved before closing"
    WARMTH = "needs warmth"


class LinkAnswer(StrEnum):
    """What was answered to a proposed link."""

    ACCEPTED = "accepted"
    DECLINED = "declined"
