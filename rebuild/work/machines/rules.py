"""What must hold of a part as a whole, and what follows from a change of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.parts import Part
from rebuild.model.records.places import Place
from rebuild.store.tx import Tx
from rebuild.words.decisions import Decision
from rebuild.work.places.acts_move import move, open_stay, settle_kind
from rebuild.work.records.rules import refuse_no_reason, refuse_other_machine, refuse_taken_code
from rebuild.work.records.wall_clock import now


def part(tx: Tx, row: Part, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    with tx.session.no_autoflush:
        if "code" in typed:
            refuse_taken_code(tx, row.machine_id, row.code, row.id)
        if "matched_set_id" in typed:
            refuse_other_machine(tx, row.machine_id, matched_set=row.matched_set_id)
        if row.spare_of_id is not None and row.spare_of_id == row.id:
            raise BadEntry(
                "cannot be a spare of itself.",
                where="Spare of",
                value=row.name,
                way_out="Choose the part it can stand in for.",
            )
    if "decision" in typed or "decision_reason" in typed:
        refuse_no_reason(row.decision, row.decision_reason or "")
    if "decision" in typed and row.decision != before.get("decision"):
        row.decided_at = None if row.decision is Decision.OPEN else now()
    if "place_id" in typed and row.id is not None and row.place_id != before.get("place_id"):
        lies_where_typed(tx, row)


def lies_where_typed(tx: Tx, row: Part, at: dt.datetime | None = None) -> None:
    """A part lies from now (or ``at``) in the place that was put on it as a field."""
    typed = tx.get(Place, row.place_id, "place") if row.place_id is not None else None
    if typed is not None or open_stay(tx, row.id) is not None:
        move(tx, row, typed, at or now())


def place(tx: Tx, row: Place, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    """Parts in a place that is a shop or a loan from now on are away."""
    if "kind" in typed and row.id is not None and row.kind is not before.get("kind"):
        settle_kind(tx, row, now())
