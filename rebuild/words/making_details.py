"""Words of what is on a part beside its turned sizes."""

from __future__ import annotations

from enum import StrEnum


class DetailKind(StrEnum):
    """A hole, a flat, a groove, an angle or teeth on a part to be made."""

    CROSS_HOLE = "cross-hole"
    SPOT = "set-screw spot"
    FLAT = "flat"
    KEYWAY = "keyway"
    OIL_GROOVE = "oil groove"
    ANGLE = "angle"
    HOLES_ON_CIRCLE = "holes on a circle"
    SPLINE = "teeth or splines"


#: What may be typed for a hole's depth in place of a size.
ONE_WALL, RIGHT_THROUGH = THROUGH = ("one wall", "right through")
