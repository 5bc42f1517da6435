"""Tables by name, for the questions a start asks: the records' own names, and nothing is mapped.

Mapping records takes longer than asking all that the first page shows. A lookup that runs at a start
takes its records from here and writes its questions as ever; a type checker sees the mapped records. Only
columns that are not kept as plain numbers or text are told apart; a test holds them against the records.
"""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from sqlalchemy import Boolean, ColumnClause, TableClause, column, table
from sqlalchemy.types import TypeEngine

from rebuild.model.stored import Moment, word
from rebuild.words.decisions import Decision
from rebuild.words.joints import Dressing, Tightness
from rebuild.words.log import QuestionState
from rebuild.words.lubrication import FlowProof, OilPointKind
from rebuild.words.machines import MachineKind, Scope
from rebuild.words.parts import Identity, Origin
from rebuild.words.places import PlaceKind
from rebuild.words.readings import FeatureKind, InstrumentKind, SpecOrigin, Stage
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.words.waiting import ClockKind, WaitingKind

if TYPE_CHECKING:
    from rebuild.model.all import (
        Attempt as Attempt,
        ChartTest as ChartTest,
        Clock as Clock,
        Concession as Concession,
        Feature as Feature,
        Instrument as Instrument,
        Joint as Joint,
        KeptEntry as KeptEntry,
        Link as Link,
        LogEntry as LogEntry,
        Machine as Machine,
        MatchedSet as MatchedSet,
        OilPoint as OilPoint,
        Part as Part,
        Place as Place,
        Question as Question,
        Reading as Reading,
        RefitStep as RefitStep,
        Removal as Removal,
        Station as Station,
        Subassembly as Subassembly,
        Task as Task,
        TaskCaution as TaskCaution,
        TaskConstraint as TaskConstraint,
        Waiting as Waiting,
    )

Kept = type[StrEnum] | type[bool] | type[dt.datetime]


class Named:
    """One table, standing where its mapped record would stand in a question; columns are made when named."""

    #: Asked by SQLAlchemy before it takes ``__clause_element__``; must not be taken for a column.
    is_clause_element = False

    def __init__(self, table_name: str, **kept: Kept) -> None:
        self._table = table(table_name)
        self._kept = kept

    def __clause_element__(self) -> TableClause:
        return self._table

    def __getattr__(self, name: str) -> ColumnClause[Any]:
        if name.startswith("_"):
            raise AttributeError(name)
        found = column(name, _type(self._kept.get(name)))
        found.table = self._table
        setattr(self, name, found)
        return found


def _type(kept: Kept | None) -> TypeEngine[Any] | None:
    if kept is None:
        return None
    if issubclass(kept, StrEnum):
        return word(kept)
    return Boolean() if kept is bool else Moment()


if not TYPE_CHECKING:
    Attempt = Named("attempt", began_at=dt.datetime)
    ChartTest = Named("chart_test")
    Clock = Named("clock", kind=ClockKind, started_at=dt.datetime, closed_at=dt.datetime)
    Concession = Named("concession", accepted_at=dt.datetime)
    Feature = Named("feature", kind=FeatureKind, spec_origin=SpecOrigin)
    Instrument = Named("instrument", kind=InstrumentKind, calibrated_on=dt.datetime)
    Joint = Named(
        "joint", tight=Tightness, wanted=Tightness, dress=Dressing, wanted_dress=Dressing,
        set_at=dt.datetime, look_again=bool, looked_again_at=dt.datetime,
    )  # fmt: skip
    KeptEntry = Named("kept_entry", at=dt.datetime, settled=bool)
    Link = Named("link", kind=LinkKind)
    LogEntry = Named("log_entry", at=dt.datetime)
    Machine = Named("machine", kind=MachineKind, scope=Scope)
    MatchedSet = Named("matched_set")
    OilPoint = Named(
        "oil_point", kind=OilPointKind, proof=FlowProof, first_fill_at=dt.datetime, proved_at=dt.datetime
    )  # fmt: skip
    Part = Named(
        "part", identity=Identity, origin=Origin, decision=Decision,
        decided_at=dt.datetime, placed_at=dt.datetime,
    )  # fmt: skip
    Place = Named("place", kind=PlaceKind, since=dt.datetime)
    Question = Named("question", state=QuestionState, asked_at=dt.datetime, answered_at=dt.datetime)
    Reading = Named("reading", stage=Stage, taken_at=dt.datetime)
    RefitStep = Named("refit_step")
    Removal = Named("removal", at=dt.datetime, how=RemovalWay)
    Station = Named("station")
    Subassembly = Named("subassembly", scope=Scope)
    Task = Named(
        "task", kind=TaskKind, state=TaskState, irreversible=bool, done_at=dt.datetime
    )  # fmt: skip
    TaskCaution = Named("task_caution")
    TaskConstraint = Named("task_constraint", kind=ConstraintKind, proved_at=dt.datetime)
    Waiting = Named(
        "waiting", kind=WaitingKind, asked_at=dt.datetime, good_until=dt.datetime, ordered_at=dt.datetime,
        promised_at=dt.datetime, chased_at=dt.datetime, arrived_at=dt.datetime, inspected_at=dt.datetime,
        returned_at=dt.datetime,
    )  # fmt: skip
