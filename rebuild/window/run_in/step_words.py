"""What the run-in says of its steps in words: a line of the table, the bearings to read, what stands before power."""

from __future__ import annotations

from rebuild.trade.run_in.kinds import usual_bearings
from rebuild.trade.sizes.amounts import show_minutes
from rebuild.window.run_in.gate_pane import heading
from rebuild.work.power.rows import Stands
from rebuild.work.run_in.rows import RunRow

HEADINGS = ("Step", "Speed", "For", "State", "Hottest", "What it says")
_NAMED = 6


def bearings(rows: list[RunRow], kind: str) -> list[str]:
    """The usual ones, whichever of them were read already; where the owner named his own, those."""
    known = dict.fromkeys(course.bearing for row in rows for course in row.courses)
    usual = list(usual_bearings(kind))
    return usual if set(known) <= set(usual) else list(known)


def cells(row: RunRow, unit: str) -> tuple[str, ...]:
    """A step's line of the table, its speed in this unit: the columns of ``HEADINGS``."""
    hottest = row.highest
    speed = f"{row.speed_rpm:g} {unit}" if row.speed_rpm is not None else ""
    lasting = show_minutes(row.planned_min) if row.planned_min is not None else ""
    warm = f"{max(hottest.celsius):g} °C" if hottest is not None else ""
    said = hottest.heated.value.text if hottest is not None else row.noise
    return (row.name, speed, lasting, row.now, warm, said)


def standing_words(standing: list[Stands]) -> str:
    """What stands before power, named: nobody should have to turn a view to hear of it before he begins."""
    named = "; ".join(one.text for one in standing[:_NAMED])
    more = f"; and {len(standing) - _NAMED} more in Before power" if len(standing) > _NAMED else ""
    return f"{heading(standing)}: {named}{more}." if named else f"{heading(standing)}."
