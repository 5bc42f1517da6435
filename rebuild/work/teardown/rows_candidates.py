"""What could come off next, what is off now, and the names a spoken line may use."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, Row, select

from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.trade.teardown.at_odds import is_lost
from rebuild.trade.teardown.meant import Named
from rebuild.words.parts import Identity
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.teardown import RemovalWay
from rebuild.work.machines.rows_tree import SubassemblyRow, order_of_subassemblies, subassemblies
from rebuild.work.places.rows_off import off_parts
from rebuild.work.records.rows_like import called, told_apart

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "machine", "part", "place", "refit_step", "removal", "removal_part", "subassembly", "task",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Candidate:
    """A part that is still on and could come off; ``beside`` tells it from another of its name without a code."""

    part_id: int
    code: str
    name: str
    subassembly_id: int | None = None
    beside: str = ""

    @property
    def told(self) -> str:
        """What a list calls it."""
        return called(self.code, self.name, self.beside)


@dataclass(frozen=True, slots=True)
class Candidates:
    """``still_on`` begins with the next in the tree; ``near`` are all of this subassembly, ``every`` of the machine.

    ``groups`` are the machine's subassemblies, ``off`` the parts that the logs say are off.
    """

    still_on: tuple[Candidate, ...]
    near: tuple[Candidate, ...]
    every: tuple[Candidate, ...]
    groups: tuple[SubassemblyRow, ...] = ()
    off: frozenset[int] = frozenset()


def candidates(connection: Connection, machine_id: int, subassembly_id: int | None) -> Candidates:
    """Parts that could come off next: the first of ``still_on`` follows the last one logged, in tree order.

    A gauge made to prove a part is listed among the parts, and is nothing to come off.
    A part that lies in a bag or at a shop is not on, whether its removal was logged or not.
    """
    groups = subassemblies(connection, machine_id)
    order = {key: place for place, key in enumerate(order_of_subassemblies(groups))}
    inside = _inside(groups, subassembly_id)
    rows = connection.execute(
        select(
            Parts.id,
            Parts.code,
            Parts.name,
            Parts.subassembly_id,
            Parts.position,
            Parts.identity,
            Places.kind,
        )
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id)
    ).all()
    rows = sorted(rows, key=lambda row: (order.get(row.subassembly_id, 10_000), row.position, row.id))
    elsewhere = {row.id for row in rows if row.kind not in (None, PlaceKind.ON_THE_MACHINE)}
    logged_off = off_parts(connection, machine_id)
    off = logged_off | elsewhere
    here = [row for row in rows if row.subassembly_id in inside]
    last = _last_off(connection, machine_id, subassembly_id)
    places = [place for place, row in enumerate(here) if row.id == last]
    turned = here[places[0] + 1 :] + here[: places[0] + 1] if places else here
    still_on = [row for row in turned if row.id not in off and row.identity is not Identity.NOT_OURS]
    beside = told_apart(connection, machine_id)
    every = {row.id: _candidate(row, beside.get(row.id, "")) for row in rows}
    return Candidates(
        tuple(every[row.id] for row in still_on),
        tuple(every[row.id] for row in here),
        tuple(every.values()),
        tuple(groups),
        frozenset(logged_off),
    )


def _candidate(row: Row[int, str, str, int | None, int, Identity, PlaceKind], beside: str) -> Candidate:
    return Candidate(row.id, row.code, row.name, row.subassembly_id, beside)


def _inside(groups: Sequence[SubassemblyRow], subassembly_id: int | None) -> set[int | None]:
    """A subassembly with all that hangs in it; the whole machine when none is named."""
    if subassembly_id is None:
        return {row.id for row in groups} | {None}
    found: set[int | None] = {subassembly_id}
    grown = True
    while grown:
        more = {row.id for row in groups if row.parent_id in found} - found
        found |= more
        grown = bool(more)
    return found


def _last_off(connection: Connection, machine_id: int, subassembly_id: int | None) -> int | None:
    return connection.execute(
        select(RemovalParts.part_id)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .where(Attempts.machine_id == machine_id, Attempts.subassembly_id.is_(subassembly_id))
        .order_by(Removals.id.desc(), RemovalParts.id.desc())
        .limit(1)
    ).scalar()


def lost_parts(connection: Connection, machine_id: int | None = None) -> set[int]:
    """Parts that the last removal of theirs calls lost or not there, of a machine or of all."""
    last = _last_said(connection, machine_id)
    return {part_id for part_id, (how, broke) in last.items() if is_lost(how, broke)}


def broken_parts(connection: Connection, machine_id: int | None = None) -> set[int]:
    """Parts that the last removal of theirs calls broken, and that are there."""
    last = _last_said(connection, machine_id)
    return {
        part_id
        for part_id, (how, broke) in last.items()
        if (how is RemovalWay.BROKEN or broke) and not is_lost(how, broke)
    }


def _last_said(connection: Connection, machine_id: int | None) -> dict[int, tuple[RemovalWay, str]]:
    """How the last removal of each part says it came off, and what broke."""
    asked = (
        select(RemovalParts.part_id, Removals.how, Removals.broke)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .order_by(Removals.id)
    )
    if machine_id is not None:
        asked = asked.where(Attempts.machine_id == machine_id)
    return {row.part_id: (RemovalWay(row.how), row.broke or "") for row in connection.execute(asked)}


def bench_places(connection: Connection) -> list[Named[int]]:
    """Every place by its kind and name, for what was said."""
    rows = connection.execute(select(Places.id, Places.kind, Places.name).order_by(Places.kind, Places.name))
    return [Named(row.id, "", place_words(row.kind, row.name)) for row in rows]


def machine_unit(connection: Connection, machine_id: int) -> str:
    """The unit of a machine's drawings."""
    return connection.execute(select(Machines.unit).where(Machines.id == machine_id)).scalar() or "mm"
