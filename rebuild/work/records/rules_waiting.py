"""What must hold of a joint, a clock and an order as a whole."""

from __future__ import annotations

from itertools import pairwise

from rebuild.errors import BadEntry
from rebuild.model.records.joints import Joint
from rebuild.model.records.waiting import Clock, Waiting
from rebuild.trade.sizes.amounts import parse_torque


def joint(row: Joint) -> None:
    """Torques carry their unit. Raises BadEntry."""
    for text, where in ((row.torque_wanted, "Torque wanted"), (row.torque_done, "Torqued to")):
        if (text or "").strip():
            parse_torque(text, where)


def clock(row: Clock) -> None:
    """The latest is not before the soonest. Raises BadEntry."""
    if row.low_min is not None and row.high_min is not None and row.low_min > row.high_min:
        raise BadEntry(
            "is before the soonest.", where="Latest after", value=f"{row.high_min:g} min",
            way_out="Type a longer time.",
        )  # fmt: skip


def waiting(row: Waiting) -> None:
    """Gone before arrived, arrived before checked, and lead times that rise. Raises BadEntry."""
    dates = [
        ("Ordered or gone", row.ordered_at), ("Arrived", row.arrived_at), ("Checked on arrival", row.inspected_at),
    ]  # fmt: skip
    given = [(name, at) for name, at in dates if at is not None]
    for (earlier, first), (later, then) in pairwise(given):
        if then < first:
            raise BadEntry(
                f"is before “{earlier.lower()}” ({first:%Y-%m-%d}).",
                where=later, value=f"{then:%Y-%m-%d}", way_out="Type the dates in the order they happened.",
            )  # fmt: skip
    if row.inspected_at is not None and row.arrived_at is None:
        raise BadEntry("is empty.", where="Arrived", way_out="Say when it arrived before it is checked.")
    days = [d for d in (row.lead_low_days, row.lead_likely_days, row.lead_high_days) if d is not None]
    if days != sorted(days):
        raise BadEntry(
            "do not rise from shortest to likely to longest.",
            where="Days", value=" / ".join(f"{d:g}" for d in days), way_out="Give them in that order.",
        )  # fmt: skip
