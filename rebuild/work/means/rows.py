"""Means with how they stand, which steps name them, and what holds a step because it is not in the shop."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.machines import Machines
from rebuild.model.tables.means import Means, StepMeans
from rebuild.model.tables.places import Places
from rebuild.model.tables.steps import TaskConstraints, Tasks
from rebuild.model.tables.waiting import Waitings
from rebuild.words.means import MeansKind, MeansStand
from rebuild.words.places import place_words
from rebuild.words.steps import ConstraintKind, TaskState
from rebuild.words.waiting import WaitingKind
from rebuild.work.records.field import show_day
from rebuild.work.records.ways_out import Way, WayKind

#: The tables the lookups here ask.
READS = frozenset({"machine", "means", "place", "step_means", "task", "task_constraint", "waiting"})

OPEN = (TaskState.OPEN, TaskState.UNDER_WAY)
#: These are asked for by a constraint as well as by name: either of them answers it.
BY_CONSTRAINT = (MeansKind.HELPER, MeansKind.HOIST)


@dataclass(frozen=True, slots=True)
class MeansRow:
    """One means: whether it is in the shop, in words with who and until when, and how many open steps name it."""

    id: int
    kind: MeansKind
    name: str
    owned: bool
    stand: MeansStand
    words: str
    place: str
    note: str
    task_id: int | None
    waiting_id: int | None
    steps: int

    @property
    def here(self) -> bool:
        """Whether a step can count on it."""
        return self.stand is MeansStand.HERE

    @property
    def lacks(self) -> str:
        """Why a step waits for it."""
        return f"needs {self.name}: {self.words}"


@dataclass(frozen=True, slots=True)
class StepMeansRow:
    """A means a step names; ``note`` says what for."""

    id: int
    task_id: int
    means: MeansRow
    note: str


@dataclass(frozen=True, slots=True)
class Ref:
    """The very row a sentence speaks of: its table and id."""

    record: str
    id: int


@dataclass(frozen=True, slots=True)
class Lacking:
    """Something a step waits for: the sentence, the row it speaks of, and the ways to come by it."""

    step_id: int
    sentence: str
    ref: Ref
    ways: tuple[Way, ...]


def means(connection: Connection) -> list[MeansRow]:
    """All the shop's means, what it lacks first, then by kind and name."""
    named: dict[int, int] = {}
    asked = select(StepMeans.means_id).join(Tasks, Tasks.id == StepMeans.task_id)
    for key in connection.execute(asked.where(Tasks.state.in_(OPEN))).scalars():
        named[key] = named.get(key, 0) + 1
    rows = connection.execute(
        select(
            *Means.columns(), Places.kind.label("place_kind"), Places.name.label("place"),
            Tasks.title.label("step"), Tasks.state.label("step_state"), Waitings.kind.label("waited"),
            Waitings.who, Waitings.ordered_at, Waitings.promised_at, Waitings.arrived_at, Waitings.returned_at,
        )
        .select_from(Means)
        .outerjoin(Places, Places.id == Means.place_id)
        .outerjoin(Tasks, Tasks.id == Means.task_id)
        .outerjoin(Waitings, Waitings.id == Means.waiting_id)
    )  # fmt: skip
    found = []
    for row in rows:
        stand, words = stand_of(
            _Known(
                row.owned, row.step, row.step_state, row.waited, row.who or "", row.ordered_at, row.promised_at,
                row.arrived_at, row.returned_at,
            )
        )  # fmt: skip
        place = place_words(row.place_kind, row.place) if row.place and stand is not MeansStand.LENT else ""
        found.append(
            MeansRow(
                row.id, row.kind, row.name, row.owned, stand, words, place, row.note, row.task_id, row.waiting_id,
                named.get(row.id, 0),
            )
        )  # fmt: skip
    kinds = list(MeansKind)
    return sorted(found, key=lambda one: (one.here, kinds.index(one.kind), one.name.casefold(), one.id))


@dataclass(frozen=True, slots=True)
class _Known:
    """What is noted of a means."""

    owned: bool
    step: str | None
    step_state: TaskState | None
    waited: WaitingKind | None
    who: str
    gone: dt.datetime | None
    promised: dt.datetime | None
    arrived: dt.datetime | None
    returned: dt.datetime | None


def stand_of(known: _Known) -> tuple[MeansStand, str]:
    """Whether it is in the shop, and the words for it: a loan first, then what the shop owns, then what comes."""
    who = f" {known.who}" if known.who else ""
    until = f", back by {show_day(known.promised)}" if known.promised else ""
    if known.waited is WaitingKind.LENT and known.returned is None:
        return MeansStand.LENT, f"lent to{who or ' somebody'}{until}"
    if known.owned:
        return MeansStand.HERE, "in the shop"
    if known.waited is WaitingKind.BORROWED and known.returned is None:
        if known.arrived is not None or known.gone is not None:
            return MeansStand.HERE, f"borrowed{f' from{who}' if who else ''}{until}"
        return MeansStand.TO_ORDER, f"to be borrowed{f' from{who}' if who else ''}"
    if known.waited in (WaitingKind.ORDER, WaitingKind.QUOTE) and known.returned is None:
        return _bought(known, who)
    if known.step is not None and known.step_state is TaskState.DONE:
        return MeansStand.HERE, "made here"
    if known.step is not None and known.step_state in OPEN:
        return MeansStand.BEING_MADE, f"to be made first: “{known.step}”"
    return MeansStand.LACKING, "the shop has none"


def _bought(known: _Known, who: str) -> tuple[MeansStand, str]:
    if known.arrived is not None:
        return MeansStand.HERE, "bought"
    if known.gone is None:
        return MeansStand.TO_ORDER, "on the list of what to order, not ordered yet"
    promised = f", promised {show_day(known.promised)}" if known.promised else ", no date promised"
    return MeansStand.ON_THE_WAY, f"ordered{f' from{who}' if who else ''}{promised}"


def of_steps(connection: Connection, task_ids: Collection[int] | None = None) -> list[StepMeansRow]:
    """What steps name (all of them, or some), in the order of the steps."""
    by_id = {row.id: row for row in means(connection)}
    query = select(*StepMeans.columns()).order_by(StepMeans.task_id, StepMeans.id)
    if task_ids is not None:
        query = query.where(StepMeans.task_id.in_(task_ids))
    rows = connection.execute(query)
    return [StepMeansRow(row.id, row.task_id, by_id[row.means_id], row.note) for row in rows]


@dataclass(frozen=True, slots=True)
class NeedRow:
    """A step that names a means, with its machine."""

    task_id: int
    title: str
    state: TaskState
    note: str
    machine_id: int
    machine: str
    subassembly_id: int | None


def needing(connection: Connection, means_id: int) -> list[NeedRow]:
    """The steps that name a means, open ones first."""
    rows = connection.execute(
        select(
            Tasks.id,
            Tasks.title,
            Tasks.state,
            StepMeans.note,
            Tasks.machine_id,
            Machines.name,
            Tasks.subassembly_id,
        )
        .select_from(StepMeans)
        .join(Tasks, Tasks.id == StepMeans.task_id)
        .join(Machines, Machines.id == Tasks.machine_id)
        .where(StepMeans.means_id == means_id)
        .order_by(Tasks.state.not_in(OPEN), Tasks.machine_id, Tasks.id)
    )
    return [NeedRow(*row) for row in rows]


def lacking(connection: Connection, machine_id: int) -> dict[int, tuple[Lacking, ...]]:
    """Open steps of a machine that need something the shop has not got: by step, what and how to come by it.

    A step that asks for two people or a hoist waits too where the shop listed helpers or hoists and none is here.
    """
    every = means(connection)
    by_id = {row.id: row for row in every}
    found: dict[int, list[Lacking]] = {}
    named = connection.execute(
        select(StepMeans.task_id, StepMeans.means_id)
        .join(Tasks, Tasks.id == StepMeans.task_id)
        .where(Tasks.machine_id == machine_id, Tasks.state.in_(OPEN))
        .order_by(StepMeans.task_id, StepMeans.id)
    )
    for row in named:
        one = by_id[row.means_id]
        if not one.here and one.task_id != row.task_id:
            found.setdefault(row.task_id, []).append(_lacking(row.task_id, one))
    hands = [one for one in every if one.kind in BY_CONSTRAINT]
    wanting = _wanting_hands(connection, machine_id) if hands else []
    if not any(one.here for one in hands):
        for step_id in wanting:
            told = {one.ref.id for one in found.get(step_id, ())}
            if not told & {one.id for one in hands}:
                found.setdefault(step_id, []).append(_lacking(step_id, hands[0]))
    return {key: tuple(lines) for key, lines in found.items()}


def _wanting_hands(connection: Connection, machine_id: int) -> list[int]:
    rows = connection.execute(
        select(Tasks.id)
        .join(TaskConstraints, TaskConstraints.task_id == Tasks.id)
        .where(
            Tasks.machine_id == machine_id,
            Tasks.state.in_(OPEN),
            TaskConstraints.kind == ConstraintKind.TWO_PEOPLE,
        )
        .order_by(Tasks.id)
    )
    return [row.id for row in rows]


def _lacking(step_id: int, one: MeansRow) -> Lacking:
    return Lacking(step_id, one.lacks, Ref("means", one.id), ways(one))


def ways(one: MeansRow) -> tuple[Way, ...]:
    """How to come by a means that is not here: those that fit its kind, none begun already offered twice."""
    have = Way(WayKind.HAVE_MEANS, f"The shop has {one.name}", one.id)
    borrow = Way(WayKind.BORROW_MEANS, f"Borrow {one.name}", one.id)
    if one.stand is MeansStand.LENT:
        return (Way(WayKind.BACK_MEANS, f"{one.name} is back", one.id),)
    if one.stand in (MeansStand.ON_THE_WAY, MeansStand.TO_ORDER):
        return (Way(WayKind.BACK_MEANS, f"{one.name} has come", one.id),)
    if one.kind is MeansKind.HELPER:
        return (Way(WayKind.BORROW_MEANS, f"Ask for {one.name}", one.id), have)
    buy = Way(WayKind.BUY_MEANS, f"Buy {one.name}", one.id)
    if one.kind is MeansKind.CONSUMABLE:
        return (buy, borrow, have)
    make = Way(WayKind.MAKE_MEANS, f"Make {one.name}", one.id)
    made = () if one.stand is MeansStand.BEING_MADE else (make,)
    return (*made, buy, borrow, have)
