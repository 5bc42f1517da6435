"""Settle a part together with what it makes non-standard, as one act; ``lookup.ripple`` shows beforehand
what it will touch."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.words.decisions import Decision
from rebuild.work.decisions.acts import NOTHING, Taking, put_decision
from rebuild.work.decisions.acts_odd_sizes import OddEntry, put_odd_size
from rebuild.work.records.columns import title
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.rules import refuse_no_reason


@dataclass(frozen=True, slots=True)
class Settling:
    """A decision with its grounds, and the odd size it brings, if any."""

    decision: Decision
    reason: str = ""
    criterion: str = ""
    would_change: str = ""
    taking: Taking = NOTHING
    odd: OddEntry | None = None


def settle(store: Store, part_id: int, settling: Settling, *, at: dt.datetime | None = None) -> int | None:
    """Decide a part and record its odd size, in one act; returns the odd size's id.

    Fits on the part become stale by themselves, since a fit remembers the decisions it was looked at with.

    Raises:
        BadEntry: no reason where one is wanted, or an odd size that cannot be read.
    """
    refuse_no_reason(settling.decision, settling.reason)
    comma = decimal_comma(store)
    with store.act(Act.DECIDE, "") as tx:
        part = tx.get(Part, part_id, "part")
        grounds = (settling.reason, settling.criterion, settling.would_change)
        put_decision(part, settling.decision, grounds, settling.taking, at)
        odd = put_odd_size(tx, part, settling.odd, at, comma) if settling.odd is not None else None
        tx.subject = f"{settling.decision.value} on {title(part)}" + (f", {odd.what}" if odd else "")
        return odd.id if odd is not None else None
