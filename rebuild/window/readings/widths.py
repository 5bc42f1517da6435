"""How wide the grid's columns are: shared out of the room there is, until someone drags one."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.window.readings.columns import HEADINGS, Column

_PAD = 7


def share(columns: Sequence[Column], room: int, character: float) -> dict[Column, int]:
    """Widths [px] of the columns shown, for a room [px] and the width of a character [px].

    Between its least and its comfortable width each column gives way alike; room beyond that goes to the
    columns that can use it.
    """
    least = {column: round(HEADINGS[column].least * character) + _PAD for column in columns}
    wide = {column: round(HEADINGS[column].wide * character) + _PAD for column in columns}
    small, large = sum(least.values()), sum(wide.values())
    if room <= small or large == small:
        return least
    if room < large:
        part = (room - small) / (large - small)
        return {column: least[column] + int((wide[column] - least[column]) * part) for column in columns}
    weights = sum(HEADINGS[column].grows for column in columns) or 1
    return {
        column: wide[column] + int((room - large) * HEADINGS[column].grows / weights) for column in columns
    }
