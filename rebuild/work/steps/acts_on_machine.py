"""Parts that go back on lie on the machine itself from then on; off again, nobody has said where."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import select

from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place
from rebuild.model.records.steps import Task
from rebuild.store.tx import Tx
from rebuild.words.places import PlaceKind
from rebuild.work.joints.rows_put_on import parts_put_on
from rebuild.work.places.acts_move import move


def stands_on_the_machine(tx: Tx, task: Task, at: dt.datetime) -> None:
    """Move the parts a refit step put on out of their bags and totes."""
    parts = parts_put_on(tx, task)
    if not parts:
        return
    place = machine_place(tx, task.machine_id)
    for key in parts:
        part = tx.session.get(Part, key)
        if part is not None and part.place_id != place.id:
            move(tx, part, place, at)


def leaves_the_machine(tx: Tx, task: Task, at: dt.datetime) -> None:
    """Parts a refit step had put on come off again: they no longer lie on the machine, and nobody said where."""
    for key in sorted(parts_put_on(tx, task)):
        part = tx.session.get(Part, key)
        place = (
            tx.session.get(Place, part.place_id) if part is not None and part.place_id is not None else None
        )
        if part is not None and place is not None and place.kind is PlaceKind.ON_THE_MACHINE:
            move(tx, part, None, at)


def machine_place(tx: Tx, machine_id: int) -> Place:
    """The place that stands for a machine: where parts of it already are, or one by its name, made if need be."""
    on_it = select(Place).where(Place.kind == PlaceKind.ON_THE_MACHINE)
    used = tx.session.scalars(
        on_it.join(Part, Part.place_id == Place.id).where(Part.machine_id == machine_id).order_by(Place.id)
    ).first()
    if used is not None:
        return used
    machine = tx.get(Machine, machine_id, "machine")
    named = tx.session.scalars(on_it.where(Place.name == machine.name)).first()
    if named is not None:
        return named
    made = Place(kind=PlaceKind.ON_THE_MACHINE, name=machine.name)
    tx.session.add(made)
    tx.session.flush()
    return made
