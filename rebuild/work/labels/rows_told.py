"""What a tag or a bag label tells besides its code: a left-hand thread, what lies in a place and of which machine."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.teardown import Attempts, Fasteners, RemovalParts, Removals
from rebuild.trade.boxes.clues import thread_of
from rebuild.words.teardown import RemovalWay

#: The tables the lookups here ask.
READS = frozenset({"attempt", "fastener", "feature", "machine", "part", "removal", "removal_part"})

LEFT_HAND = "left-hand thread"
#: Things named on a bag label; of more it says how many more. More names would be too small to read.
NAMED = 4


@dataclass(frozen=True, slots=True)
class Holds:
    """What a place holds in a line, and whose it is."""

    contents: str
    machines: str


def left_handed(connection: Connection, part_ids: Collection[int]) -> set[int]:
    """The parts with a left-hand thread: by a feature, a note, or how they or what held them came off."""
    wanted = list(part_ids)
    threads = connection.execute(
        select(Features.part_id, Features.thread).where(Features.part_id.in_(wanted), Features.thread != "")
    )
    found = {row.part_id for row in threads if (read := thread_of(row.thread)) is not None and read.left_hand}
    noted = connection.execute(select(Parts.id, Parts.handedness).where(Parts.id.in_(wanted))).all()
    found |= {row.id for row in noted if _says_left_thread(row.handedness)}
    held = select(RemovalParts.part_id).join(Fasteners, Fasteners.removal_id == RemovalParts.removal_id)
    found |= set(
        connection.execute(held.where(Fasteners.left_hand, RemovalParts.part_id.in_(wanted))).scalars()
    )
    off = select(RemovalParts.part_id).join(Removals, Removals.id == RemovalParts.removal_id)
    turned = off.where(Removals.how == RemovalWay.LEFT_HAND, RemovalParts.part_id.in_(wanted))
    return found | set(connection.execute(turned).scalars())


def _says_left_thread(handedness: str) -> bool:
    said = handedness.casefold()
    return "thread" in said and any(word in said for word in ("left", "lh", "l.h"))


def held_in(connection: Connection, place_ids: Collection[int]) -> dict[int, Holds]:
    """What lies in each place: parts by code and name, then what came off without being a part."""
    wanted = list(place_ids)
    things: dict[int, list[str]] = {}
    machines: dict[int, list[str]] = {}
    parts = (
        select(Parts.place_id, Parts.code, Parts.name, Machines.name.label("machine"))
        .join(Machines, Machines.id == Parts.machine_id)
        .where(Parts.place_id.in_(wanted))
        .order_by(Parts.code, Parts.id)
    )
    alone = (
        select(Removals.place_id, Removals.what.label("code"), Removals.broke.label("name"), Machines.name)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .join(Machines, Machines.id == Attempts.machine_id)
        .outerjoin(RemovalParts, RemovalParts.removal_id == Removals.id)
        .where(Removals.place_id.in_(wanted), RemovalParts.id.is_(None))
        .order_by(Removals.at, Removals.id)
    )
    for place_id, code, name, machine in [*connection.execute(parts), *connection.execute(alone)]:
        if place_id is not None:
            things.setdefault(place_id, []).append(" ".join(filter(None, (code, name))))
            machines.setdefault(place_id, []).append(machine)
    return {key: Holds(_few(named), ", ".join(dict.fromkeys(machines[key]))) for key, named in things.items()}


def _few(named: Sequence[str]) -> str:
    """The first few, and how many more: the last one is named rather than counted."""
    if len(named) <= NAMED + 1:
        return ", ".join(named)
    return f"{', '.join(named[:NAMED])} and {len(named) - NAMED} more"
