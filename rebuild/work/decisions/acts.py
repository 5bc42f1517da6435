"""Decide what becomes of a part, and accept one outside its spec."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.model.records.decisions import Concession
from rebuild.model.records.features import Feature
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.work.records.columns import read_typed, set_columns, title
from rebuild.work.records.field import whole
from rebuild.work.records.rules import refuse_no_reason
from rebuild.work.records.wall_clock import now


@dataclass(frozen=True, slots=True)
class Taking:
    """What a decision takes: how, the value it rests on, cost in the file's money, work, days of waiting."""

    method: str = ""
    value: str = ""
    cost: float | None = None
    work_min: float | None = None
    wait_days: float | None = None


NOTHING = Taking()


def decide(
    store: Store,
    part_ids: Sequence[int],
    decision: Decision,
    *,
    reason: str = "",
    criterion: str = "",
    would_change: str = "",
    taking: Taking = NOTHING,
    at: dt.datetime | None = None,
) -> None:
    """Settle what becomes of parts, with reason, criterion and what would change it; ``at`` is now unless given.

    Raises:
        BadEntry: remake, buy, rework and defer want a reason.
    """
    refuse_no_reason(decision, reason)
    if not part_ids:
        return
    with store.act(Act.DECIDE, "") as tx:
        parts = [tx.get(Part, key, "part") for key in dict.fromkeys(part_ids)]
        for part in parts:
            put_decision(part, decision, (reason, criterion, would_change), taking, at)
        more = f" and {len(parts) - 1} more" if len(parts) > 1 else ""
        tx.subject = f"{decision.value} on {title(parts[0])}{more}"


def put_decision(
    part: Part, decision: Decision, grounds: tuple[str, str, str], taking: Taking, at: dt.datetime | None
) -> None:
    """Put a decision on a part, inside an act; ``grounds`` are reason, criterion and what would change it."""
    part.decision = decision
    part.decision_reason, part.decision_criterion, part.decision_would_change = (whole(g) for g in grounds)
    part.decision_method = whole(taking.method) or None
    part.decision_value = whole(taking.value) or None
    part.decision_cost = taking.cost
    part.decision_work_min = taking.work_min
    part.decision_wait_days = taking.wait_days
    part.decided_at = None if decision is Decision.OPEN else at or now()


def concede(
    store: Store,
    part_id: int,
    reason: str,
    *,
    feature_id: int | None = None,
    accepted: str = "",
    by: str = "",
    at: dt.datetime | None = None,
) -> int:
    """Accept a part outside its spec, ``at`` now unless given; returns the concession's id.

    Raises:
        BadEntry: no reason, or the feature is of another part.
    """
    columns = read_typed("concession", {"reason": reason, "accepted": accepted, "accepted_by": by})
    with store.act(Act.ADD_CONCESSION, "") as tx:
        part = tx.get(Part, part_id, "part")
        if feature_id is not None and tx.get(Feature, feature_id, "feature").part_id != part_id:
            raise BadEntry("is of another part.", where="Feature", way_out="Choose a feature of this part.")
        row = Concession(part_id=part_id, feature_id=feature_id, accepted_at=at or now())
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        tx.subject = f"on {title(part)}: {accepted or reason}"
        return row.id
