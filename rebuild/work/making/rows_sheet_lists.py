"""What a making sheet carries, as rows to show or print; everything on them is worked out."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field

from rebuild.trade.drawing.ink import Drawing
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.data import DataBlock
from rebuild.trade.making.derive import Designations
from rebuild.trade.results.cautions import Caution
from rebuild.trade.results.working import Working
from rebuild.words.making import LimitsFrom, MakingProgress, PartShape
from rebuild.work.making.rows import SETTLED, SheetState
from rebuild.work.making.rows_as_made import MadeValue
from rebuild.work.making.rows_details import DetailRow
from rebuild.work.making.rows_fittings import FittingRow
from rebuild.work.making.rows_issue import SheetIssue
from rebuild.work.making.rows_offered import OfferedMate

#: No table: nothing here asks the file.
READS: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class MateRow:
    """A mate: which feature, what it reads now, with what, when, whether that is final, what is wanted with it."""

    fit_id: int
    own_feature: str
    mate: str
    reads: tuple[str, ...]
    known_to: str
    instrument: str
    final: bool
    wait: str
    wanted: str
    trouble: str


@dataclass(frozen=True, slots=True)
class SizeRow:
    """One size of the sheet with its limits in words, where they come from, and its as-made values."""

    id: int
    role: str
    name: str
    kind: str
    measure: Measure
    typed: str
    words: str
    other_unit: str
    limits_from: LimitsFrom
    source: str
    feature_id: int | None
    measured_with: str
    note: str
    made: tuple[MadeValue, ...]
    working: Working | None
    #: Why its band is finer than what its steps usually hold, whole and in short; empty: it is not.
    tight: str = ""
    grades: str = ""


@dataclass(frozen=True, slots=True)
class StepRow:
    """One step, its braces filled; ``text`` is as stored."""

    id: int
    what: str
    text: str
    machine: str
    hold: str
    tool: str
    speed: str
    feed: str
    leave: str
    measure: bool
    done_at: dt.datetime | None
    note: str


@dataclass(frozen=True, slots=True)
class ToolRow:
    """One tool, its braces filled; ``text`` is as stored."""

    id: int
    what: str
    text: str
    why: str
    in_hand: bool


@dataclass(frozen=True, slots=True)
class SheetHead:
    """What is made, for which machine, how many, and why."""

    part_id: int
    part_code: str
    part_name: str
    machine: str
    subassembly: str
    spare_of: str
    handedness: str
    quantity: int
    attempt: int
    shape: PartShape
    unit: str
    finish: str
    started_at: dt.datetime | None
    why: str
    do_not_copy: str

    @property
    def part(self) -> str:
        """``AP-12 bush``."""
        return f"{self.part_code} {self.part_name}".strip()


@dataclass(frozen=True, slots=True)
class SheetBlank:
    """What it is sawn from, or in ``trouble`` why that is not known; ``at`` is where the blank lies.

    ``in_hand`` is the piece there is and what can be got out of it, ``too_small`` why the part is not in it.
    """

    material: str
    words: str
    trouble: str
    working: Working | None
    at: str
    in_hand: str = ""
    too_small: str = ""


@dataclass(frozen=True, slots=True)
class SheetCourse:
    """How far it has come, what it waits for, and what has changed since its limits were ``looked_at``."""

    progress: MakingProgress
    state: SheetState
    looked_at: dt.datetime | None
    allow_uncertainty: bool
    waits: tuple[str, ...]
    stale: tuple[str, ...]
    #: What has changed upstream since the part was accepted.
    since_accepted: tuple[str, ...] = ()
    issue: SheetIssue = field(default_factory=SheetIssue)

    @property
    def settled(self) -> bool:
        """Whether nothing on it changes any more."""
        return self.progress in SETTLED


@dataclass(frozen=True, slots=True)
class SheetDrawing:
    """The drawing, or in ``trouble`` why there is none."""

    drawn: Drawing | None
    trouble: str


@dataclass(frozen=True, slots=True)
class SheetOutcome:
    """How it ended, what was taken outside its limits, how it fitted, and the remarks on it."""

    settled_at: dt.datetime | None
    by: str
    remark: str
    concessions: tuple[str, ...]
    trial_fit: str
    marked: str
    note: str


@dataclass(frozen=True, slots=True)
class SheetPage:
    """Everything on one making sheet."""

    id: int
    head: SheetHead
    course: SheetCourse
    blank: SheetBlank
    mates: tuple[MateRow, ...]
    sizes: tuple[SizeRow, ...]
    drawing: SheetDrawing
    named: Designations
    data: tuple[DataBlock, ...]
    steps: tuple[StepRow, ...]
    tools: tuple[ToolRow, ...]
    cautions: tuple[Caution, ...]
    outcome: SheetOutcome
    details: tuple[DetailRow, ...] = ()
    fittings: tuple[FittingRow, ...] = ()
    #: Two lines that are one size and cannot both hold, in a sentence.
    clash: str = ""
    #: A part with the same thread, no fit of which says that this runs on it.
    offered: OfferedMate | None = None
