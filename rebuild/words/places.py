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
    >>> place_words(PlaceKind.ON_THE_MACHINE, "on the shaper")
    'on the shaper'
    """
    says = kind.value.split()[-1] in re.findall(r"\w+", name.casefold()) or _says_where(kind, name)
    return name if says or kind is PlaceKind.OTHER else f"{kind.value} {name}"


#: What stands before the name of a place where something lies; of other kinds the kind stands there too.
_LIES = {
    PlaceKind.AT_A_SHOP: "at", PlaceKind.LENT: "lent to",
    PlaceKind.OTHER: "in", PlaceKind.BENCH: "on bench", PlaceKind.SHELF: "on shelf",
}  # fmt: skip


def _says_where(kind: PlaceKind, name: str) -> bool:
    """Whether a place on a machine is called by where it is: *on the lathe* lies on no second *on the*."""
    return kind is PlaceKind.ON_THE_MACHINE and name.casefold().startswith("on ")


def lies_words(kind: PlaceKind, name: str) -> str:
    """Where something lies, to follow "lies": ``in bag 7``; what is in its place lies nowhere: ``on the machine``.

    >>> lies_words(PlaceKind.BAG, "7"), lies_words(PlaceKind.ON_THE_MACHINE, "small lathe")
    ('in bag 7', 'on the machine')
    >>> lies_words(PlaceKind.OTHER, "tray 1"), lies_words(PlaceKind.OTHER, "cellar")
    ('in tray 1', 'in cellar')
    """
    if kind is PlaceKind.ON_THE_MACHINE:
        return kind.value
    before = _LIES.get(kind)
    if _says_where(kind, name):
        return name
    return f"{before} {name}" if before else f"in {place_words(kind, name)}"


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
