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
    """What a column shows on top, what a click there sorts by, and how wide it is.

    ``wide`` is comfortable and ``least`` still of use, in characters; ``grows`` is its share of spare room.
    """

    title: str
    help: str
    sort: SortBy | None
    wide: float
    least: float
    grows: int = 0
    right: bool = False


_FIRST_STAGE = int(Column.AS_FOUND)

HEADINGS: dict[Column, Heading] = {
    Column.PART: Heading("part", "Code and name of the part", SortBy.CODE, 22, 7.5, 3),
    Column.FEATURE: Heading("feature", "What is measured", SortBy.FEATURE, 30, 11.5, 6),
    Column.KIND: Heading("kind", "The kind of feature", SortBy.KIND, 16, 8, 1),
    Column.STATION: Heading("station", "Where along the feature", None, 9, 8.4, 1),
    Column.UNIT: Heading("unit", "The unit of this row's numbers", None, 4.6, 4.4),
    Column.SPEC: Heading("spec", "Nominal and limits; F2 edits", None, 18, 12, 1),
    **{
        Column(_FIRST_STAGE + place): Heading(
            stage.value,
            f"Newest reading {stage.value}; type to record another",
            SortBy.NEWEST,
            10,
            8.1,
            1,
            True,
        )
        for place, stage in enumerate(STAGES)
    },
    Column.OFF: Heading(
        "off spec",
        "How far it is beyond its limits, with its sign; inside them, plain, how much is left",
        SortBy.WORST, 10, 8, 1, True,
    ),
    Column.VERDICT: Heading(
        "verdict", "Set against its limits with its uncertainty", SortBy.WORST, 22, 14, 0
    ),
    Column.ZONE: Heading("zone", "Zone, nominal, reading and its uncertainty", SortBy.WORST, 20, 5.5, 2),
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
