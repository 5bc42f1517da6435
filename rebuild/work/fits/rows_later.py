"""The mate that comes later: the follower passes the old one today and is made for the new one."""

from __future__ import annotations

import math
from dataclasses import replace

from rebuild.model.tables.fits import Fits
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.limits.uncertainty import combine
from rebuild.trade.sizes.show import show_length
from rebuild.words.fits import LimitsTo, Side
from rebuild.work.fits.rows_sides import Ground, SideRow, side_of

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


def later_side(base: Ground, stored: Fits) -> SideRow | None:
    """The later mate as the master's side: as made if it is, else both ends of its spec; None without one."""
    if not stored.later_id or stored.master is None:
        return None
    side = side_of(base, stored.master, stored.later_id, is_master=True)
    if side is None or side.readings:
        return side
    feature = base.features[stored.later_id]
    ends = (("least", feature.low_mm), ("greatest", feature.high_mm))
    told = tuple(
        SideReading(word, None, end, _EXACT, show_length(end, feature.unit), f"to be made, {word}")
        for word, end in ends
        if end is not None and math.isfinite(end)
    )
    return replace(side, readings=told)


#: A limit on paper has no uncertainty of its own.
_EXACT = combine([]).value


def is_kept(later: SideRow) -> bool:
    """Whether the promise is kept: the later mate is made and measured."""
    return bool(later.readings) and later.readings[0].reading_id > 0 and later.wait is None


def later_remarks(later: SideRow | None, limits_to: LimitsTo | None) -> list[str]:
    """The promise, as long as it is open, and whom the limits suit."""
    if later is None:
        return []
    suits = f"Limits suit {(limits_to or LimitsTo.BOTH).value}"
    if is_kept(later):
        return [f"{suits}; {later.title} is made and measured: make it this fit's side when it goes in."]
    known = "" if later.readings else ", which has neither reading nor spec yet"
    return [f"{suits}. Promise open: {later.title} comes later{known}."]


def mate_sides(
    master: Side, sides: tuple[SideRow, SideRow], later: SideRow | None, to: LimitsTo
) -> list[SideRow]:
    """The mates a follower's limits must suit, now first."""
    now = sides[0] if master is Side.OUTER else sides[1]
    if later is None or to is LimitsTo.NOW:
        return [now]
    return [later] if to is LimitsTo.LATER else [now, later]
