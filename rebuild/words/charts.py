"""Words of the test chart and the level."""

from __future__ import annotations

from enum import StrEnum


class LimitSign(StrEnum):
    """Which way a geometry test may be off."""

    SIZE = "size only"
    EITHER = "either way"
    PLUS_ONLY = "plus only"


class LimitLength(StrEnum):
    """How a limit given over a length holds for another length."""

    FIXED = "over that length"
    PROPORTION = "in proportion to the length"


class LimitStatus(StrEnum):
    """How far a limit can be trusted; always shown beside it."""

    PUBLISHED = "published"
    ONE_RECORD = "one maker's record"
    PRACTICE = "common practice, no source"
    MEMORY = "from memory"
    OWN = "the owner's own"


class ChartStage(StrEnum):
    """When a geometry test was read."""

    AS_FOUND = "as found"
    AFTER = "after"


class LevelWay(StrEnum):
    """How the level lay on the bed."""

    ACROSS = "across"
    ALONG = "along"
