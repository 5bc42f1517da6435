"""Words of what is brought to size at assembly."""

from __future__ import annotations

from enum import StrEnum


class FittingKind(StrEnum):
    """How a size is reached with its mate in hand."""

    FILE = "file to fit"
    REAM = "ream in place"
    SHORTEN = "shorten until it clears"
    SCRAPE = "scrape to bearing"
