"""Words of fits: joints, kinds, sides, who is adjusted, where a wanted range is from."""

from __future__ import annotations

from enum import StrEnum


class FitJoint(StrEnum):
    """What the two features of a fit are to each other: outer first."""

    HOLE_AND_SHAFT = "hole and shaft"
    NUT_AND_SCREW = "nut and screw"
    SLIDE_AND_WAY = "slide and way"
    TAPER = "taper"
    GEAR_MESH = "gear mesh"


class FitKind(StrEnum):
    """How the two are meant to sit together."""

    RUNNING = "running"
    SLIDING = "sliding"
    PUSH = "push"
    PRESS = "press"
    SHRINK = "shrink"
    REGISTER = "register"
    THREAD = "thread"
    TAPER = "taper"
    MESH = "mesh"


class Side(StrEnum):
    """A side of a fit."""

    OUTER = "outer"
    INNER = "inner"


class Adjuster(StrEnum):
    """What takes up the clearance of a fit."""

    NONE = "none"
    SHIM = "shim"
    GIB = "gib"
    REAM = "ream"
    NUT = "adjustable nut"


class LimitsTo(StrEnum):
    """Whom a follower's limits suit when its mate is to be replaced later."""

    NOW = "the mate now"
    BOTH = "both mates"
    LATER = "the mate later"


class WantedOrigin(StrEnum):
    """Where the wanted range of a fit comes from."""

    STANDARD = "standard fit"
    RULE = "rule of the trade"
    HANDBOOK = "handbook"
    DRAWING = "drawing"
    OWN = "own"
