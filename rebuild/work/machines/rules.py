"""What must hold of a part as a whole, and what follows from a change of it."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.parts import Part
from rebuild.store.tx import Tx
from rebuild.words.decisions import Decision
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
