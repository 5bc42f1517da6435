"""The parts that read out of their limits and nobody has decided about: a machine is not run on them unasked."""

from __future__ import annotations

from sqlalchemy import Connection, func, or_, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.parts import Parts
from rebuild.model.tables.readings import Readings
from rebuild.trade.limits.judgement import ON_THE_LINE_MM
from rebuild.trade.sizes.show import DECIMALS, show_length
from rebuild.words.decisions import Decision
from rebuild.work.readings.rows_spoken import RANK

#: The tables the lookups here ask.
READS = frozenset({"feature", "part", "reading"})


def measured_out(connection: Connection, machine_id: int) -> dict[int, str]:
    """Undecided parts with a reading that speaks outside its limits, and by how much the worst of them is out.

    As it was read, whether it is proven or not: too near its limit or read with an unnamed instrument, it is to be
    decided all the same.
    """
    rows = connection.execute(
        select(
            Parts.id, Features.name, Features.unit, Features.low_mm, Features.high_mm, Readings.value_mm,
            func.max(RANK + Readings.id),
        )
        .select_from(Parts)
        .join(Features, Features.part_id == Parts.id)
        .join(Readings, Readings.feature_id == Features.id)
        .where(
            Parts.machine_id == machine_id,
            Parts.decision == Decision.OPEN,
            or_(Features.low_mm.is_not(None), Features.high_mm.is_not(None)),
            Readings.struck.is_(None),
        )
        .group_by(Readings.feature_id, Readings.station_id)
    )  # fmt: skip
    worst: dict[int, tuple[float, str]] = {}
    for part_id, name, unit, low, high, value, _newest in rows:
        over = value - high if high is not None else 0.0
        under = low - value if low is not None else 0.0
        by = max(over, under)
        if by > max(ON_THE_LINE_MM, worst.get(part_id, (0.0, ""))[0]):
            side = "over" if over >= under else "under"
            shown = show_length(by, unit, DECIMALS.get(unit, 3))
            worst[part_id] = (by, f"{name} {shown} {side} its limit, still to be decided")
    return {part_id: words for part_id, (_by, words) in worst.items()}
