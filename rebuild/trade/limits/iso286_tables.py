"""The three tables ISO 286 rests on, loaded once: standard tolerances, shaft deviations, holes J."""

from __future__ import annotations

from bisect import bisect_left
from functools import cache

from rebuild.errors import OutOfRange
from rebuild.trade.limits.sizes import SAME_MM
from rebuild.trade.results.tables import Table, table
from rebuild.trade.results.working import Source
from rebuild.trade.sizes.own_unit import said

#: Upper ends of the steps of nominal size [mm]; the first one only carries the "not to 1 mm" rules.
STEPS = (1, 3, 6, 10, 14, 18, 24, 30, 40, 50, 65, 80, 100, 120, 140, 160, 180, 200, 225, 250, 280, 315,
         355, 400, 450, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150)  # fmt: skip
LARGEST_WITH_LETTERS_MM = 500
GRADES = ("01", "0", *(str(number) for number in range(1, 19)))


def step_of(nominal_mm: float) -> int:
    """Index of the step of nominal size (over, up to and including).

    Raises:
        OutOfRange: not above 0 and up to 3150 mm.

    >>> STEPS[step_of(30.0)], STEPS[step_of(30.001)]
    (30, 40)
    """
    if not 0.0 < nominal_mm <= STEPS[-1] + SAME_MM:
        raise OutOfRange(
            f"is not above 0 and up to {STEPS[-1]} mm, the range of ISO 286-1:2010.",
            where="Nominal size",
            value=said(nominal_mm),
            way_out="Check the unit; work larger sizes from a drawing.",
        )
    return bisect_left(STEPS, nominal_mm - SAME_MM)


def step_text(step: int) -> str:
    """The step in words.

    >>> step_text(step_of(25))
    'over 24 to 30 mm'
    """
    return f"over {STEPS[step - 1] if step else 0} to {STEPS[step]} mm"


def grade_source() -> Source:
    """Where the standard tolerances come from.

    >>> grade_source().name.startswith("ISO 286")
    True
    """
    return table("iso286_grades").source


def shaft_source() -> Source:
    """Where the shaft deviations come from.

    >>> shaft_source().name.startswith("ISO 286")
    True
    """
    return table("iso286_shafts").source


def hole_j_source() -> Source:
    """Where the holes J come from.

    >>> hole_j_source().name.startswith("ISO 286")
    True
    """
    return table("iso286_holes_j").source


@cache
def grades() -> tuple[dict[str, float], ...]:
    """Standard tolerances [µm] by grade, for each step.

    >>> grades()[step_of(25)]["7"]
    21.0
    """
    return _by_step(table("iso286_grades"), "IT")


@cache
def shafts() -> tuple[dict[str, float], ...]:
    """Shaft fundamental deviations [µm] by letters (``j6`` and ``j7`` with their grade), for each step.

    >>> shafts()[step_of(25)]["f"]
    -20.0
    """
    return _by_step(table("iso286_shafts"), "")


@cache
def holes_j() -> tuple[dict[str, float], ...]:
    """Upper deviations of J6, J7, J8 [µm], for each step.

    >>> holes_j()[step_of(25)]["J7"]
    12.0
    """
    return _by_step(table("iso286_holes_j"), "")


def _by_step(source: Table, prefix: str) -> tuple[dict[str, float], ...]:
    """A table's row for every step it covers; a cell left empty is absent."""
    found = []
    for top in STEPS:
        for row in source.rows:
            if float(row["over_mm"]) < top <= float(row["to_mm"]):
                found.append(
                    {
                        name.removeprefix(prefix): float(text)
                        for name, text in row.items()
                        if text and name.startswith(prefix) and name not in ("over_mm", "to_mm")
                    }
                )
                break
    return tuple(found)
