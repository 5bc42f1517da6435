"""The columns of the measurement grid: heading, what they sort by, and how they stand."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from PySide6.QtCore import Qt

from rebuild.words.readings import STAGES, Stage
from rebuild.work.readings.rows_grid import SortBy


class Column(IntEnum):
    """One column; the value is its logical index."""

    PART = 0
    FEATURE = 1
    KIND = 2
    STATION = 3
    UNIT = 4
    SPEC = 5
    AS_FOUND = 6
    CLEANED = 7
    REWORKED = 8
    AS_MADE = 9
    FITTED = 10
    OFF = 11
    VERDICT = 12
    ZONE = 13


@dataclass(frozen=True, slots=True)
class Heading:
    """What a column shows on top and what a click there sorts by; its width comes from what it holds."""

    title: str
    help: str
    sort: SortBy | None
    right: bool = False


_FIRST_STAGE = int(Column.AS_FOUND)

HEADINGS: dict[Column, Heading] = {
    Column.PART: Heading("part", "Code and name of the part", SortBy.CODE),
    Column.FEATURE: Heading("feature", "What is measured", SortBy.FEATURE),
    Column.KIND: Heading("kind", "The kind of feature", SortBy.KIND),
    Column.STATION: Heading("station", "Where along the feature", None),
    Column.UNIT: Heading("unit", "The unit of this row's numbers", None),
    Column.SPEC: Heading("spec", "Nominal and limits; F2 edits", None),
    **{
        Column(_FIRST_STAGE + place): Heading(
            stage.value,
            f"Current reading {stage.value}; type to record another",
            SortBy.NEWEST,
            True,
        )
        for place, stage in enumerate(STAGES)
    },
    Column.OFF: Heading(
        "margin",
        "How much is left inside its limits; with a sign, how far it is off, and how many times its tolerance that "
        "is. A click sorts by the share of the tolerance, most off first; another turns it round",
        SortBy.MARGIN, True,
    ),
    Column.VERDICT: Heading(
        "verdict",
        "Set against its limits with its uncertainty. A click sorts by verdict, then by the share of the tolerance",
        SortBy.WORST,
    ),
    Column.ZONE: Heading(
        "low · zone · high",
        "Zone, nominal, reading and its uncertainty; small sizes lie left. A click sorts by the share of the tolerance",
        SortBy.MARGIN,
    ),
}  # fmt: skip

#: Hidden until asked for.
HIDDEN_AT_FIRST = frozenset({Column.KIND})
STAGE_COLUMNS: tuple[Column, ...] = tuple(Column(_FIRST_STAGE + place) for place in range(len(STAGES)))

RIGHT = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
LEFT = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
ALIGNMENTS: tuple[int, ...] = tuple(RIGHT if HEADINGS[column].right else LEFT for column in Column)


def stage_of(column: int) -> Stage | None:
    """The stage a column shows readings of, or None."""
    place = column - _FIRST_STAGE
    return STAGES[place] if 0 <= place < len(STAGES) else None
