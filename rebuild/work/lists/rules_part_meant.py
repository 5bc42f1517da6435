"""Which part a row of a list means: by code or by name, in whichever of its columns it stands."""

from __future__ import annotations

from sqlalchemy import func, or_, select

from rebuild.errors import BadEntry, NotThere
from rebuild.model.records.parts import Part
from rebuild.store.tx import Tx


def part_meant(tx: Tx, machine_id: int, code: str, name: str) -> Part:
    """The one part of a machine a row says by its code, else by a name only one bears.

    A code said exactly wins. What stands under one heading may be the other: people head a column of codes "Part".

    Raises:
        BadEntry: neither is given.
        NotThere: no part is called so, or several are.
    """
    said = code or name
    if not said:
        raise BadEntry("is not given.", where="Part", way_out="Give its code or its name.")
    of_machine = select(Part).where(Part.machine_id == machine_id)
    wanted = (Part.code == code) if code else (func.lower(Part.name) == name.lower())
    found = tx.session.scalars(of_machine.where(wanted).limit(2)).all()
    if not found:
        low = said.lower()
        titled = func.lower(Part.code + " " + Part.name)
        other = or_(func.lower(Part.code) == low, func.lower(Part.name) == low, titled == low)
        found = tx.session.scalars(of_machine.where(other).limit(2)).all()
    if len(found) == 1:
        return found[0]
    what = "There is no part" if not found else "Several parts are called"
    raise NotThere(f"{what} “{said}” on this machine.", way_out="Give the code of a part that is there.")
