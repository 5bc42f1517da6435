"""Parts that are a ring about an axis, drawn in full section: bush, collar, washer, spacer, gear blank."""

from __future__ import annotations

import math

from rebuild.trade.drawing.ink import Draft, Drawing, Layer, Side
from rebuild.trade.drawing.measure import Given, short_number
from rebuild.trade.drawing.profile import (
    axis,
    chamfered,
    cylinder,
    flange_sizes,
    note_chamfers,
    refuse_longer,
    refuse_thin_wall,
    section,
    wall_hole,
)

#: The lead of a bush that is pressed in: so many degrees from the axis.
LEAD_DEG = 15.0


def bush(given: Given, unit: str) -> Drawing:
    """A plain or flanged bush; the flange is on the left, the lead chamfer on the right.

    Raises:
        BadEntry: a size is missing, or the wall is impossible.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"outside diameter": 30.0, "bore": 20.0, "length": 40.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> bush(Given("part", sizes), "mm").dimension("bore").measured_mm
    20.0
    """
    outside, bore, length = (given.need(role) for role in ("outside diameter", "bore", "length"))
    lead = given.mm("lead chamfer")
    flange, thick = given.maybe("flange diameter"), given.mm("flange thickness")
    refuse_thin_wall(outside.at_mm, bore.at_mm, bore.name, unit)
    refuse_longer(thick + lead, length.at_mm, "Flange and lead", "length", unit)
    draft = Draft("Bush")
    long = length.at_mm
    start = thick if flange is not None else 0.0
    body = chamfered(start, long, outside.at_mm, (0, 0), (lead, lead * math.tan(math.radians(LEAD_DEG))))
    outer = [*cylinder(0, start, flange.at_mm), *body] if flange is not None else body
    inner = cylinder(0, long, bore.at_mm)
    section(draft, outer, inner)
    axis(draft, 0, long)
    draft.across("outside diameter", outside, long - lead, Side.RIGHT)
    draft.across("bore", bore, 0.0, Side.LEFT)
    draft.along("length", length, 0, long, -(flange or outside).at_mm / 2)
    if flange is not None:
        flange_sizes(draft, flange, given.need("flange thickness"))
    if lead:
        size = short_number(lead, unit)
        draft.note((long, outside.at_mm / 2 - lead * math.tan(math.radians(LEAD_DEG))), f"lead 15° × {size}")
    before = given.maybe("bore before pressing")
    if before is not None:
        low, high = before.lines(unit)[-1], before.lines(unit)[0]
        words = low if low == high else f"{low} to {high}"
        draft.note(
            (0.75 * long, -bore.at_mm / 2), f"Ø{words} before pressing,", "finish in place", side=Side.BOTTOM
        )
    _oil_hole(draft, given, unit, long, outside.at_mm, bore.at_mm)
    return draft.close()


def _oil_hole(draft: Draft, given: Given, unit: str, length: float, outside: float, bore: float) -> None:
    hole = given.maybe("oil hole")
    if hole is None:
        return
    place = given.mm("oil hole position", length / 2)
    refuse_longer(place, length, "Oil hole position", "length", unit)
    wall_hole(draft, place, hole.at_mm, bore, outside)
    draft.line(Layer.CENTRE, (place, bore / 2 - 0.1 * outside), (place, 0.62 * outside))
    draft.note((place, outside / 2), f"oil hole {hole.lines(unit, diameter=True)[0]}")
    position = given.maybe("oil hole position")
    if position is not None:
        draft.along("oil hole position", position, 0, place, outside / 2, Side.TOP)


def ring(given: Given, unit: str, *, word: str, thickness: str) -> Drawing:
    """A collar, washer or spacer: outside, bore, and its length under the trade's word for it.

    Raises:
        BadEntry: a size is missing, or the wall is impossible.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"outside diameter": 30.0, "bore": 20.0, "width": 12.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> ring(Given("collar", sizes), "mm", word="collar", thickness="width").dimension("width").measured_mm
    12.0
    """
    outside, bore, long = (given.need(role) for role in ("outside diameter", "bore", thickness))
    chamfer = given.mm("chamfer")
    refuse_thin_wall(outside.at_mm, bore.at_mm, bore.name, unit)
    refuse_longer(2 * chamfer, long.at_mm, "Both chamfers", thickness, unit)
    draft = Draft(word.capitalize())
    section(
        draft,
        cylinder(0, long.at_mm, outside.at_mm, chamfer, chamfer),
        cylinder(0, long.at_mm, bore.at_mm),
    )
    axis(draft, 0, long.at_mm)
    draft.across("outside diameter", outside, long.at_mm, Side.RIGHT)
    draft.across("bore", bore, 0, Side.LEFT)
    draft.along(thickness, long, 0, long.at_mm, -outside.at_mm / 2)
    note_chamfers(draft, (chamfer / 2, outside.at_mm / 2 - chamfer / 2), chamfer, unit)
    screw = given.maybe("set screw hole")
    if screw is not None:
        middle = long.at_mm / 2
        wall_hole(draft, middle, screw.at_mm, bore.at_mm, outside.at_mm)
        draft.line(Layer.CENTRE, (middle, 0.4 * bore.at_mm), (middle, 0.58 * outside.at_mm))
        draft.note(
            (middle, outside.at_mm / 2), f"hole for the set screw {screw.lines(unit, diameter=True)[0]}"
        )
    return draft.close()


def gear_blank(given: Given, unit: str) -> Drawing:
    """A gear in section: its teeth left uncut down to the root, the pitch line a chain line (ISO 2203, from memory).

    Raises:
        BadEntry: a size is missing, or the wall is impossible.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> typed = {"outside diameter": 55.0, "bore": 16.0, "face width": 20.0}
    >>> sizes = {role: Measure(role, size) for role, size in typed.items()}
    >>> gear_blank(Given("part", sizes), "mm").dimension("face width").measured_mm
    20.0
    """
    outside, bore, face = (given.need(role) for role in ("outside diameter", "bore", "face width"))
    hub, hub_long = given.maybe("hub diameter"), given.mm("hub length")
    refuse_thin_wall((hub or outside).at_mm, bore.at_mm, bore.name, unit)
    draft = Draft("Gear blank")
    end = face.at_mm + (hub_long if hub is not None else 0.0)
    root, pitch = given.maybe("root diameter"), given.maybe("pitch diameter")
    cut = root or outside
    outer = cylinder(0, face.at_mm, cut.at_mm)
    if hub is not None and hub_long:
        outer += cylinder(face.at_mm, end, hub.at_mm)
    section(draft, outer, cylinder(0, end, bore.at_mm))
    axis(draft, 0, end)
    for sign in (1, -1):
        if root is not None:
            _teeth(draft, face.at_mm, sign * root.at_mm / 2, sign * outside.at_mm / 2)
        if pitch is not None:
            y = sign * pitch.at_mm / 2
            draft.line(Layer.CENTRE, (0, y), (face.at_mm, y))
    draft.across("outside diameter", outside, 0, Side.LEFT)
    draft.across("bore", bore, end, Side.RIGHT)
    draft.along("face width", face, 0, face.at_mm, -outside.at_mm / 2)
    if hub is not None and hub_long:
        draft.across("hub diameter", hub, end, Side.RIGHT)
        draft.along("hub length", given.need("hub length"), face.at_mm, end, hub.at_mm / 2, Side.TOP)
    return draft.close()


def _teeth(draft: Draft, face: float, root: float, tip: float) -> None:
    """Teeth in section: their outline alone, for a tooth is never shown cut."""
    draft.run(Layer.OUTLINE, [(0, root), (0, tip), (face, tip), (face, root)])
