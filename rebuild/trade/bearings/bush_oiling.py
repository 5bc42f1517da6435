"""Oil hole and groove of a plain bush: where they go when it is fitted."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.bearings.bushes import positive
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import said

OILING = Source(
    "Oil hole and groove", "on the unloaded side, groove short of the ends", Status.COMMON_PRACTICE
)


@dataclass(frozen=True, slots=True)
class OilFeed:
    """Where the oil goes: hole at ``clock`` hours when fitted, groove from ``start`` to ``end`` [mm]."""

    clock: int
    hole_mm: float
    groove_start_mm: float
    groove_end_mm: float
    groove_deep_mm: float


@door()
def oil_feed(bore_mm: float, length_mm: float, wall_mm: float, load_clock: int = 6) -> Worked[OilFeed]:
    """Oil hole and groove of a bush: on the side away from the load, closed at both ends.

    Args:
        bore_mm: finished bore.
        length_mm: length of the bush.
        wall_mm: its wall.
        load_clock: where the load presses as seen from the front, 1 to 12 (6 is down).

    Raises:
        BadEntry: sizes that cannot be, or no hour.
        OutOfRange: a bush shorter than 6 mm, too short for a groove.

    >>> feed = oil_feed(16.0, 25.0, 2.5).value
    >>> feed.clock, feed.groove_start_mm, feed.groove_end_mm
    (12, 3.125, 21.875)
    """
    for what, size in (("Bore", bore_mm), ("Length", length_mm), ("Wall", wall_mm)):
        positive(size, what)
    if load_clock not in range(1, 13):
        raise BadEntry("is not an hour from 1 to 12.", where="Load", value=str(load_clock))
    if length_mm < 6.0:
        raise OutOfRange(
            "is too short for a groove (from 6 mm); a hole alone will do.",
            where="Length",
            value=said(length_mm),
        )
    clock = (load_clock + 6 - 1) % 12 + 1
    land = max(2.0, length_mm / 8)
    feed = OilFeed(
        clock, max(1.5, min(bore_mm / 8, length_mm / 4)), land, length_mm - land, min(1.0, wall_mm / 3)
    )
    sheet = Sheet("Oil hole and groove of a bush")
    sheet.read("load", f"presses at {load_clock} o'clock")
    sheet.result("hole", f"{feed.hole_mm:.2g} mm at {clock} o'clock when fitted, away from the load", OILING)
    span = f"{feed.groove_start_mm:.2f} to {feed.groove_end_mm:.2f} mm"
    sheet.result(
        "groove", f"{span} along the bush, {feed.groove_deep_mm:.2g} mm deep, closed at both ends", OILING
    )
    sheet.note(
        "Edges of hole and groove rounded. Line the hole up with the drilling in the casting, mark it."
    )
    sheet.note("A bush put in half a turn round loses its oil: mark the top before it goes in.")
    return Worked(feed, sheet.close())
