"""Module, diametral pitch and circular pitch: the standard series, and reading one as typed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import pi

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.results.working import Source
from rebuild.trade.sizes.exact import exact
from rebuild.trade.sizes.typed_text import plain_of

WAYS = "Type it as module 2, M1.75, DP 10 or CP 1/4."


@dataclass(frozen=True, slots=True)
class Pitch:
    """A gear's pitch: ``kind`` is module, dp or cp; ``module_mm`` is the same in mm."""

    kind: str
    value: float
    module_mm: float
    commonness: int
    source: Source | None = None

    @property
    def name(self) -> str:
        """As the trade says it.

        >>> Pitch("dp", 10.0, 2.54, 1).name
        'DP 10'
        """
        if self.kind == "module":
            return f"module {self.value:g}"
        return f"DP {self.value:g}" if self.kind == "dp" else f"CP {self.value:g} in"

    @property
    def diametral_pitch(self) -> float:
        """Teeth per inch of pitch diameter."""
        return 25.4 / self.module_mm

    @property
    def circular_pitch_mm(self) -> float:
        """Distance between teeth along the pitch circle [mm]."""
        return pi * self.module_mm


@cache
def standard_pitches() -> tuple[Pitch, ...]:
    """Every pitch of the standard series, with how common it is (1 first choice, 3 seldom).

    >>> [pitch.name for pitch in standard_pitches() if pitch.name in ("module 2", "DP 10")]
    ['module 2', 'DP 10']
    """
    found = table("gear_pitches")
    return tuple(_pitch(row, found.row_source(row)) for row in found.rows)


def _pitch(row: Mapping[str, str], source: Source) -> Pitch:
    value = float(exact(row["value"], "Pitch", lost_space=False))
    kind = row["kind"]
    return Pitch(kind, value, _module(kind, value), int(row["commonness"]), source)


@door()
def read_pitch(text: str) -> Pitch:
    """A pitch as typed; any positive value is taken, standard or not.

    Raises:
        BadEntry: not a pitch.
        OutOfRange: below module 0.1 or above module 50.

    >>> read_pitch("DP 10").module_mm
    2.54
    """
    match = re.fullmatch(
        r"(?:(?P<before>m|mod|module|dp|cp) ?)?(?P<number>\d[\d.,/ -]*|[.,]\d+) ?"
        r"(?P<after>mod|module|dp|cp|m)?(?: ?in)?",
        plain_of(text, "Pitch", WAYS, sort="a pitch").lower(),
    )
    kind_word = (match["before"] or match["after"]) if match else None
    if match is None or kind_word is None:
        raise _no_pitch(text)
    kind = "module" if kind_word.startswith("m") else kind_word
    number = exact(
        match["number"], "Pitch", typed=text, lost_space=False, ways=WAYS, refusal="is not a pitch."
    )
    value = float(number)
    if value <= 0:
        raise BadEntry("is not a positive pitch.", where="Pitch", value=text.strip(), way_out=WAYS)
    module = _module(kind, value)
    if not 0.1 <= module <= 50.0:
        raise OutOfRange(
            "lies outside module 0.1 to 50, the span of the standard series.",
            where="Pitch",
            value=text.strip(),
        )
    for known in standard_pitches():
        if known.kind == kind and abs(known.value - value) < 1e-9:
            return known
    return Pitch(kind, value, module, 9)


def _module(kind: str, value: float) -> float:
    if kind == "module":
        return value
    return 25.4 / value if kind == "dp" else value * 25.4 / pi


def _no_pitch(text: str) -> BadEntry:
    return BadEntry("is not a gear pitch.", where="Pitch", value=text.strip(), way_out=WAYS)
