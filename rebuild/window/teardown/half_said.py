"""Lines of the removal log begun and not stored: each stays with the log it was begun in until that is shown again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

#: The machine, and the subassembly whose log it is; None: the machine as a whole.
LogKey = tuple[int | None, int | None]


@dataclass(frozen=True, slots=True)
class HalfSaid:
    """What stood in the line, the log it is for in words, and the part meant by a line that names none."""

    text: str
    log_of: str
    part_id: int | None


class LinesBegun:
    """One line for each log that was left with something in it."""

    def __init__(self) -> None:
        self._lines: dict[LogKey, HalfSaid] = {}

    def __iter__(self) -> Iterator[HalfSaid]:
        return iter(self._lines.values())

    def lay_by(self, log: LogKey, line: HalfSaid) -> None:
        """Keep a line with its log; an empty one keeps nothing."""
        if line.text.strip():
            self._lines[log] = line

    def take_up(self, log: LogKey) -> HalfSaid | None:
        """The line begun in a log, which stands in it again now."""
        return self._lines.pop(log, None)

    def forget(self) -> None:
        """They are kept elsewhere, or the file is closed."""
        self._lines.clear()
