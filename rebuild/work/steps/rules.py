"""What must hold of a step and a link as a whole, and what follows from a change of one."""

from __future__ import annotations

from collections.abc import Mapping

from rebuild.errors import BadEntry
from rebuild.model.records.steps import Link, Task
from rebuild.store.tx import Tx
from rebuild.words.steps import TaskState
from rebuild.work.records.rules import refuse_falling_durations, refuse_other_machine
from rebuild.work.records.wall_clock import now
from rebuild.work.steps import rules_gate as gate, rules_order as order


def task(tx: Tx, row: Task, before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    refuse_falling_durations(row)
    with tx.session.no_autoflush:
        if "part_id" in typed:
            refuse_other_machine(tx, row.machine_id, part=row.part_id)
    was, stored = before.get("state"), row.id is not None
    if row.state is TaskState.DONE and was is not TaskState.DONE:
        if stored:
            gate.refuse_step(tx, row, row.done_at or now())
        if "done_at" not in typed:
            row.done_at = now()
    if was is TaskState.DONE and row.state is not TaskState.DONE and stored:
        order.refuse_reopening(tx, row)
        raise BadEntry(
            f"is done; calling it {row.state.value} would wipe what was noted then.",
            where="State",
            value=row.title,
            way_out="Open it again in the list of steps (Shift+Space): it asks why and keeps the attempt.",
        )


def link(tx: Tx, row: Link, _before: Mapping[str, object], typed: Mapping[str, str]) -> None:
    if "kind" in typed:
        before, after = tx.get(Task, row.before_id, "step"), tx.get(Task, row.after_id, "step")
        order.refuse_link(tx, before, after, row.kind)
