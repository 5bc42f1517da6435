"""A reading on its way in: where it lands and how it was taken, and as it was stored."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.words.readings import Stage


@dataclass(frozen=True, slots=True)
class Entry:
    """Where a reading lands and how it was taken; ``how`` is said of a thread (``over 0.0645 wires``)."""

    feature_id: int
    station_id: int | None = None
    stage: Stage = Stage.AS_FOUND
    instrument_id: int | None = None
    temperature: str = ""
    taken_at: dt.datetime | None = None
    taken_by: str = ""
    note: str = ""
    how: str = ""


@dataclass(frozen=True, slots=True)
class Taken:
    """A reading as it was stored, for the read-back; ``replaced`` spoke there before and is kept in the history."""

    reading_id: int
    value_mm: float
    typed: str
    unit: str
    repeats: int
    replaced: str = ""


@dataclass(frozen=True, slots=True)
class Pasted:
    """One cell of a pasted block."""

    typed: str
    entry: Entry
