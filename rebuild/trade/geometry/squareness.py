"""Squareness by reversal of a square."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked

REVERSAL = Source(
    "reversal: the square turned over changes sign, the machine does not", status=Status.COMPUTED
)


@dataclass(frozen=True, slots=True)
class Squareness:
    """Out of square of the machine and of the square itself over ``length_mm`` [mm]; plus opens the angle."""

    machine_mm: float
    square_mm: float
    length_mm: float

    @property
    def machine_arcsec(self) -> float:
        """The machine's error as an angle."""
        return math.degrees(self.machine_mm / self.length_mm) * 3600


@door()
def by_reversal(first_mm: float, turned_mm: float, length_mm: float) -> Worked[Squareness]:
    """Split two readings of one square, as it stands and turned over, into machine and square.

    Args:
        first_mm, turned_mm: indicator change along the blade [mm], plus when the angle opens.
        length_mm: travel along the blade [mm].

    Raises:
        BadEntry: a travel that is not positive.

    >>> found = by_reversal(0.012, 0.004, 200).value
    >>> round(found.machine_mm, 6), round(found.square_mm, 6)
    (0.008, 0.004)
    """
    if not length_mm > 0:
        raise BadEntry("is not a length.", where="Travel", value=f"{length_mm:g}", way_out="Type the travel.")
    machine, square = (first_mm + turned_mm) / 2, (first_mm - turned_mm) / 2
    sheet = Sheet("Squareness by reversal")
    sheet.read("as it stands", f"{first_mm * 1000:+.1f} µm over {length_mm:g} mm")
    sheet.read("turned over", f"{turned_mm * 1000:+.1f} µm")
    sheet.equation("machine", f"(first + turned)/2 = {machine * 1000:+.1f} µm", REVERSAL)
    sheet.equation("the square itself", f"(first - turned)/2 = {square * 1000:+.1f} µm", REVERSAL)
    found = Squareness(machine, square, length_mm)
    sheet.result(
        "machine", f"{machine * 1000:+.1f} µm in {length_mm:g} mm ({found.machine_arcsec:+.1f} arcsec)"
    )
    return Worked(found, sheet.close())
