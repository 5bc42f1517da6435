"""The records of ``tables/steps``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.steps import (
    ConstraintParts,
    Links,
    StepAttempts,
    TaskCautions,
    TaskConstraints,
    Tasks,
)


class Task(Record, Tasks):
    """One row of ``Tasks``."""


class TaskConstraint(Record, TaskConstraints):
    """One row of ``TaskConstraints``."""


class ConstraintPart(Record, ConstraintParts):
    """One row of ``ConstraintParts``."""


class Link(Record, Links):
    """One row of ``Links``."""


class TaskCaution(Record, TaskCautions):
    """One row of ``TaskCautions``."""


class StepAttempt(Record, StepAttempts):
    """One row of ``StepAttempts``."""
