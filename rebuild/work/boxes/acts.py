"""Unknown things: noted with the box they came in, their clues, whose they are, and that they are nobody's here."""

from __future__ import annotations

import datetime as dt
import re

from sqlalchemy import func, select

from rebuild.errors import BadEntry
from rebuild.model.records.boxes import BoxThing, Clue, MergedPart
from rebuild.model.records.machines import Machine
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.boxes.clues import ReadClue, read_clue
from rebuild.words.parts import Identity, Origin
from rebuild.work.boxes.acts_machine import follow_machine
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now

#: Codes of unknown things, numbered through on each machine.
CODE = "X-{:02}"
#: What a thing came in, said among its clues.
_BOX = re.compile(r">\s*\S.*|(?:box|bag|tray|tote|crate|tin|bin|drawer|jar|bucket)\s+[\w-]+", re.IGNORECASE)
_CODED = re.compile(r"X-(\d+)", re.IGNORECASE)


def add_thing(store: Store, machine_id: int, name: str, came_in: str = "", clues: str = "") -> int:
    """A thing nobody knows, among the loose parts of a machine, with clues parted by semicolons; returns its part.

    What follows a semicolon in its name is a clue, too, and ``box 3`` or ``> bag 5`` among them what it came in.

    Raises:
        BadEntry, Ambiguous: the name or a clue cannot be read; nothing is stored.
    """
    name, came_in, said = _said(name, came_in, clues)
    columns = read_typed("part", {"name": name})
    read = [_read(store, one) for one in said]
    with store.act(Act.BOX, "") as tx:
        tx.get(Machine, machine_id, "machine")
        part = Part(
            machine_id=machine_id,
            code=_free_code(tx, machine_id),
            identity=Identity.UNKNOWN,
            origin=Origin.UNKNOWN,
            position=_last(tx, machine_id) + 1,
        )
        set_columns(part, columns)
        tx.session.add(part)
        tx.session.flush()
        tx.session.add(BoxThing(part_id=part.id, came_in=came_in.strip()))
        tx.session.add_all(_clue(part.id, one) for one in read)
        tx.subject = title(part)
        return part.id


def _said(name: str, came_in: str, clues: str) -> tuple[str, str, list[str]]:
    """Name, box and clues out of one line, as it is said at the bench.

    >>> _said("Ring; box 3; bore 46.98", "", "")
    ('Ring', 'box 3', ['bore 46.98'])
    >>> _said("thrust collar, brass, > bag 5, bore 19.99; stamped 418", "", "M10")
    ('thrust collar, brass', 'bag 5', ['bore 19.99', 'stamped 418', 'M10'])
    """
    first, *rest = name.split(";")
    pieces = first.split(",")
    at = next((at for at, piece in enumerate(pieces) if piece.strip().startswith(">")), len(pieces))
    said = [one.strip() for one in (*pieces[at:], *rest, *clues.split(";")) if one.strip()]
    boxes = [one for one in said if _BOX.fullmatch(one)] if not came_in.strip() else []
    box = boxes[0].lstrip("> ") if boxes else came_in.strip()
    return ",".join(pieces[:at]).strip(), box, [one for one in said if one not in boxes[:1]]


def add_clue(store: Store, part_id: int, typed: str) -> int:
    """One thing seen on an unknown thing; returns the clue's id. Raises BadEntry, Ambiguous."""
    read = _read(store, typed)
    with store.act(Act.ADD_CLUE, "") as tx:
        part = tx.get(Part, part_id, "part")
        row = _clue(part_id, read)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"{typed.strip()} of {title(part)}"
        return row.id


def suspect(store: Store, part_id: int, suspect_id: int) -> None:
    """Say that an unknown thing is thought to be a part. Raises NotThere."""
    with store.act(Act.BOX, "") as tx:
        part, other = tx.get(Part, part_id, "part"), tx.get(Part, suspect_id, "part")
        part.identity, part.suspects = Identity.SUSPECTED, title(other)
        tx.subject = f"{title(part)} may be {title(other)}"


def of_machine(store: Store, part_id: int, machine_id: int) -> None:
    """Say which machine of the shop an unknown thing is of.

    Raises:
        BadEntry: it has steps, joints or the like on the machine it stands at now.
    """
    with store.act(Act.BOX, "") as tx:
        part, machine = tx.get(Part, part_id, "part"), tx.get(Machine, machine_id, "machine")
        if part.machine_id != machine_id:
            follow_machine(tx, part, machine_id)
            if part.code and _is_taken(tx, machine_id, part.code, part.id):
                part.code = _free_code(tx, machine_id, but=part.id)
            part.position = _last(tx, machine_id) + 1
        tx.subject = f"{title(part)} of {machine.name}"


def not_ours(store: Store, part_id: int, went_to: str, at: dt.datetime | None = None) -> None:
    """Say that a thing belongs to no machine here, and where it went. Raises BadEntry."""
    columns = read_typed("box_thing", {"went_to": went_to})
    with store.act(Act.NOT_OURS, "") as tx:
        part = tx.get(Part, part_id, "part")
        thing = box_of(tx, part_id)
        set_columns(thing, columns)
        thing.went_at = (at or now()) if thing.went_to else None
        part.identity = Identity.NOT_OURS
        tx.subject = " ".join(filter(None, (title(part), thing.went_to and f"went to {thing.went_to}")))


def box_of(tx: Tx, part_id: int) -> BoxThing:
    """What is noted of a thing from a box, made if need be."""
    found = tx.session.scalars(
        select(BoxThing).where(BoxThing.part_id == part_id).order_by(BoxThing.id)
    ).first()
    if found is None:
        found = BoxThing(part_id=part_id)
        tx.session.add(found)
    return found


def _read(store: Store, typed: str) -> ReadClue:
    return read_clue(typed, decimal_comma=decimal_comma(store))


def _clue(part_id: int, read: ReadClue) -> Clue:
    size = read.size
    return Clue(
        part_id=part_id,
        kind=read.kind,
        text=read.text,
        size_text=size.text if size else None,
        size_unit=size.unit if size else None,
        size_mm=size.mm if size else None,
    )


def _free_code(tx: Tx, machine_id: int, but: int | None = None) -> str:
    """The next number of unknown things on a machine: never one that a bag or a notebook bears already."""
    asked = select(Part.code).where(Part.machine_id == machine_id, Part.id.is_not(but))
    settled = (
        select(MergedPart.was_code)
        .join(Part, Part.id == MergedPart.part_id)
        .where(Part.machine_id == machine_id)
    )
    codes = [*tx.session.scalars(asked), *tx.session.scalars(settled)]
    numbers = [int(found[1]) for code in codes if (found := _CODED.fullmatch(code))]
    return CODE.format(max(numbers, default=0) + 1)


def _is_taken(tx: Tx, machine_id: int, code: str, but: int) -> bool:
    with tx.session.no_autoflush:
        asked = select(Part.id).where(Part.machine_id == machine_id, Part.code == code, Part.id != but)
        return tx.session.scalar(asked.limit(1)) is not None


def _last(tx: Tx, machine_id: int) -> int:
    asked = select(func.max(Part.position)).where(
        Part.machine_id == machine_id, Part.subassembly_id.is_(None)
    )
    with tx.session.no_autoflush:
        last = tx.session.scalar(asked)
    return -1 if last is None else last


def refuse_itself(part_id: int, into_id: int) -> None:
    """Raise BadEntry when a thing is to be merged into itself."""
    if part_id == into_id:
        raise BadEntry("is the thing itself.", where="It is", way_out="Choose the part it turned out to be.")
