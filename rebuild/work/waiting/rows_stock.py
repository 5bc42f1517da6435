"""What lies in stock, as rows."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.places import Places
from rebuild.model.tables.waiting import StockItems
from rebuild.words.places import place_words

#: The tables the lookups here ask.
READS = frozenset({"place", "stock_item"})


@dataclass(frozen=True, slots=True)
class StockRow:
    """Something on the shelf."""

    id: int
    name: str
    material: str
    sizes: str
    thread: str
    amount: str
    place: str


def stock(connection: Connection) -> list[StockRow]:
    """All stock of the shop by name."""
    rows = connection.execute(
        select(*StockItems.columns(), Places.kind, Places.name.label("place"))
        .outerjoin(Places, Places.id == StockItems.place_id)
        .order_by(StockItems.name, StockItems.id)
    )
    return [
        StockRow(
            row.id,
            row.name,
            row.material,
            row.sizes,
            row.thread,
            "" if row.quantity is None else f"{row.quantity:g} {row.counted_in}".strip(),
            place_words(row.kind, row.place) if row.place else "",
        )
        for row in rows
    ]
