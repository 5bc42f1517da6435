"""Words of what is brought to size at assembly."""

from __future__ import annotations

from enum import StrEnum


class FittingKind(StrEnum):
    """How a size is reached with its mate in hand."""

    FILE = "file to fit"
    REAM = "ream in place"
    SHORTEN = "shorten until it clears"
    SCRAPE = "scrape to bearing"


def asked_words(kind: FittingKind, what: str, start: str, allowance: str, condition: str) -> str:
    """What is asked of a fit at assembly, in one line.

    >>> asked_words(FittingKind.REAM, "bore", "15.8", "0.2", "the shaft turns by hand")
    'ream in place: bore, from 15.8, 0.2 left on, until the shaft turns by hand'
    """
    parts = (
        what,
        f"from {start}" if start else "",
        f"{allowance} left on" if allowance else "",
        f"until {condition}",
    )
    return f"{kind}: {', '.join(filter(None, parts))}"
