"""Whether a band can be made the way a sheet's steps make it: its width against the grade the process usually holds."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from rebuild.errors import OutOfRange
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.limits.iso286 import it_grade_um
from rebuild.trade.results.door import door
from rebuild.trade.results.tables import table
from rebuild.trade.sizes.show import DECIMALS, show_length

#: Workshop grades, the coarsest first.
_GRADES = range(14, 0, -1)


@dataclass(frozen=True, slots=True)
class Process:
    """A way of cutting to size: the IT grade it usually holds, and the finest with care and a good machine."""

    name: str
    verbs: tuple[str, ...]
    usual: int
    finest: int


@dataclass(frozen=True, slots=True)
class TightBand:
    """A band finer than its process usually holds, told whole and in short."""

    words: str
    short: str


@cache
def processes() -> tuple[Process, ...]:
    """Every process, the finest first.

    >>> [(one.name, one.usual) for one in processes()][:3]
    [('lapping', 5), ('honing', 6), ('grinding', 6)]
    """
    return tuple(
        Process(row["process"], tuple(row["verbs"].split(";")), int(row["usual"]), int(row["finest"]))
        for row in table("process_grades").rows
    )


@door()
def process_in(text: str) -> Process | None:
    """The finest process a step's words name; None where they name none.

    >>> process_in("Bore and ream to {bore}").name, process_in("Try the screw") is None
    ('reaming', True)
    >>> process_in("A bronze nut is never lapped to its screw") is None
    True
    """
    return next((one for one in processes() if any(_says(text, verb) for verb in one.verbs)), None)


def _says(text: str, verb: str) -> bool:
    return re.search(rf"\b{verb}\b", text, re.I) is not None


@door()
def process_of(role: str, kind: str, steps: Iterable[str]) -> Process | None:
    """How a size is made: by the finest step that names it, else a diameter by turning or boring.

    ``steps`` are the sheet's steps with their braces. None for a size no step names, diameters apart.

    >>> process_of("bore", "diameter", ["Bore to {bore}", "Grind {bore}"]).name
    'grinding'
    >>> process_of("length", "length", ["Turn it"]) is None
    True
    """
    listed = list(steps)
    named = [process_in(text) for text in listed if f"{{{role}}}" in text]
    found = [one for one in named if one is not None]
    if found:
        return min(found, key=processes().index)
    if kind != "diameter":
        return None
    inside = "bore" in role or "hole" in role
    plain = next(one for one in processes() if one.name == ("boring" if inside else "turning"))
    # Grinding or lapping of what no step names by its size, as "Grind the journals".
    fine = [one for one in map(process_in, listed) if one is not None and one.name in ("grinding", "lapping")]
    return min((plain, *fine), key=processes().index)


@door()
def tight_band(measure: Measure, process: Process, unit: str) -> TightBand | None:
    """What is said of a band finer than its process usually holds; None where it is not, or has no two limits.

    >>> turning = next(one for one in processes() if one.name == "turning")
    >>> found = tight_band(Measure("journal", None, 24.990, 25.000), turning, "mm")
    >>> found.short
    'IT 5, turning: IT 8'
    >>> found.words
    'journal: 0.010 mm wide is IT 5 at this size, and turning holds IT 8 (0.033 mm) as a rule, IT 7 (0.021 mm) at best'
    >>> tight_band(Measure("journal", None, 24.95, 25.0), turning, "mm") is None
    True
    """
    if measure.low_mm is None or measure.high_mm is None:
        return None
    wide, at = round(measure.high_mm - measure.low_mm, 9), measure.at_mm
    try:
        usual, finest = (it_grade_um(at, str(grade)) / 1000 for grade in (process.usual, process.finest))
        if wide >= usual - 1e-9:
            return None
        grade = next((one for one in _GRADES if it_grade_um(at, str(one)) / 1000 <= wide + 1e-9), 0)
    except OutOfRange:
        return None
    said = f"IT {grade}" if grade else "finer than IT 1"
    best = (
        "" if process.finest == process.usual else f", IT {process.finest} ({_length(finest, unit)}) at best"
    )
    words = (
        f"{measure.name}: {_length(wide, unit)} wide is {said} at this size, and {process.name} holds "
        f"IT {process.usual} ({_length(usual, unit)}) as a rule{best}"
    )
    return TightBand(words, f"{said}, {process.name}: IT {process.usual}")


def _length(mm: float, unit: str) -> str:
    return show_length(mm, unit, DECIMALS[unit] + (1 if unit == "in" else 0))
