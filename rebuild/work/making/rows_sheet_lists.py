"""What a making sheet carries, as rows to show or print; everything on them is worked out."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.trade.drawing.ink import Drawing
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.data import DataBlock
from rebuild.trade.results.cautions import Caution
from rebuild.trade.results.working import Working
from rebuild.words.making import LimitsFrom, MakingProgress, PartShape
from rebuild.work.making.rows import SETTLED, SheetState
from rebuild.work.making.rows_as_made import MadeValue


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
class SheetPage:
    """Everything on one making sheet."""

    id: int
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
    progress: MakingProgress
    state: SheetState
    unit: str
    started_at: dt.datetime | None
    looked_at: dt.datetime | None
    why: str
    do_not_copy: str
    mates: tuple[MateRow, ...]
    sizes: tuple[SizeRow, ...]
    data: tuple[DataBlock, ...]
    material: str
    material_note: str
    blank: str
    blank_trouble: str
    blank_working: Working | None
    blank_at: str
    bar_skin: str
    thread: str
    taper: str
    gear: str
    key: str
    finish: str
    allow_uncertainty: bool
    steps: tuple[StepRow, ...]
    tools: tuple[ToolRow, ...]
    cautions: tuple[Caution, ...]
    waits: tuple[str, ...]
    stale: tuple[str, ...]
    drawing: Drawing | None
    drawing_trouble: str
    concessions: tuple[str, ...]
    made_at: dt.datetime | None
    settled_at: dt.datetime | None
    settled_by: str
    settled_note: str
    trial_fit: str
    marked: str
    note: str

    @property
    def part(self) -> str:
        """``AP-12 bush``."""
        return f"{self.part_code} {self.part_name}".strip()

    @property
    def settled(self) -> bool:
        """Whether nothing on it changes any more."""
        return self.progress in SETTLED
