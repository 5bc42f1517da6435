"""Whether an internal threading tool goes through the bore: the largest bar, its reach, and its clearances."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan, degrees, sqrt

from rebuild.errors import OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.show import show_both

PRACTICE = Source("Internal threading", "bar, reach and clearance", Status.COMMON_PRACTICE)
GEOMETRY = Source("geometry of the bore", status=Status.COMPUTED)
#: Free room round the bar, so that chips go past and the tool comes out of the groove [mm].
ROOM_MM = 0.5
#: A steel bar held out further than this many diameters chatters, and one further than the other springs off.
QUIET, MOST, CARBIDE = 4.0, 6.0, 8.0
_HEIGHT_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class IntoTheBore:
    """The largest bar [mm], how far it stands out for its size, the clearance its tool needs [deg], and the groove."""

    bar_mm: float
    reach_mm: float
    reach_in_bars: float
    end_clearance_deg: float
    leading_deg: float
    groove_mm: float
    groove_diameter_mm: float

    @property
    def reach_words(self) -> str:
        """What a long reach asks of the bar; empty for a short one. Common practice, no source."""
        usual = f"steel about {QUIET:g}, carbide {MOST:g} to {CARBIDE:g}: common practice, no source"
        if self.reach_in_bars > CARBIDE:
            return f", too long for any bar ({usual})"
        return f", long for a steel bar ({usual})" if self.reach_in_bars > QUIET else ""


@door()
def into_the_bore(
    bore_mm: float,
    depth_mm: float,
    length_mm: float,
    pitch_mm: float,
    lead_angle_deg: float,
    unit: str = "mm",
) -> Worked[IntoTheBore]:
    """What goes through a nut's bore.

    The bar and the point beside it must pass the bore together, drawn out of the groove: bar <= bore - depth -
    twice the room. The tool's heel, half the bar below the point, must not touch the root: at h below the
    point the wall has come in by R - sqrt(R² - h²), so its end clearance is
    more than the angle of that over h. On the leading flank the lead angle is added to the usual 3 degrees.

    Raises:
        OutOfRange: no bar is left.

    >>> found = into_the_bore(8.57, 1.524, 19.0, 2.54, 4.1).value  # the nut of a 7/16-10 Acme screw
    >>> round(found.bar_mm, 2), round(found.reach_in_bars, 1)
    (6.05, 4.0)
    """
    bar = bore_mm - depth_mm - 2 * ROOM_MM
    if bar <= 1.0:
        raise OutOfRange(
            f"leaves no room for a boring bar beside a thread {show_both(depth_mm, unit)} deep.",
            where="Bore",
            value=show_both(bore_mm, unit),
            way_out="Cut it with a tap, or make the tap.",
        )
    reach = length_mm + 2 * pitch_mm
    root = bore_mm / 2 + depth_mm
    heel = min(_HEIGHT_SHARE * bar, root)
    clearance = degrees(atan((root - sqrt(root**2 - heel**2)) / heel))
    found = IntoTheBore(
        bar,
        reach,
        reach / bar,
        clearance,
        lead_angle_deg + 3.0,
        2 * pitch_mm,
        bore_mm + 2 * depth_mm + 2 * ROOM_MM / 5,
    )
    sheet = Sheet("Tool through the bore")
    sheet.equation("largest bar", f"bore - depth - 2 x {ROOM_MM:g} mm = {show_both(bar, unit)}", PRACTICE)
    sheet.equation(
        "reach", f"{show_both(reach, unit)} is {reach / bar:.1f} bars{found.reach_words}", PRACTICE
    )
    if reach / bar > MOST:
        sheet.note(f"Over {MOST:g} bars a steel bar springs off: use a tap, or carbide.", PRACTICE)
    elif reach / bar > QUIET:
        sheet.note(f"Over {QUIET:g} bars it chatters: light cuts and more spring passes.", PRACTICE)
    sheet.equation(
        "end clearance, at least", f"{clearance:.0f}° at the heel, half a bar below the point", GEOMETRY
    )
    sheet.equation("clearance of the leading flank", f"lead angle {lead_angle_deg:.1f}° + 3°", PRACTICE)
    sheet.note(
        f"In a blind bore cut a run-out groove {show_both(found.groove_mm, unit)} wide to "
        f"{show_both(found.groove_diameter_mm, unit)} first.",
        PRACTICE,
    )
    return Worked(found, sheet.close())
