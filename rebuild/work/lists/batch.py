"""The rows of one list, as they are to be brought in."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.work.lists.fields import What
from rebuild.work.lists.line import Line


@dataclass(frozen=True, slots=True)
class Batch:
    """The rows of one list."""

    what: What
    lines: tuple[Line, ...]
