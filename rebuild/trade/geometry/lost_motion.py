"""Lost motion of a feed screw split into collar, nut and screw, and what each cure would leave.

At any place the dial's lost motion is collar end play + nut clearance + what the screw has lost there. The screw is
taken as unworn where the lost motion is least; the nut's share is what remains there beside the collar. A split or
adjustable nut can take up the nut's share but not the screw's: set tight in the middle it would jam at the ends.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked, Working
from rebuild.trade.sizes.own_unit import said

SPLIT = Source("lost motion = collar + nut + screw", status=Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class LostMotion:
    """The shares [mm] and, by cure, the greatest lost motion it would leave [mm]."""

    collar_mm: float
    nut_mm: float
    screw_mm: Mapping[str, float]
    worst_mm: float
    after_cure_mm: Mapping[str, float]


@door()
def split(at_places_mm: Mapping[str, float], end_play_mm: float) -> Worked[LostMotion]:
    """Split the lost motion read at named places of the travel.

    Args:
        at_places_mm: total lost motion on the dial by place, e.g. outer end, middle, inner end [mm].
        end_play_mm: end play of the screw's collar alone, by indicator on the screw's end [mm].

    Raises:
        BadEntry: fewer than two places, a negative reading, or end play larger than a lost motion.

    >>> found = split({"outer end": 0.3556, "middle": 0.9652}, 0.1524).value
    >>> round(found.nut_mm, 4), round(found.screw_mm["middle"], 4)
    (0.2032, 0.6096)
    """
    if len(at_places_mm) < 2:
        raise BadEntry(
            "needs two places of the travel or more.",
            where="Lost motion",
            way_out="Read the ends and the middle.",
        )
    for place, value in {**at_places_mm, "end play": end_play_mm}.items():
        if value < 0:
            raise BadEntry(
                "is below nothing.", where=place, value=f"{value:g}", way_out="Type it without its sign."
            )
    least = min(at_places_mm.values())
    if end_play_mm > least:
        place = min(at_places_mm, key=lambda name: at_places_mm[name])
        raise BadEntry(
            f"is larger than the lost motion at the {place} ({said(least)}).",
            where="End play",
            value=said(end_play_mm),
            way_out="Set the collar first, or read both again with the same push and pull.",
        )
    nut = least - end_play_mm
    screw = {place: value - least for place, value in at_places_mm.items()}
    worst = max(at_places_mm.values())
    left = max(screw.values())
    cures = {
        "set the collar": worst - end_play_mm,
        "new or adjusted nut": worst - nut,
        "collar and nut": left,
        "new screw, old nut": least,
        "new screw and nut, collar set": 0.0,
    }
    return Worked(
        LostMotion(end_play_mm, nut, screw, worst, cures),
        _working(at_places_mm, end_play_mm, nut, screw, cures),
    )


def _working(
    at_places: Mapping[str, float],
    end_play: float,
    nut: float,
    screw: Mapping[str, float],
    cures: Mapping[str, float],
) -> Working:
    sheet = Sheet("Lost motion split")
    for place, value in at_places.items():
        sheet.read(place, f"{value:.3f} mm")
    sheet.read("end play of the collar", f"{end_play:.3f} mm")
    sheet.equation("nut", f"least lost motion - end play = {nut:.3f} mm", SPLIT)
    for place, value in screw.items():
        sheet.equation(f"screw at the {place}", f"lost motion there - least = {value:.3f} mm", SPLIT)
    for cure, value in cures.items():
        sheet.result(f"after: {cure}", f"{value:.3f} mm at the worst place, before new running clearance")
    sheet.note(
        "Judge and set backlash only after the collar's end play is about nothing.",
        Source("order of setting, rebuilders' logs", status=Status.COMMON_PRACTICE),
    )
    return sheet.close()
