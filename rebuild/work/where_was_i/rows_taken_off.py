"""The parts that came off and are not back on, with where they lie: what a machine in one piece would still want."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.words.decisions import Decision
from rebuild.words.places import PlaceKind, lies_words
from rebuild.work.power import rows_off
from rebuild.work.power.rows_off import on_and_off

#: The tables the lookups here ask.
READS = rows_off.READS | {"part", "place"}
#: Said under a heading of their own.
_ELSEWHERE = (PlaceKind.BENCH, PlaceKind.AT_A_SHOP, PlaceKind.LENT, PlaceKind.BATH)


@dataclass(frozen=True, slots=True)
class OffRow:
    """A part that is off, where it lies (empty: nobody said), and what was decided of it."""

    part_id: int
    part: str
    place: str
    decision: Decision


def taken_off(connection: Connection, machine_id: int) -> tuple[OffRow, ...]:
    """Every part that is off, less what lies on a bench, in a bath, at a shop or is lent; decided ones first."""
    off = on_and_off(connection, machine_id).off
    if not off:
        return ()
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.decision, Places.kind, Places.name.label("place"))
        .select_from(Parts)
        .outerjoin(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id)
        .order_by(Parts.decision == Decision.OPEN, Parts.code, Parts.id)
    )
    return tuple(
        OffRow(
            row.id,
            f"{row.code} {row.name}".strip(),
            lies_words(row.kind, row.place) if row.kind is not None else "",
            row.decision,
        )
        for row in rows
        if row.id in off and row.kind not in _ELSEWHERE
    )
