"""What a tag or bag label tells, and what a code read back means: which part or place, or why it is none of here."""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry, NotThere
from rebuild.model.tables.boxes import MergedParts
from rebuild.model.tables.journal import Acts, Changes
from rebuild.model.tables.machines import Machines, Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.trade.labels.code import BASE, MARK_LONG, Code, Tagged, in_digits, read_code
from rebuild.words.parts import Identity
from rebuild.words.places import place_words
from rebuild.work.labels.rows_told import LEFT_HAND, held_in, left_handed
from rebuild.work.labels.rows_with import with_parts, with_places
from rebuild.work.records.field import show_day
from rebuild.work.teardown.rows_candidates import broken_parts

#: The tables the lookups here ask.
READS = frozenset({
    "act", "attempt", "change", "fastener", "feature", "machine", "merged_part", "part", "place", "removal",
    "removal_part", "shim_leaf", "shim_pack", "subassembly",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Label:
    """One tag or bag label: ``big`` is read at arm's length, ``code`` is what the square holds.

    ``note`` is what must be known before a hand is laid on it: how many, a left-hand thread, that it is broken,
    where it lies, and the screws and shims that lie with it.
    """

    code: str
    big: str
    name: str
    machine: str
    of: str
    match_mark: str
    note: str


@dataclass(frozen=True, slots=True)
class Meant:
    """What a code stands for in this file."""

    sort: Tagged
    id: int
    called: str
    machine_id: int | None


def file_mark(connection: Connection) -> str:
    """Three characters that tell this file's tags from another's; copies of a file share them.

    Made of its first act, which no later one changes: printing a tag writes nothing.
    """
    first = connection.execute(select(Acts.id, Acts.kind, Acts.at).order_by(Acts.id).limit(1)).first()
    told = f"{first.id} {first.kind} {first.at.isoformat()}" if first is not None else ""
    number = int.from_bytes(hashlib.sha256(told.encode()).digest()[:8], "big")
    return in_digits(number % BASE**MARK_LONG, MARK_LONG)


def part_labels(connection: Connection, part_ids: Collection[int]) -> list[Label]:
    """Labels of parts, in the order of their codes."""
    mark = file_mark(connection)
    rows = connection.execute(
        select(
            Parts.id,
            Parts.code,
            Parts.name,
            Parts.quantity,
            Parts.identity,
            Parts.match_mark,
            Places.kind.label("place_kind"),
            Places.name.label("place"),
            Machines.name.label("machine"),
            Subassemblies.name.label("subassembly"),
        )
        .select_from(Parts)
        .join(Machines, Machines.id == Parts.machine_id)
        .outerjoin(Subassemblies, Subassemblies.id == Parts.subassembly_id)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.id.in_(list(part_ids)))
        .order_by(Parts.code, Parts.id)
    ).all()
    found, left = [], left_handed(connection, part_ids)
    held, broken = with_parts(connection, part_ids), broken_parts(connection)
    for row in rows:
        several = f"{row.quantity} off" if row.quantity != 1 else ""
        doubt = row.identity.value if row.identity is not Identity.CONFIRMED else ""
        hand = LEFT_HAND if row.id in left else ""
        broke = "broken" if row.id in broken else ""
        lies = place_words(row.place_kind, row.place) if row.place else ""
        found.append(
            Label(
                Code(Tagged.PART, mark, row.id).text(),
                row.code or row.name,
                row.name if row.code else "",
                row.machine,
                row.subassembly or "",
                row.match_mark,
                ", ".join(filter(None, (several, hand, broke, lies, doubt, *held.get(row.id, ())))),
            )
        )
    return found


def parts_of(connection: Connection, machine_id: int, subassembly_id: int | None = None) -> list[int]:
    """The parts of a subassembly, or of a whole machine, for their labels."""
    query = select(Parts.id).where(Parts.machine_id == machine_id).order_by(Parts.code, Parts.id)
    if subassembly_id is not None:
        query = query.where(Parts.subassembly_id == subassembly_id)
    return list(connection.execute(query).scalars())


def place_labels(connection: Connection, place_ids: Collection[int]) -> list[Label]:
    """Labels of bags, totes and shelves, by kind and name, with what lies in them now and whose it is."""
    mark, holds = file_mark(connection), held_in(connection, place_ids)
    beside = with_places(connection, place_ids)
    rows = connection.execute(
        select(Places.id, Places.kind, Places.name, Places.note)
        .where(Places.id.in_(list(place_ids)))
        .order_by(Places.kind, Places.name, Places.id)
    )
    found = []
    for row in rows:
        held, code = holds.get(row.id), Code(Tagged.PLACE, mark, row.id).text()
        contents, machines = (held.contents, held.machines) if held is not None else ("", "")
        found.append(
            Label(code, place_words(row.kind, row.name), contents or row.note, machines, "", "",
                  ", ".join(filter(None, (*beside.get(row.id, ()), row.note if contents else ""))))
        )  # fmt: skip
    return found


def code_meant(connection: Connection, text: str) -> Meant:
    """What a code read from a tag stands for now, whatever it is called since.

    Raises:
        BadEntry: no code of a tag, a wrong character, or a tag of another file.
        NotThere: what it stood on was removed; the sentence says when.
    """
    code = read_code(text)
    if code.mark != file_mark(connection):
        raise BadEntry(
            "is a tag of another file.",
            where="Code",
            value=code.text(),
            way_out="Open the file it was printed from, or print a new tag.",
        )
    if code.sort is Tagged.PART:
        query = select(Parts.code, Parts.name, Parts.machine_id).where(Parts.id == code.number)
        part = connection.execute(query).first()
        if part is not None:
            return Meant(code.sort, code.number, f"{part.code} {part.name}".strip(), part.machine_id)
        merged = _merged(connection, code)
        if merged is not None:
            return merged
    else:
        place = connection.execute(select(Places.kind, Places.name).where(Places.id == code.number)).first()
        if place is not None:
            return Meant(code.sort, code.number, place_words(place.kind, place.name), None)
    raise NotThere(
        f"Code: “{code.text()}” {_gone(connection, code)}",
        way_out="Undo that, or print a tag of what it is now.",
    )


def _merged(connection: Connection, code: Code) -> Meant | None:
    """The part a thing with this tag turned out to be."""
    row = connection.execute(
        select(MergedParts.part_id, MergedParts.was_code, Parts.code, Parts.name, Parts.machine_id)
        .join(Parts, Parts.id == MergedParts.part_id)
        .where(MergedParts.was_number == code.number)
        .order_by(MergedParts.id.desc())
    ).first()
    if row is None:
        return None
    was = f" (was {row.was_code})" if row.was_code else ""
    return Meant(code.sort, row.part_id, f"{row.code} {row.name}".strip() + was, row.machine_id)


def _gone(connection: Connection, code: Code) -> str:
    table = "part" if code.sort is Tagged.PART else "place"
    row = connection.execute(
        select(Acts.at, Acts.kind, Acts.subject)
        .join(Changes, Changes.act_id == Acts.id)
        .where(Changes.tbl == table, Changes.row_id == code.number, Changes.op == "d")
        .order_by(Acts.id.desc())
    ).first()
    if row is None:
        return f"names a {table} this file never had."
    at: dt.datetime = row.at
    return f"names a {table} that is gone since {show_day(at)} ({row.kind} {row.subject})."
