"""What a photo is sorted to."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class About:
    """What a photo is of; all empty puts it into the inbox."""

    subassembly_id: int | None = None
    part_id: int | None = None
    task_id: int | None = None


NOTHING = About()
