"""Open the page of a manual: of the spec, part or subassembly that is chosen, or of an old lubricant."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from rebuild.errors import NotThere
from rebuild.trade.schedule.graph import Ref
from rebuild.window.desk.desk import Desk, Say
from rebuild.window.desk.leads import follow
from rebuild.work.documents.rows_cited import (
    OnPage,
    page_of_feature,
    page_of_oil_point,
    page_of_part,
    page_of_subassembly,
)

if TYPE_CHECKING:
    from sqlalchemy import Connection

    Ask = Callable[[Connection], OnPage]


def open_of_chosen(desk: Desk, _window: QWidget) -> OnPage | None:
    """The page of the spec in hand, else of the chosen part, else of the subassembly."""
    chosen = desk.selection
    asks: list[Ask] = []
    if chosen.key is not None:
        feature_id = chosen.key[0]
        asks.append(lambda connection: page_of_feature(connection, feature_id))
    if chosen.part_ids:
        part_id = chosen.part_ids[-1]
        asks.append(lambda connection: page_of_part(connection, part_id))
    elif chosen.subassembly_id is not None:
        group = chosen.subassembly_id
        asks.append(lambda connection: page_of_subassembly(connection, group))
    if not asks:
        desk.say("Choose a part, a spec or a subassembly first.", Say.ASK)
    return _first(desk, asks)


def open_of_feature(desk: Desk, feature_id: int) -> OnPage | None:
    """The page a spec comes from."""
    return _first(desk, [lambda connection: page_of_feature(connection, feature_id)])


def open_of_oil_point(desk: Desk, oil_point_id: int) -> OnPage | None:
    """The page that asks for an old lubricant."""
    return _first(desk, [lambda connection: page_of_oil_point(connection, oil_point_id)])


def _first(desk: Desk, asks: list[Ask]) -> OnPage | None:
    """Open the first page known; where none is, say how one becomes known."""
    said = ""
    for ask in asks:
        try:
            with desk.store.read() as connection:
                found = ask(connection)
        except NotThere as trouble:
            said = said or str(trouble)
            continue
        mark = found.call_out_id
        follow(desk, Ref("document_page", found.page_id) if mark is None else Ref("call_out", mark))
        return found
    if said:
        desk.say(said, Say.ASK)
    return None
