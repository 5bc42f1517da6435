"""Words of cleaning and painting: what is done to a part's surface, in this order."""

from __future__ import annotations

from enum import StrEnum


class Treatment(StrEnum):
    """One thing done to the surface of a part off the machine."""

    DEGREASE = "degrease"
    STRIP = "strip"
    DERUST = "de-rust"
    PRIME = "prime"
    PAINT = "paint"


#: Of these the part lies in a bath.
SOAKED = (Treatment.DEGREASE, Treatment.STRIP, Treatment.DERUST)
#: Of these a coat is put on.
COATED = (Treatment.PRIME, Treatment.PAINT)
