"""Words of places: what kind of place a part lies in."""

from __future__ import annotations

from enum import StrEnum


class PlaceKind(StrEnum):
    """The sort of place a part lies in."""

    BAG = "bag"
    TOTE = "tote"
    SHELF = "shelf"
    BENCH = "bench"
    BATH = "bath"
    AT_A_SHOP = "at a shop"
    LENT = "lent"
    ON_THE_MACHINE = "on the machine"
    OTHER = "other"


def place_words(kind: PlaceKind, name: str) -> str:
    """A place in words: ``bag 7``; one of no other kind by its name alone.

    >>> place_words(PlaceKind.BAG, "7"), place_words(PlaceKind.OTHER, "red box")
    ('bag 7', 'red box')
    """
    return name if kind is PlaceKind.OTHER else f"{kind.value} {name}"
