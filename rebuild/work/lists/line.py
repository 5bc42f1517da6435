"""One row of a list to be imported."""

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
