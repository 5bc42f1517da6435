"""In which order to make things: master before follower across all open fits, and what each waits for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from sqlalchemy import Connection, func, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.steps import Tasks
from rebuild.trade.limits.judgement import Rule
from rebuild.trade.schedule.network import loop_in, ordered
from rebuild.words.decisions import Decision
from rebuild.words.readings import Stage
from rebuild.words.steps import TaskKind, TaskState
from rebuild.work.fits.rows import FitRow, fit_ids, rows
from rebuild.work.steps.rows import tasks

#: The tables the lookups here ask.
READS = frozenset({
    "feature", "fit", "instrument", "link", "part", "reading", "station", "task", "task_caution",
    "task_constraint",
})  # fmt: skip

MAKING = (Decision.REMAKE, Decision.REWORK, Decision.BUY)
_MAKE_STEPS = (TaskKind.MAKE, TaskKind.BUY, TaskKind.REWORK, TaskKind.SEND_OUT)
_CLOSED = (TaskState.DONE, TaskState.LEFT_OUT)
_NEW = (Stage.REWORKED, Stage.AS_MADE, Stage.FITTED)


class NeedKind(StrEnum):
    """What something to be made waits for."""

    MAKE = "make first"
    MEASURE = "measure first"
    DECIDE = "decide first"
    CHOOSE = "choose the master"
    STEP = "step first"


@dataclass(frozen=True, slots=True)
class Need:
    """One thing a part waits for: a part to be made, a measurement (feature and stage), a decision, a step."""

    kind: NeedKind
    fit_id: int
    fit: str
    part_id: int
    feature_id: int
    title: str
    stage: Stage | None
    sentence: str


@dataclass(frozen=True, slots=True)
class MakeRow:
    """A part to be made, reworked or bought. ``loop`` spells out the loop it is in."""

    part_id: int
    title: str
    decision: Decision
    method: str
    needs: tuple[Need, ...]
    frees: tuple[str, ...]
    minutes: float
    loop: tuple[str, ...] = ()

    @property
    def tonight(self) -> bool:
        """Whether it may be started now."""
        return not self.needs and not self.loop


@dataclass(frozen=True, slots=True)
class ToMeasure:
    """A measurement that something waits for, and what."""

    part_id: int
    feature_id: int
    title: str
    stage: Stage | None
    now: bool
    waiting: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MakingOrder:
    """What is still to be made, master before follower."""

    rows: tuple[MakeRow, ...]
    measurements: tuple[ToMeasure, ...]
    loops: tuple[tuple[str, ...], ...]

    @property
    def tonight(self) -> tuple[MakeRow, ...]:
        """What may be started now."""
        return tuple(row for row in self.rows if row.tonight)


def making_order(connection: Connection, machine_id: int, rule: Rule = Rule.CONFORMANCE_95) -> MakingOrder:
    """The order of making of a machine."""
    every = rows(connection, fit_ids(connection, machine_id), rule)
    parts = _still_to_make(connection, machine_id, every)
    needs: dict[int, list[Need]] = {key: [] for key in parts}
    for row in every:
        _add_needs(row, parts.keys(), needs)
    for key, title in _steps_before(connection, machine_id, parts):
        needs[key].append(Need(NeedKind.STEP, 0, "", 0, 0, title, None, f"step “{title}” comes first"))
    edges = [(need.part_id, key) for key, found in needs.items() for need in found if need.part_id in parts]
    loops, kept = _loops(edges)
    order = _in_order(kept, parts)
    titles = {key: part.title for key, part in parts.items()}
    minutes = _minutes(connection, parts)
    found = tuple(
        MakeRow(
            key,
            titles[key],
            parts[key].decision,
            parts[key].method,
            tuple(needs[key]),
            tuple(titles[after] for before, after in dict.fromkeys(edges) if before == key),
            minutes.get(key, 0.0),
            next((tuple(titles[k] for k in loop) for loop in loops if key in loop), ()),
        )
        for key in order
    )
    return MakingOrder(
        found, _measurements(found), tuple(tuple(titles[key] for key in loop) for loop in loops)
    )


def _add_needs(row: FitRow, making: Iterable[int], needs: dict[int, list[Need]]) -> None:
    """What the following side of a fit waits for, while it is not made yet."""
    if row.master is None:
        for side in row.sides:
            if side.part_id in making and side.wait is not None:
                sentence = f"choose which side of {row.title} is the master"
                needs[side.part_id].append(
                    Need(NeedKind.CHOOSE, row.id, row.title, 0, 0, row.title, None, sentence)
                )
        return
    master, follower = row.master_side, row.follower_side
    assert master is not None
    assert follower is not None
    if follower.part_id not in making or master.part_id == follower.part_id or master.wait is None:
        return
    if follower.wait is None:
        return
    wait = master.wait
    kind = NeedKind.MAKE if master.decision in MAKING else NeedKind.MEASURE if wait.stage else NeedKind.DECIDE
    need = Need(kind, row.id, row.title, wait.part_id, wait.feature_id, wait.title, wait.stage, wait.sentence)
    if all(need.sentence != known.sentence for known in needs[follower.part_id]):
        needs[follower.part_id].append(need)


@dataclass(frozen=True, slots=True)
class _ToMake:
    title: str
    decision: Decision
    method: str


def _still_to_make(connection: Connection, machine_id: int, every: list[FitRow]) -> dict[int, _ToMake]:
    """Parts decided to be made, and not finished: a side not final, or without fits neither measured nor done."""
    found = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.decision, Parts.decision_method)
        .where(Parts.machine_id == machine_id, Parts.decision.in_(MAKING))
        .order_by(Parts.code, Parts.id)
    ).all()
    sides: dict[int, list[bool]] = {}
    for row in every:
        for side in row.sides:
            sides.setdefault(side.part_id, []).append(side.final)
    loose = [row.id for row in found if row.id not in sides]
    finished = _measured_new(connection, loose) | _steps_done(connection, loose)
    return {
        row.id: _ToMake(f"{row.code} {row.name}".strip(), row.decision, row.decision_method or "")
        for row in found
        if not (all(sides[row.id]) if row.id in sides else row.id in finished)
    }


def _measured_new(connection: Connection, part_ids: list[int]) -> set[int]:
    query = (
        select(Features.part_id)
        .join(Readings, Readings.feature_id == Features.id)
        .where(Features.part_id.in_(part_ids), Readings.stage.in_(_NEW), Readings.struck.is_(None))
    )
    return set(connection.execute(query).scalars())


def _steps_done(connection: Connection, part_ids: list[int]) -> set[int]:
    """Parts whose every making step is done."""
    still_open = func.sum(Tasks.state.not_in(_CLOSED))
    query = (
        select(Tasks.part_id)
        .where(Tasks.part_id.in_(part_ids), Tasks.kind.in_(_MAKE_STEPS))
        .group_by(Tasks.part_id)
        .having(still_open == 0)
    )
    return {key for key in connection.execute(query).scalars() if key is not None}


def _steps_before(connection: Connection, machine_id: int, part_ids: Iterable[int]) -> list[tuple[int, str]]:
    """Open steps that come before the making steps of parts, other than making steps themselves: (part, title)."""
    every = tasks(connection, machine_id, part_ids=list(part_ids))
    making = {row.id for row in tasks(connection, machine_id) if row.kind in _MAKE_STEPS}
    return [
        (row.part_id, title)
        for row in every
        if row.id in making and row.state not in _CLOSED and row.part_id is not None
        for key, title in row.waits_for
        if key not in making
    ]


def _minutes(connection: Connection, part_ids: Iterable[int]) -> dict[int, float]:
    query = (
        select(Tasks.part_id, func.sum(Tasks.likely_min))
        .where(Tasks.part_id.in_(list(part_ids)), Tasks.kind.in_(_MAKE_STEPS), Tasks.state.not_in(_CLOSED))
        .group_by(Tasks.part_id)
    )
    return {row[0]: float(row[1] or 0.0) for row in connection.execute(query) if row[0] is not None}


_Edges = list[tuple[int, int]]


def _loops(edges: _Edges) -> tuple[list[tuple[int, ...]], _Edges]:
    """Every loop (first part repeated at its end), and the edges left when each is cut once."""
    kept, found = list(dict.fromkeys(edges)), []
    while (loop := loop_in(kept)) is not None:
        found.append(loop)
        kept.remove((loop[-2], loop[-1]))
    return found, kept


def _in_order(edges: _Edges, parts: dict[int, _ToMake]) -> list[int]:
    """By how many masters deep a part lies, then by code."""
    depth = dict.fromkeys(parts, 0)
    for key in ordered(edges, parts):
        depth[key] = max((depth[before] + 1 for before, after in edges if after == key), default=0)
    places = {key: place for place, key in enumerate(parts)}
    return sorted(parts, key=lambda key: (depth[key], places[key]))


def _measurements(made: tuple[MakeRow, ...]) -> tuple[ToMeasure, ...]:
    waiting: dict[tuple[int, int, Stage | None], list[str]] = {}
    needs: dict[tuple[int, int, Stage | None], Need] = {}
    for row in made:
        for need in row.needs:
            if need.kind in (NeedKind.MAKE, NeedKind.MEASURE):
                key = (need.part_id, need.feature_id, need.stage)
                needs[key] = need
                waiting.setdefault(key, []).append(row.title)
    return tuple(
        ToMeasure(
            *key[:2], need.title, key[2], need.kind is NeedKind.MEASURE, tuple(dict.fromkeys(waiting[key]))
        )
        for key, need in needs.items()
    )
