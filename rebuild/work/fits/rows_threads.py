"""What must be said of a fit of threads: how each side was measured, and a value that is no pitch diameter."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.errors import RebuildError
from rebuild.trade.sizes.show import show_length
from rebuild.work.fits.rows_sides import SideRow

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


def thread_remarks(sides: Sequence[SideRow], unit: str) -> list[str]:
    """One sentence for each side whose readings do not say how they were taken, or cannot be a pitch diameter."""
    named = next((side.thread for side in sides if side.thread.strip()), "")
    return [line for side in sides for line in _of_side(side, side.thread or named, unit)]


def _of_side(side: SideRow, thread: str, unit: str) -> list[str]:
    # The tables of threads are long: a start that shows no thread reads none of them.
    from rebuild.trade.threads.nesting import pitch_room

    words = []
    if any(not reading.how for reading in side.readings):
        words.append(
            f"{side.title}: how it was taken is not said, so its reading is taken as the pitch diameter."
        )
    try:
        room = pitch_room(thread)
    except RebuildError:
        return words
    for reading in side.readings:
        if not room.low_mm <= reading.value_mm <= room.high_mm:
            words.append(
                f"{side.title} reads {reading.shown}, which is no pitch diameter of {room.thread} "
                f"({show_length(room.low_mm, unit)} to {show_length(room.high_mm, unit)}): measured over wires or "
                "over the crests? Say how it was taken."
            )
            break
    return words
