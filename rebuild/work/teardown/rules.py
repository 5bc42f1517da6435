"""What must hold before a thing comes off its machine."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.tables.run_in import RunSteps
from rebuild.store.tx import Tx
from rebuild.words.run_in import RunState, run_state


def stands_still(tx: Tx, machine_id: int, at: dt.datetime) -> None:
    """Nothing comes off a machine that runs; what came off before it ran may still be written down.

    Raises:
        BadEntry: a speed of the run-in is begun and not ended.
    """
    begun = tx.connection.execute(
        select(RunSteps.name, RunSteps.state, RunSteps.started_at).where(
            RunSteps.machine_id == machine_id, RunSteps.started_at.is_not(None)
        )
    )
    for name, state, started_at in begun:
        if run_state(state, begun=True) is RunState.RUNNING and started_at is not None and at >= started_at:
            raise BadEntry(
                f"cannot come off while “{name}” is running.",
                where="What came off",
                way_out="End it first (Prove, Run-in: Run through, or Stopped); switch off, isolate and lock "
                "the supply, and wait until all stands still.",
            )
