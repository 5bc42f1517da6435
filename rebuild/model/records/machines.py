"""The records of ``tables/machines``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.machines import Machines, Subassemblies


class Machine(Record, Machines):
    """One row of ``Machines``."""


class Subassembly(Record, Subassemblies):
    """One row of ``Subassemblies``."""
