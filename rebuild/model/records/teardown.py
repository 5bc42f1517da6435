"""The records of ``tables/teardown``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.teardown import Attempts, Fasteners, RemovalParts, Removals, ShimLeaves, ShimPacks


class Attempt(Record, Attempts):
    """One row of ``Attempts``."""


class Removal(Record, Removals):
    """One row of ``Removals``."""


class RemovalPart(Record, RemovalParts):
    """One row of ``RemovalParts``."""


class Fastener(Record, Fasteners):
    """One row of ``Fasteners``."""


class ShimPack(Record, ShimPacks):
    """One row of ``ShimPacks``."""


class ShimLeaf(Record, ShimLeaves):
    """One row of ``ShimLeaves``."""
