"""Every mapped record by name, each module loaded when its first record is asked for.

Mapping all of them takes longer than opening a window, and the first page needs a third. ``whole``
loads the rest: before the first act (a flush sorts tables by their references), and by the window once
it has painted. A new record is named twice here: for the type checker and in ``_WHERE``.
"""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from typing import TYPE_CHECKING, Any

from sqlalchemy import MetaData

if TYPE_CHECKING:
    from rebuild.model.base import Base as Base
    from rebuild.model.chart import (
        ChartLine as ChartLine,
        ChartReading as ChartReading,
        ChartTest as ChartTest,
        LevelReading as LevelReading,
    )
    from rebuild.model.feature import Feature as Feature, Station as Station
    from rebuild.model.fit import (
        DecisionOption as DecisionOption,
        Fit as Fit,
        OddSize as OddSize,
        WearRule as WearRule,
    )
    from rebuild.model.journal import ActRow as ActRow, Change as Change
    from rebuild.model.machine import Machine as Machine, Place as Place, Subassembly as Subassembly
    from rebuild.model.making import (
        MakingDimension as MakingDimension,
        MakingSheet as MakingSheet,
        MakingStep as MakingStep,
        MakingTool as MakingTool,
    )
    from rebuild.model.notes import LogEntry as LogEntry, Question as Question
    from rebuild.model.oil import OilPoint as OilPoint
    from rebuild.model.part import Concession as Concession, MatchedSet as MatchedSet, Part as Part
    from rebuild.model.photo import Photo as Photo, PhotoMark as PhotoMark
    from rebuild.model.plan import DayOff as DayOff, WorkSpell as WorkSpell
    from rebuild.model.putting_back import (
        ConstraintPart as ConstraintPart,
        DraftedLink as DraftedLink,
        Joint as Joint,
        LinkProposal as LinkProposal,
        RefitStep as RefitStep,
    )
    from rebuild.model.reading import Instrument as Instrument, Reading as Reading
    from rebuild.model.running import (
        CutTest as CutTest,
        RunLook as RunLook,
        RunReading as RunReading,
        RunStep as RunStep,
    )
    from rebuild.model.shop import KeptEntry as KeptEntry, Setting as Setting
    from rebuild.model.survey import (
        Survey as Survey,
        SurveyLine as SurveyLine,
        SurveyReading as SurveyReading,
    )
    from rebuild.model.task import (
        Link as Link,
        Task as Task,
        TaskCaution as TaskCaution,
        TaskConstraint as TaskConstraint,
    )
    from rebuild.model.teardown import (
        Attempt as Attempt,
        Fastener as Fastener,
        Removal as Removal,
        RemovalPart as RemovalPart,
        ShimLeaf as ShimLeaf,
        ShimPack as ShimPack,
    )
    from rebuild.model.waiting import (
        Clock as Clock,
        HoursSpent as HoursSpent,
        StockItem as StockItem,
        Waiting as Waiting,
    )

    metadata: MetaData

_WHERE: dict[str, tuple[str, ...]] = {
    "base": ("Base",),
    "chart": ("ChartLine", "ChartReading", "ChartTest", "LevelReading"),
    "feature": ("Feature", "Station"),
    "fit": ("DecisionOption", "Fit", "OddSize", "WearRule"),
    "journal": ("ActRow", "Change"),
    "machine": ("Machine", "Place", "Subassembly"),
    "making": ("MakingDimension", "MakingSheet", "MakingStep", "MakingTool"),
    "notes": ("LogEntry", "Question"),
    "oil": ("OilPoint",),
    "part": ("Concession", "MatchedSet", "Part"),
    "photo": ("Photo", "PhotoMark"),
    "plan": ("DayOff", "WorkSpell"),
    "putting_back": ("ConstraintPart", "DraftedLink", "Joint", "LinkProposal", "RefitStep"),
    "reading": ("Instrument", "Reading"),
    "running": ("CutTest", "RunLook", "RunReading", "RunStep"),
    "shop": ("KeptEntry", "Setting"),
    "survey": ("Survey", "SurveyLine", "SurveyReading"),
    "task": ("Link", "Task", "TaskCaution", "TaskConstraint"),
    "teardown": ("Attempt", "Fastener", "Removal", "RemovalPart", "ShimLeaf", "ShimPack"),
    "waiting": ("Clock", "HoursSpent", "StockItem", "Waiting"),
}  # fmt: skip
_MODULE_OF = {name: module for module, names in _WHERE.items() for name in names}


def whole() -> MetaData:
    """The metadata with every record's table in it; loads what is not loaded yet."""
    for _ in piecemeal():
        pass
    from rebuild.model.base import Base

    return Base.metadata


def piecemeal() -> Iterator[None]:
    """Load what ``whole`` loads, a module at a step, so that others get their turn in between."""
    for module in _WHERE:
        import_module(f"rebuild.model.{module}")
        yield


def record(table: str) -> type[Base]:
    """The mapped record of one journaled table (``log_entry`` → ``LogEntry``). Raises KeyError."""
    name = "".join(word.capitalize() for word in table.split("_"))
    if name not in _MODULE_OF:
        raise KeyError(table)
    found: type[Base] = getattr(import_module(f"rebuild.model.{_MODULE_OF[name]}"), name)
    return found


def __getattr__(name: str) -> Any:
    if name == "metadata":
        found: Any = whole()
    elif name in _MODULE_OF:
        found = getattr(import_module(f"rebuild.model.{_MODULE_OF[name]}"), name)
    else:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    globals()[name] = found
    return found
