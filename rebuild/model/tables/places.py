"""The places parts lie in."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import Cell, as_moment, as_text, maybe, one_of
from rebuild.words.places import PlaceKind


class Places(Journaled, name="place"):
    """Somewhere a part can lie: a bag, tote, shelf, bath, another shop."""

    kind: Cell[PlaceKind] = one_of(PlaceKind, PlaceKind.OTHER)
    name: Cell[str] = as_text()
    note: Cell[str] = as_text("")
    since: Cell[dt.datetime | None] = maybe(as_moment())
