"""Roundness by two points and by a V-block, each with what it cannot see.

A two-point measure reads the diameter: an odd number of lobes hides from it entirely (ISO 4292:1985, two- and
three-point methods, from memory). In a V-block of included angle α, with the indicator on its bisector, a profile
of n lobes of amplitude c reads 2c·|(-1)ⁿ + cos(n(90° - α/2))/sin(α/2)|, which is nought for some n.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rebuild.errors import OutOfRange
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
