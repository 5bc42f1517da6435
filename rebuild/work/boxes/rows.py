"""Unknown things of the whole shop, and their clues, as rows."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, or_, select

from rebuild.model.tables.boxes import BoxThings, Clues
from rebuild.model.tables.machines import Machines
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_typed
from rebuild.words.boxes import ClueKind
from rebuild.words.parts import Identity
from rebuild.words.places import place_words

#: The tables the lookups here ask.
READS = frozenset({"box_thing", "clue", "machine", "part", "place"})


@dataclass(frozen=True, slots=True)
class ClueRow:
    """One clue: its kind, its words, its size as typed and [mm]."""

    id: int
    kind: ClueKind
    text: str
    size: str
    mm: float | None

    @property
    def words(self) -> str:
        """The clue in a line."""
        said = " ".join(filter(None, (self.text, self.size)))
        return said if self.kind is ClueKind.SIZE else f"{self.kind.value} {said}"


@dataclass(frozen=True, slots=True)
class ThingRow:
    """One unknown thing: its part, the machine it stands at, its box, what it may be, where it lies or went."""

    part_id: int
    called: str
    machine_id: int
    machine: str
    identity: Identity
    suspects: str
    came_in: str
    place: str
    went_to: str
    went_at: dt.datetime | None
    clues: tuple[ClueRow, ...]


def things(connection: Connection) -> list[ThingRow]:
    """What is not known, is suspected or is not ours, of every machine, what is open first."""
    found = clues(connection)
    rows = connection.execute(
        select(
            Parts.id,
            Parts.code,
            Parts.name,
            Parts.machine_id,
            Machines.name.label("machine"),
            Parts.identity,
            Parts.suspects,
            Places.kind,
            Places.name.label("place"),
            BoxThings.came_in,
            BoxThings.went_to,
            BoxThings.went_at,
        )
        .select_from(Parts)
        .join(Machines, Machines.id == Parts.machine_id)
        .outerjoin(Places, Places.id == Parts.place_id)
        .outerjoin(BoxThings, BoxThings.part_id == Parts.id)
        .where(or_(Parts.identity != Identity.CONFIRMED))
        .order_by(Parts.identity == Identity.NOT_OURS, Parts.machine_id, Parts.code, Parts.id, BoxThings.id)
    )
    once: dict[int, ThingRow] = {}
    for row in rows:
        place = place_words(row.kind, row.place) if row.place else ""
        thing = ThingRow(
            row.id,
            f"{row.code} {row.name}".strip(),
            row.machine_id,
            row.machine,
            row.identity,
            row.suspects,
            row.came_in or "",
            place,
            row.went_to or "",
            row.went_at,
            tuple(found.get(row.id, ())),
        )
        once.setdefault(row.id, thing)
    return list(once.values())


def clues(connection: Connection) -> dict[int, list[ClueRow]]:
    """The clues of every thing, oldest first."""
    found: dict[int, list[ClueRow]] = {}
    for row in connection.execute(select(*Clues.columns()).order_by(Clues.id)):
        size = ""
        if row.size_mm is not None:
            size = show_typed(
                Size(row.size_text or "", row.size_unit or "mm", row.size_mm), row.size_unit or "mm"
            )
        found.setdefault(row.part_id, []).append(ClueRow(row.id, row.kind, row.text, size, row.size_mm))
    return found
