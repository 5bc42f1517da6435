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
