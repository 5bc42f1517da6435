"""What stands before power: joints no step will see to, checks to do, parts that are off."""

from __future__ import annotations

from sqlalchemy import Connection, select

from rebuild.model.tables.joints import Joints
from rebuild.model.tables.run_in import RunLooks
from rebuild.model.tables.teardown import Attempts, RemovalParts, Removals
from rebuild.words.joints import Tightness
from rebuild.words.run_in import LookWhen
from rebuild.work.joints import rows as rows_joints
from rebuild.work.joints.rows import not_final
from rebuild.work.plan.facts import JointFact, OffFact
from rebuild.work.power import rows_off
from rebuild.work.power.rows_off import on_and_off

#: The tables the lookups here ask.
READS = rows_joints.READS | rows_off.READS | {"run_look"}


def before_power_facts(
    connection: Connection, machine_id: int
) -> tuple[tuple[JointFact, ...], tuple[tuple[int, str], ...], tuple[OffFact, ...]]:
    """Joints to see to, checks to do, and parts that are off, as ``Facts`` has them."""
    off = on_and_off(connection, machine_id).off
    return (
        _joints_to_see_to(connection, machine_id, off),
        checks_to_do(connection, machine_id),
        _removals_of(connection, machine_id, off),
    )


def _removals_of(connection: Connection, machine_id: int, off: frozenset[int]) -> tuple[OffFact, ...]:
    """The newest removal of each part that is off, in the order of the log."""
    if not off:
        return ()
    rows = connection.execute(
        select(
            RemovalParts.part_id, Removals.id, Removals.attempt_id, Removals.position, Attempts.subassembly_id
        )
        .join(Removals, Removals.id == RemovalParts.removal_id)
        .join(Attempts, Attempts.id == Removals.attempt_id)
        .where(Attempts.machine_id == machine_id)
        .order_by(Removals.at, Removals.id)
    )
    newest = {row[0]: OffFact(*row) for row in rows if row[0] in off}
    return tuple(
        sorted(newest.values(), key=lambda one: (one.attempt_id, one.place, one.removal_id, one.part_id))
    )


def _joints_to_see_to(connection: Connection, machine_id: int, off: frozenset[int]) -> tuple[JointFact, ...]:
    """Joints that are not final, less those of parts that are off: what puts the part on brings them together."""
    found = not_final(connection, machine_id)
    if not found:
        return ()
    made_by = {
        row.id: row.task_id
        for row in connection.execute(
            select(Joints.id, Joints.task_id).where(Joints.machine_id == machine_id)
        )
    }
    return tuple(
        JointFact(
            row.id,
            made_by[row.id],
            row.part_id,
            row.subassembly_id,
            row.name,
            row.lacks or row.state,
            row.tight is Tightness.APART,
        )
        for row in found
        if row.part_id not in off
    )


def checks_to_do(connection: Connection, machine_id: int) -> tuple[tuple[int, str], ...]:
    """The checks before power that are not done yet, in their order."""
    rows = connection.execute(
        select(RunLooks.id, RunLooks.text)
        .where(
            RunLooks.machine_id == machine_id,
            RunLooks.due == LookWhen.BEFORE_POWER,
            RunLooks.done_at.is_(None),
        )
        .order_by(RunLooks.position, RunLooks.id)
    )
    return tuple((row.id, row.text) for row in rows)
