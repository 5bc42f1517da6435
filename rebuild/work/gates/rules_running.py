"""What stands against a step that takes something off while the machine runs: end the speed, lock it out."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import Connection, select

from rebuild.model.tables.run_in import RunSteps
from rebuild.trade.results.cautions import caution
from rebuild.words.gates import Gate
from rebuild.words.run_in import RunState, run_state
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.records.ways_out import RowLead


def while_it_runs(connection: Connection, machine_id: int, at: dt.datetime) -> list[Obstacle]:
    """What stands against taking anything off at that moment; a speed begun later than that does not."""
    steps = connection.execute(
        select(RunSteps.id, RunSteps.name, RunSteps.state, RunSteps.started_at)
        .where(RunSteps.machine_id == machine_id)
        .order_by(RunSteps.position, RunSteps.id)
    )
    return [
        _obstacle(row.id, row.name)
        for row in steps
        if run_state(row.state, begun=row.started_at is not None) is RunState.RUNNING
        and (row.started_at is None or row.started_at <= at)
    ]


def _obstacle(step_id: int, name: str) -> Obstacle:
    return Obstacle(
        f"“{name}” of the run-in is on: nothing comes off a machine that runs. {caution('lockout').line()}",
        way_out=f"End “{name}” (Run through, or Stopped), lock the supply out, then tick it again.",
        gate=Gate.SPEED,
        rows=(RowLead(f"“{name}” is on", "run_step", step_id, "run-in"),),
    )
