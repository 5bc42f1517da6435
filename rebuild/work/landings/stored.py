"""How a value is taken, and the value as it lies on its row: what every surface hands over and gets back."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.work.readings.landing import Landing


@dataclass(frozen=True, slots=True)
class How:
    """How a value was taken. Chart and run-in have fields of their own; a surface fills what it has.

    ``unit`` is what a bare number is in, where the instrument's scale says so; empty: the feature's own. ``over``
    is the length a chart's value was read over, or how far along the bed the level stood. ``thread`` says how a
    thread is measured (``over 0.0645 wires``).
    """

    instrument_id: int | None = None
    temperature: str = ""
    taken_by: str = ""
    note: str = ""
    taken_at: dt.datetime | None = None
    over: str = ""
    division: str = ""
    adjusted: str = ""
    minute: float | None = None
    unit: str = ""
    thread: str = ""


@dataclass(frozen=True, slots=True)
class Stored:
    """A value on its row. ``record`` and ``id`` are where it is kept; ``replaced`` spoke there before.

    ``behind`` are the others of a pasted column, in order: moved and taken back with the first of them.
    """

    landing: Landing
    typed: str
    record: str
    id: int
    replaced: str = ""
    how: How = How()
    behind: tuple[Stored, ...] = ()

    @property
    def all(self) -> tuple[Stored, ...]:
        """Itself and those behind it."""
        return (self, *self.behind)

    @property
    def said(self) -> str:
        """The value; of a column the first, and how many came with it."""
        return f"{self.typed} and {len(self.behind)} more" if self.behind else self.typed


@dataclass(frozen=True, slots=True)
class UnplacedRow:
    """A value that came while no row was in hand, and when and on which page."""

    id: int
    typed: str
    sent_at: dt.datetime
    seen_on: str
    instrument_id: int | None
    temperature: str
    taken_by: str

    @property
    def how(self) -> How:
        """How it was taken, for the row it is put on."""
        return How(self.instrument_id, self.temperature, self.taken_by, taken_at=self.sent_at)


def replaces(stored: Stored) -> str:
    """Says that a value was overwritten; empty when none was.

    On a measured part the old one stays in the history; elsewhere undo brings it back.
    """
    if not stored.replaced:
        return ""
    kept = "stays in the history" if stored.record == "reading" else "comes back with Ctrl+Z"
    return f" It replaces {stored.replaced}, which {kept}."
