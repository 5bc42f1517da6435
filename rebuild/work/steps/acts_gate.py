"""Passing the gate inside an act: refused, or gone on with all the same and noted so."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from rebuild.model.records.run_in import RunLook, RunStep
from rebuild.model.records.steps import Task
from rebuild.store.tx import Tx
from rebuild.work.gates.acts import GoneOn, note
from rebuild.work.records.obstacle import Obstacle
from rebuild.work.steps import rules_gate as gate


def pass_step(
    tx: Tx, task: Task, at: dt.datetime, *, confirmed: bool = False, reason: str = "", by: str = ""
) -> bool:
    """Let a step pass; with a ``reason`` past what stands against it, which is noted. True when it was needed.

    Raises:
        Refused: something stands against it and no reason is given; or it cannot be undone and is not ``confirmed``.
    """
    if not reason.strip():
        gate.refuse_step(tx, task, at, confirmed=confirmed)
        return False
    found = gate.stands_against(tx, task, at)
    if found:
        gone = _gone(task.machine_id, f"“{task.title}” done", found, task_id=task.id)
        note(tx, gone, reason, by, at)
    return bool(found)


def pass_speed(
    tx: Tx, step: RunStep, at: dt.datetime, *, through: bool, reason: str = "", by: str = ""
) -> bool:
    """Let a speed of the run-in begin, or with ``through`` be called run through. True when a reason was needed.

    Raises:
        Refused: power is held, a lower speed is not run, no bearing was read, or one was too hot or warmed too fast.
    """
    found = gate.against_speed(tx, step, through=through)
    if not reason.strip():
        gate.refuse(found, step.id)
    elif found:
        verb = "called run through" if through else "begun"
        note(
            tx,
            _gone(step.machine_id, f"“{step.name}” {verb}", found, run_step_id=step.id),
            reason,
            by,
            at,
        )
    return bool(found)


def pass_look(tx: Tx, row: RunLook, at: dt.datetime, *, reason: str = "", by: str = "") -> bool:
    """Let a check of first power be done: it runs the machine, or its motor. True when a reason was needed.

    Raises:
        Refused: something stands before power.
    """
    found = gate.against_look(tx, row)
    if not reason.strip():
        gate.refuse(found, row.id)
    elif found:
        note(tx, _gone(row.machine_id, f"“{row.text}” done", found), reason, by, at)
    return bool(found)


def _gone(
    machine_id: int,
    what: str,
    found: Sequence[Obstacle],
    *,
    task_id: int | None = None,
    run_step_id: int | None = None,
) -> GoneOn:
    covers = [key for one in found for key in one.covers]
    against = " ".join(one.in_full() for one in found)
    return GoneOn(
        machine_id, gate.gravest(found), what, against, covers, task_id=task_id, run_step_id=run_step_id
    )
