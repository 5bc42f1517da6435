"""What is chosen on the machine shown: a subassembly, parts, a row of the grid, steps."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.work.readings.rows_grid import Key


@dataclass(frozen=True, slots=True)
class Selection:
    """What is chosen now; ``key`` is the grid row the next reading lands on."""

    subassembly_id: int | None = None
    part_ids: tuple[int, ...] = ()
    key: Key | None = None
    task_ids: tuple[int, ...] = ()
