"""Which parts are off the machine now, and where one that is off was put."""

from __future__ import annotations

from sqlalchemy import Connection, exists, select

from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.model.tables.refit import RefitSteps
from rebuild.model.tables.steps import Tasks
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.words.places import place_words
from rebuild.words.steps import TaskState

#: The tables the lookups here ask.
READS = frozenset({"attempt", "part", "place", "refit_step", "removal", "removal_part", "task"})


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


def off_nowhere(connection: Connection, machine_id: int) -> set[int]:
    """Parts off the machine of which nobody noted where they lie."""
    off = off_parts(connection, machine_id)
    rows = connection.execute(select(Parts.id).where(Parts.id.in_(off), Parts.place_id.is_(None)))
    return {row.id for row in rows}


def where_off(connection: Connection, part_id: int) -> str:
    """``TB-06 collar left is off, in bag 3``: a part that is off and where it lies, in words."""
    row = connection.execute(
        select(Parts.code, Parts.name, Places.kind, Places.name.label("place"))
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.id == part_id)
    ).one()
    lies = (
        f"in {place_words(row.kind, row.place)}" if row.kind is not None else "and nobody noted where it lies"
    )
    return f"{row.code} {row.name}".strip() + f" is off, {lies}"


def refit_of(connection: Connection, part_id: int) -> tuple[int, str] | None:
    """The open refit step that puts a part on again, id and title; None where none is drafted."""
    row = connection.execute(
        select(Tasks.id, Tasks.title)
        .join(RefitSteps, RefitSteps.task_id == Tasks.id)
        .join(RemovalParts, RemovalParts.removal_id == RefitSteps.removal_id)
        .where(RemovalParts.part_id == part_id, Tasks.state != TaskState.DONE)
        .order_by(Tasks.id.desc())
    ).first()
    return (row.id, row.title) if row is not None else None
