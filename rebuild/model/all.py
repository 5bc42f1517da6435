"""Every mapped record in one place, so that the metadata is whole before it is used."""

from __future__ import annotations

from sqlalchemy import MetaData

from rebuild.model.base import Base
from rebuild.model.feature import Feature, Station
from rebuild.model.fit import DecisionOption, Fit, OddSize, WearRule
from rebuild.model.journal import ActRow, Change, add_shadows
from rebuild.model.machine import Machine, Place, Subassembly
from rebuild.model.notes import LogEntry, Question
from rebuild.model.part import Concession, MatchedSet, Part
from rebuild.model.plan import DayOff, WorkSpell
from rebuild.model.reading import Instrument, Reading
from rebuild.model.shop import KeptEntry, Setting
from rebuild.model.task import Link, Task, TaskCaution, TaskConstraint

add_shadows(Base.metadata)

metadata: MetaData = Base.metadata

__all__ = [
    "ActRow", "Base", "Change", "Concession", "DayOff", "DecisionOption", "Feature", "Fit", "Instrument", "KeptEntry", "Link",
    "LogEntry", "Machine", "MatchedSet", "OddSize", "Part", "Place", "Question", "Reading", "Setting", "Station",
    "Subassembly", "Task", "TaskCaution", "TaskConstraint", "WearRule", "WorkSpell", "metadata",
]  # fmt: skip
