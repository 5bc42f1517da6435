"""Every mapped record in one place, so that the metadata is whole before it is used."""

from __future__ import annotations

from sqlalchemy import MetaData

from rebuild.model.base import Base
from rebuild.model.chart import ChartLine, ChartReading, ChartTest, LevelReading
from rebuild.model.feature import Feature, Station
from rebuild.model.fit import DecisionOption, Fit, OddSize, WearRule
from rebuild.model.journal import ActRow, Change, add_shadows
from rebuild.model.machine import Machine, Place, Subassembly
from rebuild.model.making import MakingDimension, MakingSheet, MakingStep, MakingTool
from rebuild.model.notes import LogEntry, Question
from rebuild.model.oil import OilPoint
from rebuild.model.part import Concession, MatchedSet, Part
from rebuild.model.photo import Photo, PhotoMark
from rebuild.model.plan import DayOff, WorkSpell
from rebuild.model.putting_back import ConstraintPart, DraftedLink, Joint, LinkProposal, RefitStep
from rebuild.model.reading import Instrument, Reading
from rebuild.model.running import CutTest, RunLook, RunReading, RunStep
from rebuild.model.shop import KeptEntry, Setting
from rebuild.model.survey import Survey, SurveyLine, SurveyReading
from rebuild.model.task import Link, Task, TaskCaution, TaskConstraint
from rebuild.model.teardown import Attempt, Fastener, Removal, RemovalPart, ShimLeaf, ShimPack
from rebuild.model.waiting import Clock, HoursSpent, StockItem, Waiting

add_shadows(Base.metadata)

metadata: MetaData = Base.metadata

__all__ = [
    "ActRow",
    "Attempt",
    "Base",
    "Change",
    "ChartLine",
    "ChartReading",
    "ChartTest",
    "Clock",
    "Concession",
    "ConstraintPart",
    "CutTest",
    "DayOff",
    "DecisionOption",
    "DraftedLink",
    "Fastener",
    "Feature",
    "Fit",
    "HoursSpent",
    "Instrument",
    "Joint",
    "KeptEntry",
    "LevelReading",
    "Link",
    "LinkProposal",
    "LogEntry",
    "Machine",
    "MakingDimension",
    "MakingSheet",
    "MakingStep",
    "MakingTool",
    "MatchedSet",
    "OddSize",
    "OilPoint",
    "Part",
    "Place",
    "Question",
    "Reading",
    "RefitStep",
    "Removal",
    "RemovalPart",
    "RunLook",
    "RunReading",
    "RunStep",
    "Setting",
    "ShimLeaf",
    "ShimPack",
    "Station",
    "StockItem",
    "Subassembly",
    "Survey",
    "SurveyLine",
    "SurveyReading",
    "Task",
    "TaskCaution",
    "TaskConstraint",
    "Waiting",
    "WearRule",
    "WorkSpell",
    "Photo", "PhotoMark", "metadata",
]  # fmt: skip
