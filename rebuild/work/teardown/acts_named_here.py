"""What a line of the log names for the first time: parts and a place, made inside the act that logs it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from sqlalchemy import func, select

from rebuild.model.records.machines import Subassembly
from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place
from rebuild.store.store import Tx
from rebuild.work.machines.rows_parts import codes, next_code
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.teardown.off import NewPlace


def make_parts(tx: Tx, machine_id: int, subassembly_id: int | None, names: Sequence[str]) -> list[Part]:
    """New parts, last in the subassembly in hand, with codes as the form of a new part gives them. Raises BadEntry."""
    last = tx.session.scalar(
        select(func.max(Part.position)).where(
            Part.machine_id == machine_id, Part.subassembly_id.is_(subassembly_id)
        )
    )
    made: list[Part] = []
    for place, name in enumerate(names, start=0 if last is None else last + 1):
        part = Part(machine_id=machine_id, subassembly_id=subassembly_id, position=place)
        set_columns(part, read_typed("part", {"name": name}))
        part.code = _code_of_its_own(tx, part)
        tx.session.add(part)
        tx.session.flush()
        made.append(part)
    return made


def make_alike(tx: Tx, part: Part, subassembly_id: int | None) -> Part:
    """Another one like a part that is off already: a part of its own, last in the subassembly in hand.

    It has a name that no other part of that subassembly has.
    Of several listed as one row, it is one of them.
    """
    here = tx.session.scalars(
        select(Part).where(Part.machine_id == part.machine_id, Part.subassembly_id.is_(subassembly_id))
    ).all()
    taken = {one.name.casefold() for one in here}
    names = (part.name, *(f"{part.name} {number}" for number in range(2, len(taken) + 3)))
    made = make_parts(
        tx, part.machine_id, subassembly_id, [next(one for one in names if one.casefold() not in taken)]
    )[0]
    made.material, made.maker_number, made.handedness = part.material, part.maker_number, part.handedness
    made.origin = part.origin
    if part.quantity > 1 and part.subassembly_id == subassembly_id:
        part.quantity -= 1
    tx.session.flush()
    return made


def _code_of_its_own(tx: Tx, part: Part) -> str:
    """The next one of its subassembly: two parts of one name are told apart by it, on paper and on a bag."""
    group = tx.session.get(Subassembly, part.subassembly_id) if part.subassembly_id is not None else None
    return next_code(group.code, codes(tx.connection, part.machine_id)) if group is not None else ""


def make_place(tx: Tx, new: NewPlace, at: dt.datetime) -> Place:
    """A new place, in use from now. Raises BadEntry."""
    place = Place(kind=new.kind, since=at)
    set_columns(place, read_typed("place", {"name": new.name}))
    tx.session.add(place)
    tx.session.flush()
    return place
