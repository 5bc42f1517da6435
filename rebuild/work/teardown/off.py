"""One thing off, as it is to be logged; what a second removal means; what a line names that nobody listed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum

from rebuild.errors import BadEntry
from rebuild.trade.teardown.fastener_words import SaidFastener
from rebuild.trade.teardown.removal_words import SaidShims
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.teardown import RemovalWay

#: Kinds of place a thing is put in as it comes off; the others are gone to by other acts.
_PUT_IN = (
    PlaceKind.BAG, PlaceKind.TOTE, PlaceKind.TRAY, PlaceKind.BOX, PlaceKind.TIN, PlaceKind.JAR, PlaceKind.DRAWER,
    PlaceKind.SHELF, PlaceKind.BENCH, PlaceKind.BATH,
)  # fmt: skip


class Again(Enum):
    """What a second removal of a part means."""

    NEW_ATTEMPT = "it was refitted in between"
    ALIKE = "it is another one alike"


@dataclass(frozen=True, slots=True)
class NewPlace:
    """A place named before anybody made it."""

    kind: PlaceKind
    name: str

    @property
    def words(self) -> str:
        """``bag 7``; one of no kind by its name alone."""
        return place_words(self.kind, self.name)


@dataclass(frozen=True, slots=True)
class TakenFor:
    """Words of a line that are not the code or name of the part they were taken for, or name one of elsewhere.

    ``begins``: they are the first words of its name, and may as well be the whole name of another part.
    ``elsewhere`` is the subassembly of a part not named by its code, when that is not the one in hand.
    """

    words: str
    part_id: int
    title: str
    begins: bool
    elsewhere: str = ""
    outright: bool = False


@dataclass(frozen=True, slots=True)
class Off:
    """One thing off. ``typed`` holds further fields of the record as text (orientation, hard, found ...).

    ``new_parts`` and ``new_place`` are named for the first time: they are made in the same act. ``taken_for`` are
    the parts not named outright. ``said_of`` is the subassembly the line says itself.
    """

    part_ids: tuple[int, ...] = ()
    how: RemovalWay = RemovalWay.LIFTED
    from_end: str = ""
    what: str = ""
    fasteners: tuple[SaidFastener, ...] = ()
    shims: tuple[SaidShims, ...] = ()
    place_id: int | None = None
    at: dt.datetime | None = None
    typed: Mapping[str, str] = field(default_factory=dict)
    new_parts: tuple[str, ...] = ()
    new_place: NewPlace | None = None
    taken_for: tuple[TakenFor, ...] = ()
    said_of: int | None = None

    @property
    def is_whole(self) -> bool:
        """Whether what came off was there and nothing broke off it."""
        return self.how not in (RemovalWay.BROKEN, RemovalWay.MISSING) and not self.typed.get("broke")


class EnterOnceMore(BadEntry):
    """A line that may be meant as it stands: it is stored when that is confirmed."""


class NotYetThere(EnterOnceMore):
    """A line names a part or a place nobody has listed: it is made when that is confirmed."""


def place_said(words: str) -> NewPlace:
    """The place a few words name: ``bag 7`` is a bag, ``tray A`` a tray, ``red box`` is a place of no other kind.

    Raises:
        BadEntry: the kind of place alone, which is not one of them.

    >>> place_said("bag 7").words, place_said("red box").words, place_said("tray A").kind.value
    ('bag 7', 'red box', 'tray')
    """
    first, _, rest = " ".join(words.split()).partition(" ")
    kind = next((kind for kind in _PUT_IN if kind.value == first.lower()), None)
    if kind is not None and not rest:
        raise BadEntry("does not say which.", where="Stored in", value=words, way_out=f"Say {first} 1.")
    return NewPlace(kind, rest) if kind is not None else NewPlace(PlaceKind.OTHER, words.strip())
