"""The places things lie in, and every stay of a part in one."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_moment, as_text, goes_with, maybe, one_of, points_at
from rebuild.words.places import PlaceKind


class Places(Journaled, name="place"):
    """Somewhere a part can lie: a bag, tote, shelf, bath, another shop."""

    kind: Cell[PlaceKind] = one_of(PlaceKind, PlaceKind.OTHER)
    name: Cell[str] = as_text()
    note: Cell[str] = as_text("")
    since: Cell[dt.datetime | None] = maybe(as_moment())


class Stays(Journaled, name="stay"):
    """A part lay in a place from ``came_at`` to ``left_at``; the stay not left is where it is now.

    ``removal_id`` and ``waiting_id`` say what put it there: coming off the machine, or being sent out, lent or
    delivered. Without a place nobody noted where it went.
    """

    indexes = (("ix_stay_part_left", "part_id", "left_at"), ("ix_stay_place_left", "place_id", "left_at"))

    part_id: Cell[int] = goes_with("part")
    place_id: Cell[int | None] = points_at("place")
    removal_id: Cell[int | None] = points_at("removal", index=True)
    waiting_id: Cell[int | None] = points_at("waiting", index=True)
    came_at: Cell[dt.datetime | None] = maybe(as_moment())
    left_at: Cell[dt.datetime | None] = maybe(as_moment())
