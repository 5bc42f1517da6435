"""One row of a list to be imported, and what is in hand while it is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """One row: its number in the file, and the text of each column by name."""

    number: int
    typed: Mapping[str, str]

    def text(self, name: str) -> str:
        """The text of a column, less outer spaces; empty when there is none."""
        return self.typed.get(name, "").strip()


@dataclass(frozen=True, slots=True)
class InHand:
    """Where rows go that do not say: parts into a subassembly, readings onto a part, or onto one of its features."""

    subassembly_id: int | None = None
    part_id: int | None = None
    feature_id: int | None = None


NOTHING = InHand()
