"""What to know before touching a machine again: what runs, what is apart or not tight, what was not to be forgotten."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sqlalchemy import Connection

from rebuild.words.joints import Tightness
from rebuild.words.run_in import RunState
from rebuild.work.joints.rows import JointRow
from rebuild.work.log.rows import LogRow
from rebuild.work.power import rows_speeds
from rebuild.work.power.rows_speeds import Rung, rungs

#: The tables the lookups here ask.
READS = rows_speeds.READS
#: So many joints of one state are named; the rest are counted.
_NAMED = 4
_NOT_TIGHT = (Tightness.LOOSE, Tightness.FINGER)


def running(connection: Connection, machine_id: int) -> tuple[Rung, ...]:
    """Speeds of the run-in that were begun and not ended: the machine may be turning."""
    return tuple(rung for rung in rungs(connection, machine_id) if rung.state is RunState.RUNNING)


def told_before(
    sessions: Sequence[LogRow], topics: Iterable[str], joints: Sequence[JointRow]
) -> tuple[str, ...]:
    """What was not to be forgotten, joints apart before those not tight, and the usual cautions."""
    found = [f"Do not forget: {row.do_not_forget}" for row in sessions if row.do_not_forget]
    if said := _not_together(joints):
        found.append(f"Do not lift, turn or power it: {said}.")
    return tuple(dict.fromkeys((*found, *topics)))


def _not_together(joints: Sequence[JointRow]) -> str:
    """What is apart is worse than what is only finger tight, and is named first."""
    apart = [row.name for row in joints if row.tight is Tightness.APART]
    loose = [f"{row.name} ({row.tight.said})" for row in joints if row.tight in _NOT_TIGHT]
    said = (("apart", apart), ("not tight", loose))
    return "; ".join(
        f"{word} {'is' if len(names) == 1 else 'are'} {_named(names)}" for word, names in said if names
    )


def _named(names: Sequence[str]) -> str:
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return "; ".join(names[:_NAMED]) + more
