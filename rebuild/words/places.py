"""Words of places: what kind of place a part lies in."""

from __future__ import annotations

import re
from enum import StrEnum


class PlaceKind(StrEnum):
    """The sort of place a part lies in."""

    BAG = "bag"
    TOTE = "tote"
    TRAY = "tray"
    BOX = "box"
    TIN = "tin"
    JAR = "jar"
    DRAWER = "drawer"
    SHELF = "shelf"
    BENCH = "bench"
    BATH = "bath"
    AT_A_SHOP = "at a shop"
    LENT = "lent"
    ON_THE_MACHINE = "on the machine"
    OTHER = "other"


#: Told by the first word alone: a "red box" or "the old tray" is called so, whatever it is.
_ONLY_FIRST = (PlaceKind.TRAY, PlaceKind.BOX, PlaceKind.TIN, PlaceKind.JAR, PlaceKind.DRAWER)


def place_words(kind: PlaceKind, name: str) -> str:
    """A place in words: ``bag 7``; one of no other kind, or whose name says its kind, by its name.

    >>> [place_words(*of) for of in ((PlaceKind.BAG, "7"), (PlaceKind.OTHER, "cellar"), (PlaceKind.BATH, "rust bath"))]
    ['bag 7', 'cellar', 'rust bath']
    """
    says = kind.value.split()[-1] in re.findall(r"\w+", name.casefold())
    return name if says or kind is PlaceKind.OTHER else f"{kind.value} {name}"


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
    before = _LIES.get(kind)
    return f"{before} {name}" if before else f"in {place_words(kind, name)}"


def lying_words(kind: PlaceKind, name: str) -> str:
    """Where a part is, with its verb: ``lies in bag 7``; one in its machine does not lie about.

    >>> lying_words(PlaceKind.BAG, "7"), lying_words(PlaceKind.ON_THE_MACHINE, "Bench lathe")
    ('lies in bag 7', 'is on the machine')
    """
    return "is on the machine" if kind is PlaceKind.ON_THE_MACHINE else f"lies {lies_words(kind, name)}"


def place_meant(text: str) -> tuple[PlaceKind, str]:
    """The kind and the name of a place typed in words: a word of its kind says which.

    >>> [(kind.value, name) for kind, name in map(place_meant, ("shelf 3", "Tray A", "Grinding shop", "red box"))]
    [('shelf', '3'), ('tray', 'A'), ('at a shop', 'Grinding shop'), ('other', 'red box')]
    """
    name = " ".join(text.split())
    for kind in PlaceKind:
        rest = name[len(kind.value) + 1 :]
        if kind is not PlaceKind.OTHER and rest and name.casefold().startswith(f"{kind.value} "):
            return kind, rest
    words = {"shop": PlaceKind.AT_A_SHOP} | {
        kind.value: kind for kind in PlaceKind if " " not in kind.value and kind not in _ONLY_FIRST
    }
    kinds = (words[word] for word in reversed(name.casefold().split()) if word in words)
    return next(kinds, PlaceKind.OTHER), name
