"""Words of the oil card."""

from __future__ import annotations

from enum import StrEnum


class OilPointKind(StrEnum):
    """What a lubrication point is, or a piece of the line that feeds it."""

    FLIP_LID_CUP = "flip-lid cup"
    FLIP_LID_WICK = "flip-lid cup and wick"
    BALL_OILER = "ball oiler"
    OIL_HOLE = "plain hole"
    PLUG_SCREW = "plug screw"
    SIGHT_FEED = "sight feed"
    RESERVOIR = "reservoir"
    GREASE_NIPPLE = "grease nipple"
    BY_HAND = "by hand"
    PUMP = "pump or oiler"
    LINE = "line"
    JUNCTION = "junction"
    METER = "metering unit"


class FlowProof(StrEnum):
    """Whether oil was seen to arrive."""

    NOT_PROVED = "not proved"
    PROVED = "flow proved"
    BLOCKED = "blocked"
    NOT_NEEDED = "nothing to prove"
