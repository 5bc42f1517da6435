"""What helical gears would have an outside diameter no spur gear has: d = z m / cos β, outside d + 2 m.

A helical gear is cut to a standard pitch square to its teeth, so any outside may be one at some helix; it is told by
looking at the teeth, and its helix by the centres or by a rolled print of its tips.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, degrees

from rebuild.trade.gears.pitches import Pitch, standard_pitches
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both

RULE = Source("Geometry of a helical gear", "cos β = z m / (outside - 2 m)", Status.COMPUTED)
#: Helix angles one meets on machines [deg] (common practice, no source).
LEAST_DEG, MOST_DEG, USUAL_DEG = 5.0, 46.0, 22.5
MOST_TOLD = 3


@dataclass(frozen=True, slots=True)
class HelicalGuess:
    """A helical gear an outside may belong to: its pitch square to the teeth, and its helix [deg]."""

    pitch: Pitch
    helix_deg: float

    @property
    def name(self) -> str:
        """``DP 16 at 23.0°``."""
        return f"{self.pitch.name} at {self.helix_deg:.1f}°"


@door()
def helical_of(teeth: int, outside_mm: float) -> Worked[tuple[HelicalGuess, ...]]:
    """The common helical gears of a count and an outside, those nearest to a usual helix first; none is empty.

    >>> [guess.name for guess in helical_of(24, 1.7545 * 25.4).value][:1]
    ['DP 16 at 23.0°']
    """
    found = []
    for pitch in standard_pitches():
        between = outside_mm - 2 * pitch.module_mm
        if pitch.commonness > 1 or between <= 0:
            continue
        cosine = teeth * pitch.module_mm / between
        if 0 < cosine < 1 and LEAST_DEG <= degrees(acos(cosine)) <= MOST_DEG:
            found.append(HelicalGuess(pitch, degrees(acos(cosine))))
    found.sort(key=lambda one: abs(one.helix_deg - USUAL_DEG))
    sheet = Sheet("Or a helical gear")
    for one in found[:MOST_TOLD]:
        sheet.equation(
            one.pitch.name,
            f"acos({teeth} × {one.pitch.module_mm:.5g} / ({outside_mm:.5g} - 2 × {one.pitch.module_mm:.5g})) = "
            f"{one.helix_deg:.2f}°",
            RULE,
        )
    sheet.note(
        f"{teeth} teeth and {both(outside_mm)}: look at the teeth. A helical gear has such an outside at a standard "
        "pitch; its helix is found from the centres (helix-from-centres)."
    )
    return Worked(tuple(found[:MOST_TOLD]), sheet.close())
