"""What is known of the work of one machine, as plain values: the graph is laid from these and nothing else."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import NamedTuple

from rebuild.words.decisions import Decision
from rebuild.words.gates import Gate
from rebuild.words.making import MakingProgress
from rebuild.words.parts import Origin
from rebuild.words.places import PlaceKind
from rebuild.words.steps import ConstraintKind, LinkKind, TaskKind, TaskState
from rebuild.words.treatments import Treatment
from rebuild.words.waiting import ClockKind, WaitingKind
from rebuild.work.fits.rows_sides import Wait
from rebuild.work.records.ways_out import Way


class StepFact(NamedTuple):
    """A typed step."""

    id: int
    subassembly_id: int | None
    part_id: int | None
    title: str
    kind: TaskKind
    state: TaskState
    low_min: float | None = None
    likely_min: float | None = None
    high_min: float | None = None
    irreversible: bool = False
    place: str = ""
    done_at: dt.datetime | None = None
    treatment: Treatment | None = None


class LinkFact(NamedTuple):
    """A typed link."""

    id: int
    before: int
    after: int
    kind: LinkKind = LinkKind.BEFORE
    reason: str = ""


class PartFact(NamedTuple):
    """A part, what is to become of it, and where it lies."""

    id: int
    subassembly_id: int | None
    code: str
    name: str
    origin: Origin = Origin.ORIGINAL
    decision: Decision = Decision.OPEN
    reason: str = ""
    method: str | None = None
    work_min: float | None = None
    wait_days: float | None = None
    about: str = ""
    place_kind: PlaceKind | None = None
    place: str | None = None
    material: str = ""
    condition: str = ""
    finish: str = ""

    @property
    def called(self) -> str:
        """``HS-02 bearing cap``."""
        return f"{self.code} {self.name}".strip()


class NeedFact(NamedTuple):
    """What a step asks for besides order."""

    id: int
    task_id: int
    kind: ConstraintKind
    detail: str = ""
    rest_min: float | None = None
    proved: bool = False


class ClockFact(NamedTuple):
    """An open bath, cure or recoat clock of a step."""

    id: int
    task_id: int
    kind: ClockKind
    started_at: dt.datetime
    low_min: float | None = None
    high_min: float | None = None


class OrderFact(NamedTuple):
    """An order, a quote or a job sent out."""

    id: int
    what: str
    kind: WaitingKind
    part_id: int | None = None
    task_id: int | None = None
    ordered_at: dt.datetime | None = None
    promised_at: dt.datetime | None = None
    arrived_at: dt.datetime | None = None
    inspected_at: dt.datetime | None = None
    low_days: float | None = None
    likely_days: float | None = None
    high_days: float | None = None


class SheetFact(NamedTuple):
    """A making sheet."""

    id: int
    part_id: int
    progress: MakingProgress
    blank_at: str = ""
    attempt: int = 1


class ToolFact(NamedTuple):
    """A tool a making sheet wants that is not in hand."""

    id: int
    sheet_id: int
    what: str


class SideFact(NamedTuple):
    """One side of a fit, as far as the work hangs on it."""

    part_id: int
    part: str
    feature: str
    decision: Decision
    wait: Wait | None = None
    read: bool = True


class FitFact(NamedTuple):
    """A fit; ``master`` says which side is not touched (0 outer, 1 inner, None not chosen)."""

    id: int
    title: str
    sides: tuple[SideFact, SideFact]
    master: int | None = None
    changed: str = ""
    wrong: str = ""
    #: The mate it is made for, while that is not made and measured: its part and its name.
    promised: tuple[int, str] | None = None


class OilFact(NamedTuple):
    """An oil point that a step hides and where no oil was seen."""

    id: int
    task_id: int
    called: str
    blocked: bool = False


class FittingFact(NamedTuple):
    """Something fitted at assembly of which nothing is entered yet; its own step, or None: the part's."""

    id: int
    part_id: int
    task_id: int | None
    asked: str


class LackFact(NamedTuple):
    """Something a step names and the shop has not got; ``made_by`` is the step that makes it."""

    step_id: int
    means_id: int
    name: str
    sentence: str
    ways: tuple[Way, ...] = ()
    made_by: int | None = None


class GateFact(NamedTuple):
    """What keeps a step at its gate: how many things, the first of them in words, and its row."""

    task_id: int
    gate: Gate
    things: int
    first: str
    table: str
    target: int


class JointFact(NamedTuple):
    """A joint that is not final: the step that makes it, its part, what it lacks, and whether it is apart."""

    id: int
    task_id: int | None
    part_id: int | None
    subassembly_id: int | None
    name: str
    state: str
    apart: bool = False


class OffFact(NamedTuple):
    """A part that is off: the removal that took it off and its place in the log of an attempt."""

    part_id: int
    removal_id: int
    attempt_id: int
    place: int
    subassembly_id: int | None = None


@dataclass(frozen=True, slots=True)
class Facts:
    """All that is known of the work of one machine."""

    steps: tuple[StepFact, ...] = ()
    links: tuple[LinkFact, ...] = ()
    parts: tuple[PartFact, ...] = ()
    #: Parts a refit step puts on beside its own, as (step, part).
    puts_on: tuple[tuple[int, int], ...] = ()
    needs: tuple[NeedFact, ...] = ()
    need_parts: tuple[tuple[int, int], ...] = ()
    #: Open questions that hold a step, as (id, step, text).
    questions: tuple[tuple[int, int, str], ...] = ()
    clocks: tuple[ClockFact, ...] = ()
    orders: tuple[OrderFact, ...] = ()
    sheets: tuple[SheetFact, ...] = ()
    tools: tuple[ToolFact, ...] = ()
    oil: tuple[OilFact, ...] = ()
    #: Parts with readings, and whether any of them was taken of the part as reworked or made.
    read: tuple[tuple[int, bool], ...] = ()
    fits: tuple[FitFact, ...] = ()
    #: Subassemblies in the order of the tree.
    tree: tuple[int, ...] = ()
    lacking: tuple[LackFact, ...] = ()
    gates: tuple[GateFact, ...] = ()
    fittings: tuple[FittingFact, ...] = ()
    #: Steps that cannot be undone, while a fit of their parts may not be closed; ``gates`` are those before power.
    closing: tuple[GateFact, ...] = ()
    #: Joints to see to before power, and the checks not done yet, as (id, text).
    joints: tuple[JointFact, ...] = ()
    checks: tuple[tuple[int, str], ...] = ()
    #: Parts that came off and are not back on.
    off: tuple[OffFact, ...] = ()
