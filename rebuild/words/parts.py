"""Words of parts: how sure one is what it is, and where it came from."""

from __future__ import annotations

from enum import StrEnum


class Identity(StrEnum):
    """How sure we are what a loose part is."""

    UNKNOWN = "unknown"
    SUSPECTED = "suspected"
    CONFIRMED = "confirmed"
    NOT_OURS = "not ours"


class Origin(StrEnum):
    """Where a part came from."""

    ORIGINAL = "original"
    EARLIER_REPAIR = "earlier repair"
    DONOR = "donor"
    BOUGHT = "bought"
    REMADE = "remade"
    UNKNOWN = "unknown"
    MISSING = "missing"
