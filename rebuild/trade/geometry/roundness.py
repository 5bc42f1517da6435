"""Roundness by two points and by a V-block, each with what it cannot see.

A two-point measure reads the diameter: an odd number of lobes hides from it entirely (ISO 4292:1985, two- and
three-point methods, from memory). In a V-block of included angle α, with the indicator on its bisector, a profile
of n lobes of amplitude c reads 2c·|(-1)ⁿ + cos(n(90° - α/2))/sin(α/2)|, which is nought for some n.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked

LOBING = Source("contact geometry of a lobed profile; ISO 4292:1985", status=Status.COMPUTED)
#: A factor below this sees next to nothing.
BLIND = 0.15


@door()
def v_block_factor(lobes: int, included_deg: float) -> float:
    """How many times the radial peak-to-valley a V-block reading shows for a number of lobes.

    Raises:
        OutOfRange: fewer than two lobes, or an angle outside 30 to 150 degrees.

    >>> [round(abs(v_block_factor(n, 90)), 3) for n in (2, 3, 5, 7)]
    [1.0, 2.0, 2.0, 0.0]
    >>> round(v_block_factor(5, 60), 6)
    0.0
    """
    if lobes < 2:
        raise OutOfRange("one lobe is eccentricity, not shape.", where="Lobes", value=str(lobes))
    if not 30 <= included_deg <= 150:
        raise OutOfRange("is outside 30 to 150 degrees.", where="V-block angle", value=f"{included_deg:g}")
    half = math.radians(included_deg) / 2
    sign = -1.0 if lobes % 2 else 1.0
    return abs(sign + math.cos(lobes * (math.pi / 2 - half)) / math.sin(half))


@door()
def two_point_factor(lobes: int) -> float:
    """How many times the radial peak-to-valley a diameter shows: 2 for even lobes, 0 for odd.

    >>> two_point_factor(3), two_point_factor(4)
    (0.0, 2.0)
    """
    return 0.0 if lobes % 2 else 2.0


@dataclass(frozen=True, slots=True)
class Roundness:
    """Radial out-of-roundness [mm] by number of lobes assumed; None where the set-up is blind."""

    by_lobes: Mapping[int, float | None]
    reading_mm: float


@door()
def from_v_block(
    tir_mm: float, included_deg: float, lobes: Sequence[int] = (2, 3, 5, 7)
) -> Worked[Roundness]:
    """What a V-block reading means for each number of lobes.

    >>> found = from_v_block(0.010, 90).value
    >>> found.by_lobes[3], found.by_lobes[7]
    (0.005, None)
    """
    sheet = Sheet(f"Roundness in a {included_deg:g}° V-block")
    sheet.read("indicator", f"{tir_mm * 1000:.1f} µm total")
    found: dict[int, float | None] = {}
    for number in lobes:
        factor = v_block_factor(number, included_deg)
        if factor < BLIND:
            found[number] = None
            sheet.note(
                f"{number} lobes: this block is blind to them (factor {factor:.2f}); use another angle.",
                LOBING,
            )
            continue
        found[number] = round(tir_mm / factor, 9)
        sheet.equation(
            f"{number} lobes", f"{tir_mm * 1000:.1f} / {factor:.2f} = {tir_mm / factor * 1000:.1f} µm", LOBING
        )
    return Worked(Roundness(found, tir_mm), sheet.close())


@dataclass(frozen=True, slots=True)
class Bore:
    """Shape of a bore or shaft from diameters at stations and directions [mm]."""

    taper_mm: float
    ovality_mm: float
    middle_mm: float
    shape: str


@door()
def from_diameters(by_station: Sequence[Sequence[float]]) -> Worked[Bore]:
    """Taper, ovality and bell-mouth (or barrel) from diameters: stations along, directions round [mm].

    Raises:
        BadEntry: no station, or stations with differing numbers of directions.

    >>> found = from_diameters([[25.02, 25.02], [25.00, 25.00], [25.02, 25.02]]).value
    >>> round(found.middle_mm, 3), found.shape
    (-0.02, 'smaller in the middle')
    """
    if not by_station or not by_station[0]:
        raise BadEntry(
            "holds no diameters.", where="Diameters", way_out="Take two directions at two stations or more."
        )
    if len({len(station) for station in by_station}) > 1:
        raise BadEntry(
            "have differing numbers of directions.",
            where="Stations",
            way_out="Take the same directions at each.",
        )
    means = [sum(station) / len(station) for station in by_station]
    ovality = max(max(station) - min(station) for station in by_station)
    taper = means[-1] - means[0]
    middle = 0.0
    if len(means) > 2:
        inner = means[1:-1]
        middle = sum(inner) / len(inner) - (means[0] + means[-1]) / 2
    shape = "larger in the middle" if middle > 0 else "smaller in the middle" if middle < 0 else "no bow"
    sheet = Sheet("Shape from diameters")
    sheet.read(
        "diameters", "; ".join(" ".join(f"{value:.4f}" for value in station) for station in by_station)
    )
    sheet.equation("taper", f"last mean - first mean = {taper * 1000:+.1f} µm")
    sheet.equation("ovality", f"largest spread at one station = {ovality * 1000:.1f} µm on diameter")
    sheet.equation("middle against ends", f"{middle * 1000:+.1f} µm: {shape}")
    sheet.note("A diameter cannot see an odd number of lobes; turn it in a V-block as well.", LOBING)
    return Worked(Bore(taper, ovality, middle, shape), sheet.close())
