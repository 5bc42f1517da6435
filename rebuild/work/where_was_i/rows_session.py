"""A session drafted from the day's acts: what was done, how it is left, what comes next. The user edits it."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.joints import Joints
from rebuild.model.tables.journal import Acts, Changes
from rebuild.model.tables.log import LogEntries
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.readings import Readings
from rebuild.model.tables.run_in import RunSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.waiting import Clocks, Waitings
from rebuild.store.act import Act
from rebuild.words.counted import counted
from rebuild.words.joints import Tightness
from rebuild.words.places import PlaceKind, lies_words
from rebuild.words.steps import TaskState
from rebuild.work.joints import rows as rows_joints
from rebuild.work.joints.rows import not_final
from rebuild.work.plan import rows_graph
from rebuild.work.plan.next_up import next_up
from rebuild.work.plan.rows_graph import work_graph
from rebuild.work.power import rows_off
from rebuild.work.power.rows_off import on_and_off
from rebuild.work.waiting.rows_clocks import in_baths

#: The tables the lookups here ask.
READS = (
    rows_graph.READS
    | rows_off.READS
    | rows_joints.READS
    | {"act", "change", "clock", "log_entry", "run_step"}
)
#: An evening may end after midnight: acts this long after it still belong to the day before.
LATE = dt.timedelta(hours=5)
#: How many of one kind are named before the rest is counted.
_NAMED = 4
#: What one writes of an evening, in this order; acts of other kinds are only counted.
_TOLD = (
    (Act.LOG_REMOVAL, "taken off"), (Act.TICK, "done"), (Act.GO_ON, "gone on with all the same"),
    (Act.BEGIN_BATCH, "put in or coated together"), (Act.END_BATCH, "out of the bath"),
    (Act.DECIDE, "decided"), (Act.START_SHEET, "making sheet begun"), (Act.ACCEPT_MADE, "accepted"),
    (Act.SET_JOINT, "joint set"), (Act.PROVE, "proved"), (Act.PROVE_FLOW, "oil seen"),
    (Act.READ_BEARING, "bearing read"), (Act.RUN_STEP, "run-in"), (Act.READ_CHART, "tested"),
    (Act.SURVEY_READING, "surveyed"), (Act.ANSWER, "answered"),
)  # fmt: skip
_READ = (Act.RECORD_READING, Act.PASTE)
#: Kinds that say nothing of the work at the bench, or are told in their own way.
_SILENT = (Act.MARK_WAITING, Act.UNDO, Act.REDO, Act.BUILD_DEMO, Act.UPGRADE, Act.ADD_LOG, Act.END_SESSION)
#: Places that say that a part is not with the machine.
_OUT = (PlaceKind.BENCH, PlaceKind.AT_A_SHOP, PlaceKind.LENT)
_LOOSE = (Tightness.APART, Tightness.FINGER, Tightness.LOOSE)


@dataclass(frozen=True, slots=True)
class SessionDraft:
    """What to write of the evening, to be edited; empty texts where nothing says anything."""

    did: str
    left: str
    next_step: str


def session_draft(connection: Connection, machine_id: int, now: dt.datetime) -> SessionDraft:
    """Draft the session from the acts since it began: since the last one written down, today at the earliest."""
    morning = dt.datetime.combine((now - LATE).date(), dt.time()) + LATE
    rows = connection.execute(
        select(Acts.id, Acts.kind, Acts.subject)
        .where(
            Acts.id > _last_written(connection, machine_id),
            Acts.at >= morning,
            Acts.at <= now,
            Acts.undone.is_(False),
            Acts.reverses.is_(None),
        )
        .order_by(Acts.id)
    ).all()
    others = _of_other_machines(connection, machine_id, min((row.id for row in rows), default=0))
    mine = [(row.kind, row.subject) for row in rows if row.id not in others]
    work = work_graph(connection, machine_id, now)
    offered = next_up(work)
    under_way = [
        node.title for node in work.graph.nodes if node.key > 0 and node.state is TaskState.UNDER_WAY
    ]
    left = [f"under way: {_named(under_way)}"] if under_way else []
    baths = in_baths(connection, machine_id, now)
    left += [f"in the bath: {_named([row.part for row in baths])}"] if baths else []
    left += _lies(connection, machine_id) + _loose(connection, machine_id)
    return SessionDraft(_did(mine), "; ".join(left), offered[0].title if offered else "")


def _lies(connection: Connection, machine_id: int) -> list[str]:
    """What is off, by where it lies: ``in tray 1: DR-02 Belt guard``."""
    off = on_and_off(connection, machine_id).off
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Places.kind, Places.name.label("place"))
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.placed_at.desc(), Parts.code, Parts.id)
    )
    by_place: dict[str, list[str]] = {}
    for row in rows:
        if (row.id in off or row.kind in _OUT) and row.kind is not PlaceKind.BATH:
            where = lies_words(row.kind, row.place) if row.kind is not None else "off"
            by_place.setdefault(where, []).append(f"{row.code} {row.name}".strip())
    places = list(by_place.items())
    more = [f"and in {counted(len(places) - _NAMED, 'more place')}"] if len(places) > _NAMED else []
    return [f"{where}: {_named(parts)}" for where, parts in places[:_NAMED]] + more


def _loose(connection: Connection, machine_id: int) -> list[str]:
    """The joints that would let go: ``apart: guard bolt left; finger tight: guard bolt right``."""
    joints = not_final(connection, machine_id)
    by_state = [(state, [row.name for row in joints if row.tight is state]) for state in _LOOSE]
    return [f"{state.said}: {_named(names)}" for state, names in by_state if names]


def _last_written(connection: Connection, machine_id: int) -> int:
    """The act that wrote the machine's last session down."""
    wrote = (
        select(func.max(Changes.act_id))
        .join(LogEntries, LogEntries.id == Changes.row_id)
        .where(Changes.tbl == "log_entry", Changes.op == "i", LogEntries.machine_id == machine_id)
    )
    return connection.execute(wrote).scalar() or 0


def _did(acts: list[tuple[str, str]]) -> str:
    said, told = [], set(_READ + _SILENT)
    for act, words in _TOLD:
        subjects = [subject for kind, subject in acts if kind == act.name]
        told.add(act)
        if subjects:
            said.append(f"{words}: {_named(list(dict.fromkeys(subjects)))}")
    names = {act.name for act in told}
    readings = sum(kind in {one.name for one in _READ} for kind, _ in acts)
    if readings:
        said.append(counted(readings, "reading"))
    return "; ".join([*said, *_marked(acts), *_by_kind([kind for kind, _ in acts if kind not in names])])


def _marked(acts: list[tuple[str, str]]) -> list[str]:
    """Orders and loans by what happened to them: the subject of each says it, ``sent out: spindle``."""
    found: dict[str, list[str]] = {}
    for word, _, what in (words.partition(": ") for kind, words in acts if kind == Act.MARK_WAITING.name):
        found.setdefault(word, []).append(what)
    return [f"{word}: {_named(list(dict.fromkeys(what)))}" for word, what in found.items()]


def _by_kind(kinds: list[str]) -> list[str]:
    """What else was done, by its kind, the commonest first: ``also: new part (6), spec (4)``."""
    told = [f"{Act[kind].value} ({count})" for kind, count in Counter(kinds).most_common()]
    return [f"also: {_named(told)}"] if told else []


def _named(titles: list[str]) -> str:
    more = f" and {len(titles) - _NAMED} more" if len(titles) > _NAMED else ""
    return ", ".join(titles[:_NAMED]) + more


def _of_other_machines(connection: Connection, machine_id: int, first: int) -> set[int]:
    """Acts, from ``first`` on, that touched a row of another machine."""
    found: set[int] = set()
    for table in (Tasks, Parts, Joints, Waitings, Clocks, RunSteps):
        touched = (
            select(Changes.act_id)
            .join(table, table.id == Changes.row_id)
            .where(Changes.tbl == table.table.name, Changes.act_id >= first, table.machine_id != machine_id)
        )
        found.update(connection.execute(touched).scalars())
    read = (
        select(Changes.act_id)
        .join(Readings, Readings.id == Changes.row_id)
        .join(Features, Features.id == Readings.feature_id)
        .join(Parts, Parts.id == Features.part_id)
        .where(Changes.tbl == "reading", Changes.act_id >= first, Parts.machine_id != machine_id)
    )
    found.update(connection.execute(read).scalars())
    return found
