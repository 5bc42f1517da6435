"""Words of decisions: what is to become of a part."""

from __future__ import annotations

from enum import StrEnum


class Decision(StrEnum):
    """What is to become of a part."""

    OPEN = "open"
    REUSE = "reuse"
    REWORK = "rework"
    REMAKE = "remake"
    BUY = "buy"
    DEFER = "defer"
