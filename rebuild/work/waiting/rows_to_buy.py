"""What is to be bought and stands on no order yet: the list taken to the shop, or typed into a supplier's page."""

from __future__ import annotations

import re
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.making import MakingSheets
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.waiting import Waitings
from rebuild.words.counted import counted
from rebuild.words.decisions import Decision
from rebuild.words.making import MakingProgress
from rebuild.words.means import MeansKind, MeansStand
from rebuild.work.means.rows import means
from rebuild.work.waiting.rows_have_it import already_have

#: The tables the lookups here ask.
READS = frozenset(
    {"machine", "making_sheet", "means", "part", "place", "step_means", "stock_item", "task", "waiting"}
)

#: What is put in new whenever it has been out, unless something else was decided. Common practice, no source.
_ALWAYS_NEW = re.compile(
    r"\b(gaskets?|felts?|wipers?|(oil |shaft )?seals?|o-rings?|packing|split pins?|tab washers?)\b",
    re.IGNORECASE,
)
#: Hands and hoists are borrowed.
_BOUGHT = (MeansKind.TOOL, MeansKind.GAUGE, MeansKind.CONSUMABLE)
_BEFORE_METAL = (MakingProgress.DRAFT, MakingProgress.RELEASED)


@dataclass(frozen=True, slots=True)
class ToBuy:
    """One thing to buy: the row it comes from (``record``, ``id``), what to ask for, why, and what for."""

    record: str
    id: int
    what: str
    why: str
    about: str


def to_buy(connection: Connection, machine_id: int) -> list[ToBuy]:
    """Parts decided to be bought, what is always put in new, material of sheets not begun, means the shop lacks."""
    return [
        *_parts(connection, machine_id),
        *_material(connection, machine_id),
        *_means(connection),
    ]


def _parts(connection: Connection, machine_id: int) -> list[ToBuy]:
    ordered = select(Waitings.part_id).where(Waitings.part_id.is_not(None))
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.quantity, Parts.decision, Parts.material)
        .where(
            Parts.machine_id == machine_id,
            Parts.decision.in_((Decision.BUY, Decision.OPEN)),
            Parts.id.not_in(ordered),
        )
        .order_by(Parts.decision != Decision.BUY, Parts.code, Parts.id)
    ).all()
    found = []
    for row in rows:
        if row.decision is not Decision.BUY and not _ALWAYS_NEW.search(row.name):
            continue
        why = "decided: buy" if row.decision is Decision.BUY else "put in new whenever it was out"
        many = f"{row.quantity} × " if row.quantity != 1 else ""
        what = ", ".join(filter(None, (f"{many}{row.code} {row.name}".strip(), row.material)))
        found.append(ToBuy("part", row.id, what, why, f"{row.code} {row.name}".strip()))
    return found


def _material(connection: Connection, machine_id: int) -> list[ToBuy]:
    """Material of sheets not begun of which the shop has nothing like it, and of whose part no order stands."""
    ordered = select(Waitings.part_id).where(Waitings.part_id.is_not(None))
    rows = connection.execute(
        select(MakingSheets.id, MakingSheets.material, MakingSheets.blank, Parts.code, Parts.name)
        .join(Parts, Parts.id == MakingSheets.part_id)
        .where(
            Parts.machine_id == machine_id,
            MakingSheets.progress.in_(_BEFORE_METAL),
            MakingSheets.material != "",
            Parts.id.not_in(ordered),
        )
        .order_by(Parts.code, MakingSheets.id)
    ).all()
    found = []
    for row in rows:
        what = ", ".join(filter(None, (row.material, row.blank)))
        if not already_have(connection, what, most=1):
            about = f"{row.code} {row.name}".strip()
            found.append(ToBuy("making_sheet", row.id, what, "material, none like it in stock", about))
    return found


def _means(connection: Connection) -> list[ToBuy]:
    return [
        ToBuy(
            "means",
            row.id,
            row.name,
            f"{row.kind.value}: {row.words}",
            f"named by {counted(row.steps, 'open step')}",
        )
        for row in means(connection)
        if row.stand is MeansStand.LACKING and row.steps and row.kind in _BOUGHT
    ]
