"""What is told of steps beside the work: earlier attempts, and what was gone on with all the same."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import Connection

from rebuild.work.gates.rows import gone_on
from rebuild.work.steps.rows_at_refit import READS as REFIT, at_refit
from rebuild.work.steps.rows_attempts import step_attempts
from rebuild.work.steps.rows_left_loose import READS as LOOSE, left_loose

#: The tables the lookups here ask.
READS = frozenset({"override", "step_attempt", "task"}) | REFIT | LOOSE


@dataclass(frozen=True, slots=True)
class Told:
    """Each earlier time a step was done, and what it was gone on with that is not closed.

    ``left`` is how the least tight joint of a done step is, as ``finger tight``.
    """

    attempts: tuple[str, ...] = ()
    gone_on: tuple[str, ...] = ()
    at_refit: tuple[str, ...] = ()
    left: str = ""


def told(connection: Connection, machine_id: int) -> dict[int, Told]:
    """What is told of a machine's steps, by step; those of which nothing is told are left out."""
    refit = at_refit(connection, machine_id)
    loose = left_loose(connection, machine_id)
    attempts: dict[int, list[str]] = {}
    for one in step_attempts(connection, machine_id):
        attempts.setdefault(one.task_id, []).append(one.words)
    passed: dict[int, list[str]] = {}
    for gone in gone_on(connection, machine_id, open_only=True):
        if gone.task_id is not None:
            passed.setdefault(gone.task_id, []).append(gone.words)
    return {
        key: Told(
            tuple(attempts.get(key, ())), tuple(passed.get(key, ())), refit.get(key, ()), loose.get(key, "")
        )
        for key in attempts.keys() | passed.keys() | refit.keys() | loose.keys()
    }
