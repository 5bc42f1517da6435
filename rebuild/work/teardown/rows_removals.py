"""The removal log as rows: what came off in what order, fasteners, shims."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import (
    Attempts,
    Fasteners,
    RemovalParts,
    Removals,
    ShimLeaves,
    ShimPacks,
)
from rebuild.trade.results.working import Worked
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_both
from rebuild.trade.teardown.fastener_words import SaidFastener, fastener_words, known_thread
from rebuild.trade.teardown.removal_words import way_words
from rebuild.trade.teardown.shims import total
from rebuild.words.counted import counted
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.steps import TaskState
from rebuild.words.teardown import FastenerKind, RemovalWay
from rebuild.work.records.field import show_day
from rebuild.work.teardown.rows_attempts import (
    AttemptRow as AttemptRow,
    attempts as attempts,
    current_attempt as current_attempt,
)

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "fastener", "machine", "part", "place", "refit_step", "removal", "removal_part", "shim_leaf",
    "shim_pack", "subassembly", "task",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class FastenerRow:
    """What sat in a hole; ``thread_known`` when the thread reads as a designation."""

    id: int
    removal_id: int
    kind: FastenerKind
    words: str
    thread: str
    thread_known: bool
    hole: str
    joint_id: int | None


@dataclass(frozen=True, slots=True)
class ShimRow:
    """A shim pack with its total in both units and the sum spelled out."""

    id: int
    removal_id: int
    where: str
    leaves: tuple[str, ...]
    total: Worked[float]
    total_words: str

    @property
    def thick(self) -> str:
        """``0.0150 in (0.381 mm) in 3 leaves``."""
        return f"{self.total_words} in {counted(len(self.leaves), 'leaf', 'leaves')}"

    @property
    def words(self) -> str:
        """Where it sits and how thick it is."""
        return f"{self.where}: {self.thick}"


@dataclass(frozen=True, slots=True)
class RemovalRow:
    """One line of the log; ``place`` is where it was put then, ``now`` where its parts lie if that is elsewhere."""

    id: int
    attempt_id: int
    number: int
    at: dt.datetime
    part_ids: tuple[int, ...]
    parts: tuple[str, ...]
    what: str
    how: RemovalWay
    from_end: str
    location: str
    orientation: str
    match_mark: str
    hard: str
    found: str
    tools: str
    photo: str
    place: str
    now: str
    note: str
    broke: str
    fasteners: tuple[FastenerRow, ...]
    shims: tuple[ShimRow, ...]
    refit_id: int | None
    refitted: bool

    @property
    def called(self) -> str:
        """What came off, in words."""
        return ", ".join(self.parts) or self.what

    @property
    def way(self) -> str:
        """How it came off, with the end where it has one."""
        return way_words(self.how, self.from_end)


def removals(connection: Connection, attempt_id: int) -> list[RemovalRow]:
    """The log of one attempt, first off first."""
    listed = connection.execute(
        select(*Removals.columns(), Places.kind, Places.name)
        .outerjoin(Places, Places.id == Removals.place_id)
        .where(Removals.attempt_id == attempt_id)
        .order_by(Removals.position, Removals.id)
    )
    rows = listed.all()
    ids = [row.id for row in rows]
    parts, held, packs = _parts(connection, ids), fasteners(connection, ids), shims(connection, ids)
    refits = _refits(connection, ids)
    lies = _lie_now(connection, ids)
    return [
        RemovalRow(
            row.id,
            attempt_id,
            number,
            row.at,
            tuple(key for key, _ in parts.get(row.id, ())),
            tuple(words for _, words in parts.get(row.id, ())),
            row.what,
            row.how,
            row.from_end,
            row.location,
            row.orientation,
            row.match_mark,
            row.hard,
            row.found,
            row.tools,
            row.photo,
            place_words(row.kind, row.name) if row.name else "",
            lies.get(row.id, ""),
            row.note,
            row.broke or "",
            tuple(held.get(row.id, ())),
            tuple(packs.get(row.id, ())),
            *refits.get(row.id, (None, False)),
        )
        for number, row in enumerate(rows, start=1)
    ]


def of_machine(connection: Connection, machine_id: int) -> list[tuple[AttemptRow, RemovalRow]]:
    """What is logged of a machine as a whole and of each of its subassemblies, in order of time; each with its attempt.

    Of a subassembly taken down more than once, the newest attempt.
    """
    newest: dict[int | None, AttemptRow] = {}
    for one in attempts(connection, machine_id):
        if one.subassembly_id not in newest or newest[one.subassembly_id].number < one.number:
            newest[one.subassembly_id] = one
    rows = [(one, row) for one in newest.values() for row in removals(connection, one.id)]
    return sorted(rows, key=lambda both: (both[1].at, both[1].id))


def _lie_now(connection: Connection, ids: Iterable[int]) -> dict[int, str]:
    """Where the parts of removals lie now, for those neither where they were put nor on the machine again."""
    rows = connection.execute(
        select(RemovalParts.removal_id, Places.kind, Places.name, Parts.placed_at)
        .join(Parts, Parts.id == RemovalParts.part_id)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Places, Places.id == Parts.place_id)
        .where(
            RemovalParts.removal_id.in_(list(ids)),
            Places.id.is_distinct_from(Removals.place_id),
            Places.kind != PlaceKind.ON_THE_MACHINE,
        )
        .order_by(RemovalParts.id)
    )
    found: dict[int, list[str]] = {}
    for row in rows:
        since = f" since {show_day(row.placed_at)}" if row.placed_at else ""
        words = f"{place_words(row.kind, row.name)}{since}"
        if words not in found.setdefault(row.removal_id, []):
            found[row.removal_id].append(words)
    return {key: "; ".join(words) for key, words in found.items()}


def _parts(connection: Connection, ids: Iterable[int]) -> dict[int, list[tuple[int, str]]]:
    rows = connection.execute(
        select(RemovalParts.removal_id, Parts.id, Parts.code, Parts.name)
        .join(Parts, Parts.id == RemovalParts.part_id)
        .where(RemovalParts.removal_id.in_(list(ids)))
        .order_by(RemovalParts.id)
    )
    found: dict[int, list[tuple[int, str]]] = {}
    for row in rows:
        found.setdefault(row.removal_id, []).append((row.id, f"{row.code} {row.name}".strip()))
    return found


def _refits(connection: Connection, ids: Iterable[int]) -> dict[int, tuple[int | None, bool]]:
    rows = connection.execute(
        select(RefitSteps.removal_id, Tasks.id, Tasks.state)
        .join(Tasks, Tasks.id == RefitSteps.task_id)
        .where(RefitSteps.removal_id.in_(list(ids)))
    )
    return {row.removal_id: (row.id, row.state is TaskState.DONE) for row in rows}


def fasteners(connection: Connection, removal_ids: Iterable[int]) -> dict[int, list[FastenerRow]]:
    """The fasteners of removals in the order they were said."""
    rows = connection.execute(
        select(*Fasteners.columns())
        .where(Fasteners.removal_id.in_(list(removal_ids)))
        .order_by(Fasteners.removal_id, Fasteners.position, Fasteners.id)
    )
    found: dict[int, list[FastenerRow]] = {}
    for row in rows:
        said = SaidFastener(
            row.kind.value,
            row._mapping["count"],
            row.thread,
            row.left_hand,
            row.length_text or "",
            row.length_unit or "mm",
            row.head,
            row.point.value if row.point else "",
            row.grade,
            row.state.value if row.state else "",
            row.big_end,
            row.hidden,
            "substitute" if row.substitute else "",
        )
        words = ", ".join(filter(None, (row.hole, fastener_words(said), row.note)))
        known = known_thread(row.thread) is not None if row.thread else False
        found.setdefault(row.removal_id, []).append(
            FastenerRow(row.id, row.removal_id, row.kind, words, row.thread, known, row.hole, row.joint_id)
        )
    return found


def shims(connection: Connection, removal_ids: Iterable[int]) -> dict[int, list[ShimRow]]:
    """The shim packs of removals with their totals."""
    rows = connection.execute(
        select(
            *ShimPacks.columns(),
            Machines.unit,
            ShimLeaves.thickness_text,
            ShimLeaves.thickness_unit,
            ShimLeaves.thickness_mm,
        )
        .join(Removals, Removals.id == ShimPacks.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .join(Machines, Machines.id == Attempts.machine_id)
        .outerjoin(ShimLeaves, ShimLeaves.pack_id == ShimPacks.id)
        .where(ShimPacks.removal_id.in_(list(removal_ids)))
        .order_by(ShimPacks.id, ShimLeaves.position, ShimLeaves.id)
    ).all()
    leaves: dict[int, list[Size]] = {}
    heads = {}
    for row in rows:
        heads[row.id] = row
        if row.thickness_text is not None:
            size = Size(row.thickness_text, row.thickness_unit, row.thickness_mm)
            leaves.setdefault(row.id, []).append(size)
    found: dict[int, list[ShimRow]] = {}
    for key, row in heads.items():
        worked = total(leaves.get(key, []), row.unit)
        where = " ".join(filter(None, (row.location, row.side, row.way_round))) or "shims"
        texts = tuple(f"{leaf.text} {leaf.unit}" for leaf in leaves.get(key, []))
        pack = ShimRow(key, row.removal_id, where, texts, worked, show_both(worked.value, row.unit))
        found.setdefault(row.removal_id, []).append(pack)
    return found
