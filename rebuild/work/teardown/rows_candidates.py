"""What could come off next, what is off now, and the names a spoken line may use."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, exists, select

from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.trade.teardown.at_odds import is_lost
from rebuild.trade.teardown.meant import Named
from rebuild.words.places import PlaceKind, place_words
from rebuild.words.steps import TaskState
from rebuild.words.teardown import RemovalWay
from rebuild.work.machines.rows_tree import SubassemblyRow, order_of_subassemblies, subassemblies

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "machine", "part", "place", "refit_step", "removal", "removal_part", "subassembly", "task",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Candidate:
    """A part that is still on and could come off."""

    part_id: int
    code: str
    name: str


@dataclass(frozen=True, slots=True)
class Candidates:
    """``still_on`` begins with the next in the tree; ``near`` are all of this subassembly, ``every`` of the machine."""

    still_on: tuple[Candidate, ...]
    near: tuple[Candidate, ...]
    every: tuple[Candidate, ...]


def candidates(connection: Connection, machine_id: int, subassembly_id: int | None) -> Candidates:
    """Parts that could come off next: the first of ``still_on`` follows the last one logged, in tree order.

    A part that lies in a bag or at a shop is not on, whether its removal was logged or not.
    """
    groups = subassemblies(connection, machine_id)
    order = {key: place for place, key in enumerate(order_of_subassemblies(groups))}
    inside = _inside(groups, subassembly_id)
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.subassembly_id, Parts.position, Places.kind)
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id)
    ).all()
    rows = sorted(rows, key=lambda row: (order.get(row.subassembly_id, 10_000), row.position, row.id))
    elsewhere = {row.id for row in rows if row.kind not in (None, PlaceKind.ON_THE_MACHINE)}
    off = off_parts(connection, machine_id) | elsewhere
    here = [row for row in rows if row.subassembly_id in inside]
    last = _last_off(connection, machine_id, subassembly_id)
    places = [place for place, row in enumerate(here) if row.id == last]
    turned = here[places[0] + 1 :] + here[: places[0] + 1] if places else here
    still_on = tuple(Candidate(row.id, row.code, row.name) for row in turned if row.id not in off)
    near = tuple(Candidate(row.id, row.code, row.name) for row in here)
    every = tuple(Candidate(row.id, row.code, row.name) for row in rows)
    return Candidates(still_on, near, every)


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


def off_parts(connection: Connection, machine_id: int) -> set[int]:
    """Parts off the machine now: logged off in the newest attempt of their log, and not refitted since."""
    done = exists().where(
        RefitSteps.removal_id == Removals.id, RefitSteps.task_id == Tasks.id, Tasks.state == TaskState.DONE
    )
    rows = connection.execute(
        select(RemovalParts.part_id, Attempts.subassembly_id, Attempts.number, done.label("on"))
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .where(Attempts.machine_id == machine_id)
        .order_by(Removals.id)
    ).all()
    newest: dict[int | None, int] = {}
    for row in rows:
        newest[row.subassembly_id] = max(newest.get(row.subassembly_id, 0), row.number)
    return {row.part_id for row in rows if row.number == newest[row.subassembly_id] and not row.on}


def lost_parts(connection: Connection, machine_id: int | None = None) -> set[int]:
    """Parts that the last removal of theirs calls lost or not there, of a machine or of all."""
    asked = (
        select(RemovalParts.part_id, Removals.how, Removals.broke)
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .order_by(Removals.id)
    )
    if machine_id is not None:
        asked = asked.where(Attempts.machine_id == machine_id)
    last = {row.part_id: is_lost(RemovalWay(row.how), row.broke or "") for row in connection.execute(asked)}
    return {part_id for part_id, lost in last.items() if lost}


def bench_places(connection: Connection) -> list[Named[int]]:
    """Every place by its kind and name, for what was said."""
    rows = connection.execute(select(Places.id, Places.kind, Places.name).order_by(Places.kind, Places.name))
    return [Named(row.id, "", place_words(row.kind, row.name)) for row in rows]


def machine_unit(connection: Connection, machine_id: int) -> str:
    """The unit of a machine's drawings."""
    return connection.execute(select(Machines.unit).where(Machines.id == machine_id)).scalar() or "mm"
