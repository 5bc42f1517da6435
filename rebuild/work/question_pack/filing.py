"""Where the answer to a question is filed."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Filing:
    """Where an answer goes: a record with a note (part, task, subassembly, machine), or the spec of a feature."""

    record: str
    id: int
