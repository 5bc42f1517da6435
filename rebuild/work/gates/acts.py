"""Going on all the same: noted inside the act that did it, closed by an act of its own."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.gates import Override
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.store.tx import Tx
from rebuild.words.gates import Gate
from rebuild.work.gates.rules import need_reason
from rebuild.work.records.field import show_day
from rebuild.work.records.wall_clock import now


@dataclass(frozen=True, slots=True)
class GoneOn:
    """What was gone on with: its gate, whose it is, what stood against it, and which items that covers."""

    machine_id: int
    gate: Gate
    what: str
    against: str
    covers: Sequence[str] = ()
    task_id: int | None = None
    run_step_id: int | None = None
    joint_id: int | None = None


def note(tx: Tx, gone: GoneOn, reason: str, by: str, at: dt.datetime) -> None:
    """Note inside an act that it was done all the same. Raises BadEntry without a reason."""
    tx.session.add(
        Override(
            machine_id=gone.machine_id,
            gate=gone.gate,
            task_id=gone.task_id,
            run_step_id=gone.run_step_id,
            joint_id=gone.joint_id,
            what=gone.what,
            against=gone.against,
            covers=", ".join(gone.covers),
            reason=need_reason(reason),
            said_by=by.strip(),
            at=at,
        )
    )
    tx.session.flush()


def close(store: Store, override_ids: Sequence[int], note: str, *, at: dt.datetime | None = None) -> None:
    """What stood against it was put right, or is settled otherwise; ``note`` says how. It stays in the book.

    Raises:
        BadEntry: nothing is said, or it is closed already.
    """
    if not override_ids:
        return
    said = need_reason(note, "Closed with")
    with store.act(Act.CLOSE_OVERRIDE, "") as tx:
        rows = [tx.get(Override, key, "going on all the same") for key in dict.fromkeys(override_ids)]
        for row in rows:
            if row.closed_at is not None:
                raise BadEntry(
                    f"was closed on {show_day(row.closed_at)}.",
                    where="Going on all the same",
                    value=row.what,
                    way_out="Nothing to do.",
                )
            row.closed_at, row.closed_note = at or now(), said
        tx.subject = rows[0].what


def close_of(
    tx: Tx,
    said: str,
    at: dt.datetime,
    *,
    joint_id: int | None = None,
    task_id: int | None = None,
    run_step_id: int | None = None,
    gate: Gate | None = None,
) -> None:
    """Close, inside an act, what was gone on with on a joint, a step or a run-in step: it was put right or opened."""
    mine = (
        Override.joint_id == joint_id
        if joint_id is not None
        else Override.task_id == task_id
        if task_id is not None
        else Override.run_step_id == run_step_id
    )
    for row in tx.session.scalars(select(Override).where(mine, Override.closed_at.is_(None))):
        if gate is None or row.gate is gate:
            row.closed_at, row.closed_note = at, said
