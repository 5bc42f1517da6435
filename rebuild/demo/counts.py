"""How much is in the demo; read by the tests and said in the report."""

from __future__ import annotations

from sqlalchemy import func, select

from rebuild.model.all import (
    Concession,
    Feature,
    Instrument,
    Link,
    LogEntry,
    Machine,
    Part,
    Place,
    Question,
    Reading,
    Station,
    Subassembly,
    Task,
    TaskCaution,
    TaskConstraint,
)
from rebuild.store.store import Store

COUNTED = (
    Machine, Subassembly, Part, Feature, Station, Instrument, Reading, Task, Link, TaskCaution, TaskConstraint,
    Concession, Question, LogEntry, Place,
)  # fmt: skip


def demo_counts(store: Store) -> dict[str, int]:
    """Rows by table name."""
    with store.read() as connection:
        return {
            record.__tablename__: int(connection.scalar(select(func.count()).select_from(record)) or 0)
            for record in COUNTED
        }
