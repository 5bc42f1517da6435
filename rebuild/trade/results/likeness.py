"""How like a thing of a table is to what was measured: each reading's misfit against what the reading can tell.

Every "which one is it" is answered by this: the candidate says by how much each reading is off and whether it agrees,
and where none does, that stands first. A table that has no such thing must not name its nearest as if it had.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rebuild.errors import OutOfRange
from rebuild.trade.results.figured import Answer
from rebuild.trade.sizes.own_unit import own_unit, said
from rebuild.trade.sizes.show import show_length

AGREES, DOES_NOT, NONE = "agrees", "does not agree", "none agrees"
LEAST_MM, MOST_MM = 0.001, 2.0


@dataclass(frozen=True, slots=True)
class Misfit:
    """One reading less the size it should be [mm], and how far below and above it a sound part may read [mm]."""

    label: str
    off_mm: float
    under_mm: float
    over_mm: float

    @property
    def agrees(self) -> bool:
        """Whether the reading may be of that size."""
        return self.in_tolerances <= 1.0 + 1e-9

    @property
    def in_tolerances(self) -> float:
        """The misfit in what is allowed on its side."""
        return abs(self.off_mm) / (self.under_mm if self.off_mm < 0 else self.over_mm)

    def text(self) -> str:
        """``width +0.87 mm``, in the unit of the one who asks.

        >>> Misfit("width", 0.874, 0.1, 0.1).text()
        'width +0.874 mm'
        """
        unit = own_unit()
        return f"{self.label} {show_length(self.off_mm, unit, 4 if unit == 'in' else 3, sign=True)}"


@dataclass(frozen=True, slots=True)
class Likeness:
    """A candidate as it is told: its name, its sizes in words, how its readings are off, and its source."""

    name: str
    sizes: str
    misfits: tuple[Misfit, ...]
    cite: str = ""

    @property
    def agrees(self) -> bool:
        """Whether every reading may be of it."""
        return all(one.agrees for one in self.misfits)

    def off(self) -> str:
        """Every reading's misfit, the verdict first.

        >>> Likeness("No. 606", "", (Misfit("width", -0.01, 0.1, 0.1),)).off()
        'agrees; off: width -0.010 mm'
        """
        return f"{AGREES if self.agrees else DOES_NOT}; off: {', '.join(one.text() for one in self.misfits)}"


def worst(misfits: Iterable[Misfit]) -> float:
    """The largest misfit, in what is allowed: the order of candidates.

    >>> worst((Misfit("width", 0.1, 0.2, 0.2), Misfit("height", -0.3, 0.2, 0.2)))
    1.4999999999999998
    """
    return max(one.in_tolerances for one in misfits)


def answers_of(found: Sequence[Likeness], none: str) -> tuple[Answer, ...]:
    """The candidates as answers; where none agrees that is the first answer, with ``none`` for a reason.

    >>> [answer.label for answer in answers_of((Likeness("A", "", (Misfit("w", 1.0, 0.1, 0.1),)),), "No table.")]
    ['none agrees', 'A']
    """
    first = () if any(one.agrees for one in found) else (Answer(NONE, "not in the table", note=none),)
    return (
        *first,
        *(Answer(one.name, one.sizes, note="; ".join(filter(None, (one.off(), one.cite)))) for one in found),
    )


def check_tolerance(tolerance_mm: float) -> None:
    """Refuse a reading tolerance that says nothing.

    Raises:
        OutOfRange: not from 0.001 to 2 mm.

    >>> check_tolerance(0.1)
    >>> check_tolerance(5.0)
    Traceback (most recent call last):
    rebuild.errors.OutOfRange: Readings good to: “5 mm” lies outside 0.001 to 2 mm.
    """
    if not LEAST_MM <= tolerance_mm <= MOST_MM:
        raise OutOfRange("lies outside 0.001 to 2 mm.", where="Readings good to", value=said(tolerance_mm))
