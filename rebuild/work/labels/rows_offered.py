"""What labels are offered to be printed of: chosen parts, what lies in a place, what is off; bags and trays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.machines import Subassemblies
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.words.places import PlaceKind, place_words
from rebuild.work.labels.rows import Label, part_labels, parts_of, place_labels
from rebuild.work.places.rows import places
from rebuild.work.places.rows_off import off_parts

#: The tables the lookups here ask.
READS = frozenset({
    "attempt", "means", "part", "place", "refit_step", "removal", "removal_part", "stay",
    "stock_item", "subassembly", "task", "waiting",
})  # fmt: skip


@dataclass(frozen=True, slots=True)
class Offer:
    """What can be printed of: in words, the parts or places by id, and the sentence when there are none."""

    words: str
    ids: tuple[int, ...]
    none: str
    places: bool = False

    def labels(self, connection: Connection) -> list[Label]:
        """Their labels."""
        return place_labels(connection, self.ids) if self.places else part_labels(connection, self.ids)


def of_parts(
    connection: Connection,
    machine_id: int,
    subassembly_id: int | None,
    part_ids: Sequence[int] = (),
    place_id: int | None = None,
) -> tuple[Offer, ...]:
    """What is chosen comes first; what is off the machine wants a tag soonest and is offered by itself.

    What lies in a place is offered of the chosen place, whosever it is, and of each place with parts of the machine.
    A chosen place comes before a single part, which may only happen to be chosen.
    """
    found = []
    if part_ids:
        words = "the chosen part" if len(part_ids) == 1 else "the chosen parts"
        found.append(Offer(words, tuple(part_ids), ""))
    if place_id is not None:
        found.insert(0 if len(part_ids) < 2 else 1, _lying_in(connection, place_id))
    if subassembly_id is not None:
        named = select(Subassemblies.code, Subassemblies.name).where(Subassemblies.id == subassembly_id)
        row = connection.execute(named).first()
        called = f"{row.code} {row.name}".strip() if row is not None else ""
        found.append(
            Offer(
                f"every part of {called}",
                tuple(parts_of(connection, machine_id, subassembly_id)),
                f"{called} has no part yet.",
            )
        )
    every = parts_of(connection, machine_id)
    off = off_parts(connection, machine_id)
    gone = tuple(key for key in every if key in off)
    if gone:
        found.append(Offer("what is off the machine now", gone, ""))
    found.append(Offer("every part of the machine", tuple(every), "This machine has no part yet."))
    used = (
        select(Parts.place_id).where(Parts.machine_id == machine_id, Parts.place_id.is_not(None)).distinct()
    )
    listed = connection.execute(
        select(Places.id).where(Places.id.in_(used)).order_by(Places.kind, Places.name, Places.id)
    )
    found += [_lying_in(connection, key) for key in listed.scalars() if key != place_id]
    return tuple(found)


def _lying_in(connection: Connection, place_id: int) -> Offer:
    """The parts that lie in one place now."""
    place = connection.execute(select(Places.kind, Places.name).where(Places.id == place_id)).first()
    called = place_words(place.kind, place.name) if place is not None else "the place"
    inside = select(Parts.id).where(Parts.place_id == place_id).order_by(Parts.code, Parts.id)
    ids = tuple(connection.execute(inside).scalars())
    return Offer(f"what lies in {called}", ids, f"No part lies in {called}.")


def of_places(connection: Connection, place_ids: Sequence[int] = ()) -> tuple[Offer, ...]:
    """Places when they are named; bags, and every place."""
    none = "There is no place yet: “> bag 7” in the removal line makes one."
    found = []
    if place_ids:
        words = "the chosen place" if len(place_ids) == 1 else "the chosen places"
        found.append(Offer(words, tuple(place_ids), "", places=True))
    listed = tuple(row.id for row in places(connection))
    bags = select(Places.id).where(Places.kind == PlaceKind.BAG).order_by(Places.name, Places.id)
    only = tuple(connection.execute(bags).scalars())
    if only and len(only) != len(listed):
        found.append(Offer("every bag", only, none, places=True))
    found.append(Offer("every bag, tray and shelf", listed, none, places=True))
    return tuple(found)
