"""Where the cells of a pasted block land: from the cell in hand down and to the right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from rebuild.window.readings.columns import HEADINGS, Column, stage_of
from rebuild.words.readings import Stage
from rebuild.work.readings.entry import Entry, Pasted
from rebuild.work.readings.pasted import in_unit_named
from rebuild.work.readings.rows_grid import Key

#: How a reading at a stage is taken: instrument, temperature; given by the entry line.
HowTaken = Callable[[Key, Stage], Entry]


@dataclass(frozen=True, slots=True)
class Landed:
    """Cells that land on a row and stage, and those that do not, with the reason."""

    cells: tuple[Pasted, ...]
    left_over: tuple[tuple[str, str], ...]


def stages_named(heading: Sequence[str]) -> tuple[Stage | None, ...]:
    """The stage each heading of a block names, or None where it names none, or two.

    >>> stages_named(["cleaned, in", "near end"])
    (<Stage.CLEANED: 'cleaned'>, None)
    """
    found = [[stage for stage in Stage if stage.value in text.casefold()] for text in heading]
    return tuple(stages[0] if len(stages) == 1 else None for stages in found)


def in_units_named(line: Sequence[str], units: Sequence[str]) -> list[str]:
    """A line of a block, each number without a unit in the unit its column's heading says.

    >>> in_units_named(["59.98", "0.2 in", "3"], ["mm", "mm", ""])
    ['59.98 mm', '0.2 in', '3']
    """
    return [in_unit_named(text, units[at] if at < len(units) else "") for at, text in enumerate(line)]


def land(
    block: Sequence[Sequence[str]],
    keys: Sequence[Key],
    columns: Sequence[int],
    how: HowTaken,
    named: Sequence[Stage | None] = (),
) -> Landed:
    """Put a block on rows ``keys`` and visible ``columns``, both from the cell in hand onward.

    ``named`` is the stage the heading of each column of the block names: it goes there, whatever cell is in hand.
    """
    cells: list[Pasted] = []
    over: list[tuple[str, str]] = []
    for down, line in enumerate(block):
        for along, text in enumerate(line):
            if not text.strip():
                continue
            stage = stage_of(columns[along]) if along < len(columns) else None
            stage = (named[along] if along < len(named) else None) or stage
            if down >= len(keys):
                over.append((text, "lies below the last row"))
            elif along >= len(columns) and stage is None:
                over.append((text, "lies beyond the last column"))
            elif stage is None:
                over.append(
                    (text, f"lies in “{HEADINGS[Column(columns[along])].title}”, which takes no readings")
                )
            else:
                cells.append(Pasted(text, how(keys[down], stage)))
    return Landed(tuple(cells), tuple(over))


def entry_for(key: Key, stage: Stage) -> Entry:
    """A reading taken with no instrument named."""
    return Entry(key[0], key[1] or None, stage)


def retyped(cell: Pasted, text: str) -> Pasted:
    """The cell with mended text."""
    return replace(cell, typed=text)
