"""What must hold of a clock and an order as a whole."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from rebuild.errors import BadEntry
from rebuild.model.records.waiting import Clock, Waiting
from rebuild.store.tx import Tx
from rebuild.work.records.rules import refuse_other_machine


def clock(_tx: Tx, row: Clock, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """The latest is not before the soonest. Raises BadEntry."""
    if row.low_min is not None and row.high_min is not None and row.low_min > row.high_min:
        raise BadEntry(
            "is before the soonest.",
            where="Latest after",
            value=f"{row.high_min:g} min",
            way_out="Type a longer time.",
        )


def waiting(tx: Tx, row: Waiting, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Gone before arrived, arrived before checked, and lead times that rise. Raises BadEntry."""
    if row.machine_id is not None:
        with tx.session.no_autoflush:
            refuse_other_machine(tx, row.machine_id, part=row.part_id, step=row.task_id)
    dates = [
        ("Ordered or gone", row.ordered_at),
        ("Arrived", row.arrived_at),
        ("Checked on arrival", row.inspected_at),
    ]
    given = [(name, at) for name, at in dates if at is not None]
    for (earlier, first), (later, then) in pairwise(given):
        if then < first:
            raise BadEntry(
                f"is before “{earlier.lower()}” ({first:%Y-%m-%d}).",
                where=later,
                value=f"{then:%Y-%m-%d}",
                way_out="Type the dates in the order they happened.",
            )
    if row.inspected_at is not None and row.arrived_at is None:
        raise BadEntry("is empty.", where="Arrived", way_out="Say when it arrived before it is checked.")
    days = [d for d in (row.lead_low_days, row.lead_likely_days, row.lead_high_days) if d is not None]
    if days != sorted(days):
        raise BadEntry(
            "do not rise from shortest to likely to longest.",
            where="Days",
            value=" / ".join(f"{d:g}" for d in days),
            way_out="Give them in that order.",
        )
