"""Which joints are shown, and in a sentence how many are not tight yet."""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.words.counted import counted
from rebuild.work.joints.rows import JointRow

NOT_FINAL, AFTER_RUN_IN, ALL = "not tight yet, before power-on", "to recheck after run-in", "all joints"


def is_wanted(row: JointRow, which: str) -> bool:
    """Whether a joint is among those asked for by one of the three words above."""
    if which == NOT_FINAL:
        return not row.final
    return which == ALL or (row.look_again and row.looked_again_at is None)


def sentence(rows: Sequence[JointRow]) -> str:
    """How many of all joints are not tight yet, and how many are rechecked after the run-in."""
    open_ones = [row for row in rows if not row.final]
    later = sum(row.look_again and row.looked_again_at is None for row in rows)
    after = f"; {later} to recheck after run-in" if later else ""
    if not rows:
        return "No joints yet: fasteners of the removal log become joints"
    if not open_ones:
        return f"Every joint is tight{after}"
    are = "is" if len(open_ones) == 1 else "are"
    of = counted(len(rows), "joint")
    return f"{len(open_ones)} of {of} {are} not tight yet: do not power it on{after}"
