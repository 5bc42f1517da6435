"""Words of unknown things."""

from __future__ import annotations

from enum import StrEnum


class ClueKind(StrEnum):
    """What was seen on a thing nobody knows yet."""

    SIZE = "size"
    THREAD = "thread"
    TAPER = "taper"
    MARK = "stamped"
    OTHER = "seen"


class SizeOf(StrEnum):
    """Across what a size goes: a hole is held to holes, never to lengths."""

    INSIDE = "inside"
    OUTSIDE = "outside"
    ALONG = "along"
