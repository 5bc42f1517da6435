"""The real sizes of a press or shrink fit: its interference, and what the two parts measure round it."""

from __future__ import annotations

import math

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry
from rebuild.model.tables.features import Features
from rebuild.model.tables.readings import Readings
from rebuild.trade.joints.ways_together import FOR_PRESS, FOR_SHRINK, TightFit, Together, ways_together
from rebuild.trade.results.working import Step, StepKind, Worked, Working
from rebuild.trade.shop.materials import wanted
from rebuild.words.fits import FitKind
from rebuild.words.readings import FeatureKind
from rebuild.work.fits.rows import FitRow

#: The tables the lookups here ask.
READS = frozenset({"feature", "reading"})

_LENGTHS = (FeatureKind.LENGTH, FeatureKind.WIDTH, FeatureKind.DEPTH)


def ways_in(connection: Connection, row: FitRow) -> Worked[tuple[Together, ...]]:
    """Every way to put a tight fit together, on the sizes its parts have; what had to be assumed is said.

    Raises:
        BadEntry: nothing interferes, a material is not known, or no length of the fit is.
        OutOfRange: the parts do not bear the fit.
    """
    said: list[str] = []
    fit = _tight(connection, row, said)
    methods = FOR_SHRINK if row.kind is FitKind.SHRINK else FOR_PRESS
    found = ways_together(fit, methods, row.unit)
    notes = tuple(Step(StepKind.NOTE, "", line) for line in said)
    return Worked(found.value, Working(found.working.title, (*notes, *found.working.steps)))


def _tight(connection: Connection, row: FitRow, said: list[str]) -> TightFit:
    size = row.outer.readings[0].value_mm if row.outer.readings else row.outer.nominal_mm or 0.0
    known = row.now is not None and not row.waits
    tight = -row.now.least.value_mm if row.now is not None and known else -(row.low_mm or 0.0)
    if not known:
        said.append("Not measured yet on both sides: the greatest interference wanted is taken.")
    length = _size_on(connection, row.outer.part_id, _LENGTHS, row.outer.feature_id)
    if length is None:
        length = _size_on(connection, row.inner.part_id, _LENGTHS, row.inner.feature_id)
    if length is None:
        raise BadEntry(
            "is not known: force and times go by it.",
            where=f"Length of {row.title}",
            way_out=f"Add a length to {row.outer.part} and measure it, or type its spec.",
        )
    outside = _size_on(connection, row.outer.part_id, (FeatureKind.OUTSIDE_DIAMETER,), row.outer.feature_id)
    if outside is None or outside <= size:
        outside = math.inf
        said.append(f"No outside diameter of {row.outer.part} is known: it is taken as a large casting.")
    bore = _size_on(connection, row.inner.part_id, (FeatureKind.BORE,), row.inner.feature_id)
    if bore is not None and bore >= size:
        bore = None
    if bore is None:
        said.append(f"No bore of {row.inner.part} is known: it is taken as solid.")
    hub = wanted(row.outer.material, f"Material of {row.outer.part}").material
    shaft = wanted(row.inner.material, f"Material of {row.inner.part}").material
    return TightFit(size, tight, length, outside, bore or 0.0, hub, shaft)


def _size_on(
    connection: Connection, part_id: int, kinds: tuple[FeatureKind, ...], but_not: int
) -> float | None:
    """The first feature of these kinds on a part: its newest reading, else its spec [mm]."""
    rows = connection.execute(
        select(Features.id, Features.nominal_mm, Features.low_mm, Features.high_mm)
        .where(Features.part_id == part_id, Features.kind.in_(kinds), Features.id != but_not)
        .order_by(Features.position, Features.id)
    ).all()
    for row in rows:
        read = connection.execute(
            select(Readings.value_mm)
            .where(Readings.feature_id == row.id, Readings.struck.is_(None))
            .order_by(Readings.id.desc())
            .limit(1)
        ).scalar()
        ends = [end for end in (row.low_mm, row.high_mm) if end is not None]
        found: float | None = read or row.nominal_mm or (sum(ends) / len(ends) if ends else None)
        if found:
            return found
    return None
