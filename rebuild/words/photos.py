"""Words of photos and their marks."""

from __future__ import annotations

from enum import StrEnum


class PhotoPhase(StrEnum):
    """When in the work a photo was taken."""

    AS_FOUND = "as found"
    DURING = "during"
    AFTER = "after"
    QUESTION = "question"


class MarkKind(StrEnum):
    """What is drawn on a photo."""

    ARROW = "arrow"
    RING = "ring"
    MATCH_MARK = "match mark"
    LABEL = "label"
