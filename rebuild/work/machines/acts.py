"""Name what is there: machines, subassemblies, parts, places, matched sets."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.machines import Machine, Subassembly
from rebuild.model.records.parts import MatchedSet, Part
from rebuild.model.records.places import Place
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.words.places import PlaceKind, place_words
from rebuild.work.gates.acts_checks import put_checks
from rebuild.work.machines import rules
from rebuild.work.places.acts_follow import lies_where_typed
from rebuild.work.places.acts_move import move
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_other_machine, refuse_taken_code
from rebuild.work.records.wall_clock import now


def add_machine(
    store: Store,
    name: str,
    typed: Mapping[str, str] | None = None,
    *,
    subassemblies: Sequence[tuple[str, str]] = (),
) -> int:
    """A new machine with the list of checks of its kind; returns its id. ``typed`` holds further fields as text.

    ``subassemblies``, each by code and name, are made with it. Raises BadEntry: a field cannot be read.
    """
    columns = read_typed("machine", {"name": name, **(typed or {})})
    with store.act(Act.ADD_MACHINE, str(columns["name"])) as tx:
        count = tx.session.scalar(select(func.count()).select_from(Machine)) or 0
        machine = Machine(position=count)
        set_columns(machine, columns)
        tx.session.add(machine)
        tx.session.flush()
        put_checks(tx, machine)
        for place, (code, called) in enumerate(subassemblies):
            row = Subassembly(machine_id=machine.id, position=place)
            set_columns(row, read_typed("subassembly", {"name": called, "code": code}))
            tx.session.add(row)
        tx.session.flush()
        return machine.id


def add_subassembly(
    store: Store,
    machine_id: int,
    name: str,
    code: str = "",
    *,
    parent_id: int | None = None,
    typed: Mapping[str, str] | None = None,
) -> int:
    """A new subassembly, last under its parent; returns its id. Raises BadEntry, NotThere."""
    columns = read_typed("subassembly", {"name": name, "code": code, **(typed or {})})
    with store.act(Act.ADD_SUBASSEMBLY, f"{columns['code']} {columns['name']}".strip()) as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=parent_id)
        last = tx.session.scalar(
            select(func.max(Subassembly.position)).where(
                Subassembly.machine_id == machine_id, Subassembly.parent_id.is_(parent_id)
            )
        )
        row = Subassembly(machine_id=machine_id, parent_id=parent_id, position=_next(last))
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        return row.id


def add_part(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    name: str,
    code: str = "",
    *,
    typed: Mapping[str, str] | None = None,
) -> int:
    """A new part, last in its subassembly (None: the box of loose parts); returns its id.

    Raises:
        BadEntry: a field cannot be read, or the code is taken on this machine.
    """
    columns = read_typed("part", {"name": name, "code": code, **(typed or {})}, comma=decimal_comma(store))
    with store.act(Act.ADD_PART, f"{columns['code']} {columns['name']}".strip()) as tx:
        tx.get(Machine, machine_id, "machine")
        refuse_other_machine(tx, machine_id, subassembly=subassembly_id)
        refuse_taken_code(tx, machine_id, str(columns["code"]))
        last = tx.session.scalar(
            select(func.max(Part.position)).where(
                Part.machine_id == machine_id, Part.subassembly_id.is_(subassembly_id)
            )
        )
        part = Part(machine_id=machine_id, subassembly_id=subassembly_id, position=_next(last))
        set_columns(part, columns)
        rules.part(tx, part, {}, typed or {})
        tx.session.add(part)
        tx.session.flush()
        lies_where_typed(tx, part)
        return part.id


def move_parts(
    store: Store, part_ids: Sequence[int], subassembly_id: int | None, at: int | None = None
) -> None:
    """Move parts into a subassembly (None: loose parts) of their machine, at an index or last.

    Raises:
        BadEntry: the subassembly belongs to another machine.
    """
    if not part_ids:
        return
    with store.act(Act.MOVE, "") as tx:
        moving = [tx.get(Part, key, "part") for key in dict.fromkeys(part_ids)]
        target = tx.get(Subassembly, subassembly_id, "subassembly") if subassembly_id is not None else None
        for part in moving:
            refuse_other_machine(tx, moving[0].machine_id, subassembly=subassembly_id, part=part.id)
        staying = [
            part
            for part in tx.session.scalars(
                select(Part)
                .where(Part.machine_id == moving[0].machine_id, Part.subassembly_id.is_(subassembly_id))
                .order_by(Part.position, Part.id)
            )
            if part.id not in set(part_ids)
        ]
        index = len(staying) if at is None else max(0, min(at, len(staying)))
        for position, part in enumerate(staying[:index] + moving + staying[index:]):
            if part.subassembly_id != subassembly_id:
                part.subassembly_id = subassembly_id
            if part.position != position:
                part.position = position
        where = title(target) if target is not None else "the loose parts"
        tx.subject = f"of {title(moving[0])}{_more(part_ids)} to {where}"


def move_subassembly(store: Store, subassembly_id: int, parent_id: int | None, at: int | None = None) -> None:
    """Move a subassembly under another (None: the machine itself), at an index or last.

    Raises:
        BadEntry: it would come to lie inside itself, or in another machine.
    """
    with store.act(Act.MOVE, "") as tx:
        row = tx.get(Subassembly, subassembly_id, "subassembly")
        _refuse_inside_itself(tx, row, parent_id)
        siblings = [
            other
            for other in tx.session.scalars(
                select(Subassembly)
                .where(Subassembly.machine_id == row.machine_id, Subassembly.parent_id.is_(parent_id))
                .order_by(Subassembly.position, Subassembly.id)
            )
            if other.id != row.id
        ]
        index = len(siblings) if at is None else max(0, min(at, len(siblings)))
        row.parent_id = parent_id
        for position, other in enumerate([*siblings[:index], row, *siblings[index:]]):
            other.position = position
        tx.subject = f"of {title(row)}"


def _refuse_inside_itself(tx: Tx, row: Subassembly, parent_id: int | None) -> None:
    above = parent_id
    while above is not None:
        parent = tx.get(Subassembly, above, "subassembly")
        if parent.id == row.id or parent.machine_id != row.machine_id:
            what = "would lie inside itself." if parent.id == row.id else "belongs to another machine."
            raise BadEntry(what, where="Subassembly", value=row.name, way_out="Choose another place for it.")
        above = parent.parent_id


def add_place(
    store: Store,
    name: str,
    kind: PlaceKind = PlaceKind.OTHER,
    note: str = "",
    *,
    since: dt.datetime | None = None,
) -> int:
    """A new place parts can lie in, in use since now unless given; returns its id. Raises BadEntry."""
    columns = read_typed("place", {"name": name, "note": note})
    with store.act(Act.ADD_PLACE, place_words(kind, str(columns["name"]))) as tx:
        place = Place(kind=kind, since=since or now())
        set_columns(place, columns)
        tx.session.add(place)
        tx.session.flush()
        return place.id


def put(
    store: Store, part_ids: Sequence[int], place_id: int | None, *, at: dt.datetime | None = None
) -> None:
    """Say where parts lie (None: not known), ``at`` now unless given. Raises NotThere."""
    if not part_ids:
        return
    with store.act(Act.PUT, "") as tx:
        place = tx.get(Place, place_id, "place") if place_id is not None else None
        parts = [tx.get(Part, key, "part") for key in dict.fromkeys(part_ids)]
        for part in parts:
            move(tx, part, place, at or now())
        where = f"in {place_words(place.kind, place.name)}" if place is not None else "nowhere known"
        tx.subject = f"{title(parts[0])}{_more(part_ids)} {where}"


def add_matched_set(
    store: Store, machine_id: int, name: str, part_ids: Sequence[int] = (), note: str = ""
) -> int:
    """A set of parts that must stay together; returns its id. Raises BadEntry."""
    columns = read_typed("matched_set", {"name": name, "note": note})
    with store.act(Act.ADD_SET, str(columns["name"])) as tx:
        tx.get(Machine, machine_id, "machine")
        row = MatchedSet(machine_id=machine_id)
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        for key in part_ids:
            refuse_other_machine(tx, machine_id, part=key)
            tx.get(Part, key, "part").matched_set_id = row.id
        return row.id


def _next(last: int | None) -> int:
    return 0 if last is None else last + 1


def _more(ids: Sequence[int]) -> str:
    return f" and {len(ids) - 1} more" if len(ids) > 1 else ""
