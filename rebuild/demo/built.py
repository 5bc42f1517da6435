"""What the builder made so far, by the names the tables use; later builder modules go on from here."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field

from rebuild.demo.records import MachineData
from rebuild.store.store import Store


@dataclass(slots=True)
class Ids:
    """One machine's ids: part code, ``code/feature``, ``code/feature@station``, step key, (step key, number)."""

    machine: int
    data: MachineData
    groups: dict[str, int] = field(default_factory=dict)
    parts: dict[str, int] = field(default_factory=dict)
    features: dict[str, int] = field(default_factory=dict)
    stations: dict[str, int] = field(default_factory=dict)
    steps: dict[str, int] = field(default_factory=dict)
    needs: dict[tuple[str, int], int] = field(default_factory=dict)
    questions: list[int] = field(default_factory=list)


@dataclass(slots=True)
class Built:
    """The whole demo while it is being built."""

    store: Store
    places: dict[str, int] = field(default_factory=dict)
    instruments: dict[str, int] = field(default_factory=dict)
    machines: list[Ids] = field(default_factory=list)


def at(day: str, hour: int, minute: int = 0) -> dt.datetime:
    """A moment of a day; ``minute`` may run past the hour."""
    return dt.datetime.fromisoformat(day) + dt.timedelta(hours=hour, minutes=minute)
