"""Words of readings: features, spec origins, stages, instruments."""

from __future__ import annotations

from enum import StrEnum


class FeatureKind(StrEnum):
    """What is measured on a part."""

    OUTSIDE_DIAMETER = "outside diameter"
    BORE = "bore"
    WIDTH = "width"
    DEPTH = "depth"
    LENGTH = "length"
    THREAD = "thread"
    TAPER = "taper"
    FLAT = "flat"
    STRAIGHTNESS = "straightness"
    RUNOUT = "runout"
    GEAR = "gear"
    KEYWAY = "keyway"
    WAY = "way"
    GAP = "gap"
    END_PLAY = "end play"
    LOST_MOTION = "lost motion"
    HEIGHT = "height"
    OTHER = "other"


class SpecOrigin(StrEnum):
    """Where a limit comes from."""

    DRAWING = "drawing"
    HANDBOOK = "handbook"
    UNWORN_END = "unworn end"
    MATE = "mate"
    JUDGEMENT = "judgement"


class Stage(StrEnum):
    """When in the part's life a reading was taken, in order."""

    AS_FOUND = "as found"
    CLEANED = "cleaned"
    REWORKED = "reworked"
    AS_MADE = "as made"
    FITTED = "fitted"


class InstrumentKind(StrEnum):
    """What a reading was taken with."""

    OUTSIDE_MICROMETER = "outside micrometer"
    INSIDE_MICROMETER = "inside micrometer"
    DEPTH_MICROMETER = "depth micrometer"
    CALIPER = "caliper"
    DIAL_INDICATOR = "dial indicator"
    TEST_INDICATOR = "test indicator"
    BORE_GAUGE = "bore gauge"
    TELESCOPING_GAUGE = "telescoping gauge and micrometer"
    SMALL_HOLE_GAUGE = "small-hole gauge and micrometer"
    HEIGHT_GAUGE = "height gauge"
    FEELER = "feeler gauge"
    GAUGE_BLOCKS = "gauge blocks"
    THREAD_WIRES = "thread wires and micrometer"
    LEVEL = "precision level"
    AUTOCOLLIMATOR = "autocollimator"
    CRUSHABLE_STRIP = "crushable strip"
    RULE = "rule"
    OTHER = "other"


class Measures(StrEnum):
    """What an instrument can be put to."""

    OUTSIDE = "outside"
    INSIDE = "inside"
    DEPTH = "depth"
    STEP = "step"
    THREADS = "threads over wires"


class TakenAs(StrEnum):
    """How a thread's pitch diameter was come by."""

    WIRES = "over three wires"
    PINS = "between two pins"
    MICROMETER = "by thread micrometer"
    GAUGE = "by thread gauge"
    MATE = "by its mate"


STAGES: tuple[Stage, ...] = tuple(Stage)
