"""Which taper is it? From two diameters and a distance, an angle, or the large end and the length.

A reading error shows as a wrong rate, so each candidate is judged by how far its side would leave the
measured one over the measured length, against what the readings can tell; then by its end diameters.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.own_unit import both, said
from rebuild.trade.tapers.machine_tapers import INCH_MM, Taper, all_tapers, rate_from

#: Its tapers are parts of Morse tapers; an end within this share of its own is met.
PART_OF_ANOTHER, MET_SHARE = "Chuck B", 0.02
#: Nearer than this the gauge line is at the reading [mm].
AT_THE_LINE_MM = 0.5
READING_MM = 0.0127  # half a thou on each diameter: a micrometer on a cone at a scribed line
ONE_DIAMETER = (
    "One diameter and a length do not tell a taper: many have this large end, a short one may be a part of another. "
    "Measure a second diameter at a known distance, or blue it in a known socket before cutting."
)
_JUDGED = Source("Two diameters at a distance", "coverage of both readings", Status.COMPUTED)


@dataclass(frozen=True, slots=True)
class Candidate:
    """One taper and how far it is from what was measured.

    ``rate_off_um`` is the difference of the two cones' diameters over the measured length,
    ``ends_off_mm`` how far the measured ends lie from the taper's own ends on diameter,
    ``gauge_line_mm`` where its gauge line lies from the larger reading (+ towards the large end).
    """

    taper: Taper
    rate_off_um: float
    ends_off_mm: float
    gauge_line_mm: float
    agrees: bool
    said: str


@door()
def identify(
    large_mm: float, small_mm: float, apart_mm: float, reading_mm: float = READING_MM
) -> Worked[tuple[Candidate, ...]]:
    """Tapers ranked by agreement with two diameters ``apart_mm`` apart [mm].

    ``reading_mm`` is the likely error of each diameter. Candidates that neither agree in rate nor
    reach the measured diameters come last.

    Raises:
        BadEntry: the diameters do not taper or the distance is not positive.

    >>> identify(0.938 * 25.4, 0.778 * 25.4, 3.1875 * 25.4).value[0].taper.name
    'Morse 3'
    """
    rate = rate_from(large_mm, small_mm, apart_mm)
    slack_mm = math.hypot(reading_mm, reading_mm) * 2.0
    sheet = Sheet("Which taper")
    sheet.read("large diameter", both(large_mm))
    sheet.read("small diameter", both(small_mm))
    sheet.read("distance apart", both(apart_mm))
    sheet.equation(
        "taper per foot",
        f"12 x ({large_mm / INCH_MM:.4f} - {small_mm / INCH_MM:.4f}) / {apart_mm / INCH_MM:.4f} = "
        f"{rate * 12:.4f} in, half angle {math.degrees(math.atan(rate / 2)):.4f}°, 1:{1 / rate:.3f}",
    )
    sheet.note(
        f"With ±{reading_mm:.4f} mm on each diameter the taper per foot is known to "
        f"±{slack_mm / apart_mm * 12:.4f} in.",
        _JUDGED,
    )
    ranked = sorted(
        (_against(one, large_mm, small_mm, apart_mm, rate, slack_mm) for one in all_tapers()), key=_order
    )
    shown = tuple(ranked[:8])
    _tell(sheet, shown)
    return Worked(shown, sheet.close())


@door()
def identify_angle(included_deg: float, uncertainty_deg: float = 0.02) -> Worked[tuple[Candidate, ...]]:
    """Tapers ranked by their included angle alone; the size stays open.

    Raises:
        BadEntry: not an angle of a cone.

    >>> identify_angle(2 * 8.2971).value[0].taper.system
    'Steep 7:24'
    """
    if not 0 < included_deg < 90:
        raise BadEntry(
            "is not the included angle of a machine taper.",
            where="Included angle",
            value=f"{included_deg:g}°",
            way_out="Type the full angle across, between 0 and 90 degrees.",
        )
    rate = 2.0 * math.tan(math.radians(included_deg / 2.0))
    sheet = Sheet("Which taper, from its angle")
    sheet.read("included angle", f"{included_deg:.4f}°")
    sheet.equation("taper per foot", f"24 tan({included_deg / 2:.4f}°) = {rate * 12:.4f} in")
    ranked = []
    for one in all_tapers():
        off_deg = 2.0 * one.half_angle_deg - included_deg
        told = f"{one.name}: included {2 * one.half_angle_deg:.4f}°, {off_deg:+.4f}° off"
        off_um = abs(one.rate - rate) * one.length_mm * 1000.0
        ranked.append(Candidate(one, off_um, 0.0, 0.0, abs(off_deg) <= uncertainty_deg, told))
    ranked.sort(key=lambda each: abs(each.taper.rate - rate))
    shown = tuple(ranked[:8])
    _tell(sheet, shown)
    sheet.note("An angle alone does not tell the number: measure the diameter at the large end as well.")
    return Worked(shown, sheet.close())


@door()
def identify_size(large_mm: float, length_mm: float) -> Worked[tuple[Candidate, ...]]:
    """Tapers ranked by large end and taper length when no second diameter can be measured [mm].

    Raises:
        BadEntry: a size is not positive.

    >>> identify_size(17.8, 64).value[0].taper.name
    'Morse 2'
    """
    if large_mm <= 0 or length_mm <= 0:
        raise BadEntry("must be above zero.", where="Large end and length", value=f"{large_mm:g}")
    sheet = Sheet("Which taper, from its large end and length")
    sheet.read("large end", both(large_mm))
    sheet.read("length of the taper", both(length_mm))
    ranked = []
    for one in all_tapers():
        off_mm = abs(one.large_mm - large_mm)
        long_mm = abs(one.length_mm - length_mm)
        told = (
            f"{one.name}: large end {both(one.large_mm)}, depth "
            f"{both(one.length_mm)}; off by {said(off_mm, 3)} and {said(long_mm, 3)}"
        )
        agrees = off_mm <= 0.02 * large_mm and long_mm <= 0.25 * one.length_mm
        ranked.append(Candidate(one, 0.0, off_mm + 0.05 * long_mm, 0.0, agrees, told))
    ranked.sort(key=lambda each: (not each.agrees, each.ends_off_mm))
    shown = tuple(ranked[:8])
    _tell(sheet, shown)
    sheet.note(ONE_DIAMETER)
    return Worked(shown, sheet.close())


def _against(
    one: Taper, large_mm: float, small_mm: float, apart_mm: float, rate: float, slack_mm: float
) -> Candidate:
    off_mm = abs(one.rate - rate) * apart_mm
    past_large = max(0.0, large_mm - one.large_mm)
    past_small = max(0.0, one.small_mm - small_mm)
    gauge_line_mm = (one.large_mm - large_mm) / one.rate
    fits_place = past_large / one.rate <= 0.12 * one.length_mm and past_small / one.rate <= (
        0.25 * one.length_mm
    )
    off_large, off_small = abs(one.large_mm - large_mm), abs(one.small_mm - small_mm)
    # A piece cut short still has one end of its taper: one that is met to the reading tells more than the sum.
    ends = off_large + off_small if min(off_large, off_small) > slack_mm else 0.1 * (off_large + off_small)
    agrees = off_mm <= slack_mm and fits_place
    beyond = (
        "beyond the larger reading, off the piece"
        if gauge_line_mm > 0
        else "from the larger reading, on the piece"
    )
    where = "its gauge line is at the larger reading"
    if abs(gauge_line_mm) > AT_THE_LINE_MM:
        where = f"its gauge line is {said(abs(gauge_line_mm), 3)} {beyond}"
    rate_said = f"rate {one.per_foot_in:.4f} in per foot, {said(off_mm, 2)} off over the length"
    starts_on_it = past_large / one.rate <= 0.12 * one.length_mm and large_mm > one.small_mm
    not_there = (
        f"but it is too short: it ends at {said(one.small_mm, 4)}"
        if starts_on_it
        else "but it is not made at this diameter"
    )
    placed = where if fits_place else not_there
    return Candidate(one, off_mm * 1000.0, ends, gauge_line_mm, agrees, f"{one.name}: {rate_said}, {placed}")


def _order(one: Candidate) -> tuple[bool, bool, float]:
    """Those that agree first; a short taper that is a part of a longer one behind it, unless its own end is met."""
    share = one.ends_off_mm / one.taper.large_mm
    behind = one.taper.system == PART_OF_ANOTHER and share > MET_SHARE
    return (not one.agrees, behind, share if one.agrees else share + one.rate_off_um / 50.0)


def _tell(sheet: Sheet, shown: tuple[Candidate, ...]) -> None:
    for rank, one in enumerate(shown, start=1):
        verdict = "agrees" if one.agrees else "does not agree"
        sheet.table(f"{rank}, {verdict}", one.said, one.taper.source)
    agreeing = [one.taper.name for one in shown if one.agrees]
    if not agreeing:
        sheet.note("No taper of the table agrees within the readings: special, worn, or misread.")
    elif len(agreeing) > 1:
        sheet.note(f"The readings cannot tell {' from '.join(agreeing)}: the end diameters decide the order.")
