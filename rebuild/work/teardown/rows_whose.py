"""Whose log a removal belongs into, and what is known of its parts before it is stored."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.words.places import PlaceKind, place_words
from rebuild.work.teardown.rows_candidates import Candidates, candidates

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "machine", "part", "place", "refit_step", "removal", "removal_part", "subassembly", "task",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Whose:
    """The subassembly whose log a line goes into; ``called`` only when it is not the one in hand.

    ``off_already`` says of each part that is off where it lies.
    """

    subassembly_id: int | None
    called: str
    off_already: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Logged:
    """A removal as it stands in its log."""

    subassembly_id: int | None
    log_of: str
    attempt_id: int
    number: int


def subassembly_title(connection: Connection, subassembly_id: int | None) -> str:
    """Code and name of a subassembly; empty for the machine as a whole."""
    row = connection.execute(
        select(Subassemblies.code, Subassemblies.name).where(Subassemblies.id == subassembly_id)
    ).first()
    return f"{row.code} {row.name}".strip() if row is not None else ""


def whose(
    connection: Connection,
    machine_id: int,
    subassembly_id: int | None,
    part_ids: Collection[int],
    *,
    said_of: int | None = None,
    makes: bool = False,
    among: Candidates | None = None,
) -> Whose:
    """The log a line goes into: of the subassembly it says, else of that its parts are of, else of that in hand.

    Parts of several subassemblies that came off as one stay in the log in hand; so do loose ones, and those with
    which a new one is made. ``among`` is what could come off of the log in hand, where the caller has read it.
    """
    hand = said_of if said_of is not None else subassembly_id
    among = among or candidates(connection, machine_id, hand)
    near = {one.part_id for one in among.near}
    theirs = {one.subassembly_id for one in among.every if one.part_id in part_ids}
    away = not makes and not near.intersection(part_ids) and len(theirs) == 1
    own = next(iter(theirs)) if away and None not in theirs else hand
    called = subassembly_title(connection, own) if own != subassembly_id else ""
    gone = among.off.intersection(part_ids)
    lies = _lie(connection, gone) if gone else {}
    return Whose(own, called, tuple(lies[key] for key in part_ids if key in lies))


def _lie(connection: Connection, part_ids: Collection[int]) -> dict[int, str]:
    """Of each part that is off: in whose log its last removal stands, and where it lies."""
    rows = connection.execute(
        select(
            RemovalParts.part_id,
            Removals.position,
            Attempts.subassembly_id,
            Places.kind,
            Places.name,
        )
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .join(Parts, Parts.id == RemovalParts.part_id)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(RemovalParts.part_id.in_(list(part_ids)))
        .order_by(Removals.id)
    ).all()
    found = {}
    for row in rows:
        of = subassembly_title(connection, row.subassembly_id) or "the machine as a whole"
        away = row.name and row.kind is not PlaceKind.ON_THE_MACHINE
        lies = f", in {place_words(row.kind, row.name)}" if away else ""
        found[row.part_id] = f"is off already: no. {row.position + 1} of {of}{lies}"
    return found


def logged(connection: Connection, removal_id: int) -> Logged:
    """In whose log a removal stands, and as which number of it."""
    row = connection.execute(
        select(Attempts.subassembly_id, Removals.attempt_id, Removals.position, Machines.name)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .join(Machines, Machines.id == Attempts.machine_id)
        .where(Removals.id == removal_id)
    ).one()
    before = connection.execute(
        select(func.count()).where(
            Removals.attempt_id == row.attempt_id,
            (Removals.position < row.position)
            | ((Removals.position == row.position) & (Removals.id <= removal_id)),
        )
    ).scalar_one()
    log_of = subassembly_title(connection, row.subassembly_id) or row.name
    return Logged(row.subassembly_id, log_of, row.attempt_id, before)
