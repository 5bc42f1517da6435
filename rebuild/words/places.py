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


#: What stands before the name of a place where something lies; of other kinds the kind stands there too.
_LIES = {
    PlaceKind.ON_THE_MACHINE: "on the", PlaceKind.AT_A_SHOP: "at", PlaceKind.LENT: "lent to",
    PlaceKind.OTHER: "in", PlaceKind.BENCH: "on bench", PlaceKind.SHELF: "on shelf",
}  # fmt: skip


def lies_words(kind: PlaceKind, name: str) -> str:
    """Where something lies, to follow "lies": ``in bag 7``, ``on the small lathe``.

    >>> lies_words(PlaceKind.BAG, "7"), lies_words(PlaceKind.ON_THE_MACHINE, "small lathe")
    ('in bag 7', 'on the small lathe')
    """
    return f"{_LIES.get(kind, f'in {kind.value}')} {name}"


def place_meant(text: str) -> tuple[PlaceKind, str]:
    """The kind and the name of a place typed in words: a word of its kind says which.

    >>> [(kind.value, name) for kind, name in map(place_meant, ("shelf 3", "Grinding shop", "red box"))]
    [('shelf', '3'), ('at a shop', 'Grinding shop'), ('other', 'red box')]
    """
    name = " ".join(text.split())
    for kind in PlaceKind:
        rest = name[len(kind.value) + 1 :]
        if kind is not PlaceKind.OTHER and rest and name.casefold().startswith(f"{kind.value} "):
            return kind, rest
    words = {"shop": PlaceKind.AT_A_SHOP} | {kind.value: kind for kind in PlaceKind if " " not in kind.value}
    kinds = (words[word] for word in reversed(name.casefold().split()) if word in words)
    return next(kinds, PlaceKind.OTHER), name
