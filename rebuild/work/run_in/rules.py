"""What must hold of a cut test and a check before power as a whole."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.run_in import CutTest, RunLook, RunStep
from rebuild.store.tx import Tx
from rebuild.trade.results.cautions import caution
from rebuild.trade.run_in.cut_tests import facing, two_collars
from rebuild.words.run_in import CutKind, RunState, run_state
from rebuild.work.power.rows_speeds import rungs
from rebuild.work.records.wall_clock import now
from rebuild.work.steps import rules_gate as gate


def cut_test(_tx: Tx, row: CutTest, _before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Whole enough to be worked out. Raises BadEntry naming what is missing or wrong."""
    names = {
        CutKind.TWO_COLLAR: ("Collar near the spindle", "Collar at the free end", "Length between"),
        CutKind.FACING: ("Hollow", "", "Diameter faced"),
    }[row.kind]
    for name, value in zip(names, (row.first_mm, row.second_mm, row.apart_mm), strict=True):
        if name and value is None:
            raise BadEntry(
                "is not given.", where=name, way_out="Measure it; without it the test says nothing."
            )
    if row.kind is CutKind.FACING:
        facing(row.first_mm or 0.0, row.apart_mm or 0.0)
    else:
        two_collars(row.first_mm or 0.0, row.second_mm or 0.0, row.apart_mm or 0.0)


def run_look(tx: Tx, row: RunLook, before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Its caution is one there is; ticked as a field it passes the gate as by its button. Raises BadEntry, Refused."""
    if row.topic:
        caution(row.topic)
    if row.done_at is None or before.get("done_at") is not None:
        return
    if row.licensed and not (row.done_by or "").strip():
        raise BadEntry(
            "is empty, and this is left to licensed hands.",
            where="By",
            way_out="Name who did it; local codes say who may.",
        )
    if row.id is not None:
        gate.refuse(gate.against_look(tx, row), row.id)


def one_speed_at_a_time(tx: Tx, step: RunStep) -> None:
    """A machine runs at one speed. Raises BadEntry for one begun or ended already, or while another still runs."""
    mine = run_state(step.state, begun=step.started_at is not None)
    if mine is RunState.RUNNING:
        raise _not_now(step, "is running already.", "End it: Run through, or Stopped.")
    if mine is not RunState.TO_RUN:
        raise _not_now(step, f"is {mine.value} already.", "Run it again.")
    refuse_while_another_runs(tx, step)


def refuse_while_another_runs(tx: Tx, step: RunStep) -> None:
    """Raise BadEntry while another speed of the machine runs."""
    for one in rungs(tx.connection, step.machine_id):
        if one.id != step.id and one.state is RunState.RUNNING:
            raise _not_now(
                step,
                f"cannot begin while “{one.name}” is running.",
                f"End “{one.name}” first: Run through, or Stopped.",
            )


def _not_now(step: RunStep, why: str, way_out: str) -> BadEntry:
    return BadEntry(why, where="Run-in step", value=step.name, way_out=way_out)


def run_step(tx: Tx, row: RunStep, before: Mapping[str, object], _typed: Mapping[str, str]) -> None:
    """Called run through, or begun, as a field: it passes the gate as by its button. Raises Refused, BadEntry."""
    if row.id is None:
        return
    was, begun = before.get("state"), before.get("started_at") is not None
    if row.state is RunState.RUN and was is not RunState.RUN:
        gate.refuse(gate.against_speed(tx, row, through=True), row.id)
        return
    running = run_state(row.state, begun=row.started_at is not None) is RunState.RUNNING
    if row.state is RunState.TO_RUN and was not in (None, RunState.TO_RUN):
        row.started_at = None
    elif row.state is RunState.RUNNING and begun and row.started_at is None:
        row.state = RunState.TO_RUN
    elif running and was is not RunState.RUNNING and not (was is RunState.TO_RUN and begun):
        refuse_while_another_runs(tx, row)
        gate.refuse(gate.against_speed(tx, row, through=False), row.id)
        row.state, row.started_at = RunState.RUNNING, row.started_at or now()
    elif row.started_at is not None and not begun:
        gate.refuse(gate.against_speed(tx, row, through=False), row.id)
