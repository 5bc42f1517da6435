"""What must hold before a thing comes off its machine."""

from __future__ import annotations

import datetime as dt

from rebuild.errors import BadEntry
from rebuild.store.tx import Tx
from rebuild.work.gates.rules_running import while_it_runs


def stands_still(tx: Tx, machine_id: int, at: dt.datetime) -> None:
    """Nothing comes off a machine that runs; what came off before it ran may still be written down.

    Raises:
        BadEntry: a speed of the run-in is begun and not ended.
    """
    for one in while_it_runs(tx.connection, machine_id, at):
        raise BadEntry(
            f"cannot come off while {one.rows[0].words}.",
            where="What came off",
            way_out="End it first (Prove, Run-in: Run through, or Stopped); switch off, isolate and lock the supply, "
            "and wait until all stands still.",
        )
