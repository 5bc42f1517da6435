"""The records of ``tables/joints``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.joints import Joints


class Joint(Record, Joints):
    """One row of ``Joints``."""
