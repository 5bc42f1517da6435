"""The real sizes of a press or shrink fit: its interference, and what the two parts measure round it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from sqlalchemy import Connection, select

from rebuild.errors import BadEntry
from rebuild.model.tables.features import Features
from rebuild.model.tables.readings import Readings
from rebuild.trade.joints.slip_temperature import is_hardened
from rebuild.trade.joints.ways_together import FOR_PRESS, FOR_SHRINK, TightFit, Together, ways_together
from rebuild.trade.results.working import Step, StepKind, Worked, Working
from rebuild.trade.shop.materials import Material, find_material
from rebuild.words.fits import FitKind
from rebuild.words.readings import FeatureKind
from rebuild.work.fits.rows import FitRow
from rebuild.work.fits.rows_sides import SideRow

#: The tables the lookups here ask.
READS = frozenset({"feature", "reading"})


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that is not known: in words, the part it is of, and the feature to measure or the part's field.

    Without either it is a feature the part has not got yet.
    """

    told: str
    part_id: int
    feature_id: int = 0
    field: str = ""


class NotKnown(BadEntry):
    """Things a fit cannot be worked out without; ``missing`` says where each is entered."""

    def __init__(
        self, what: str, missing: tuple[Missing, ...], *, where: str, value: str = "", way_out: str = ""
    ) -> None:
        super().__init__(what, where=where, value=value, way_out=way_out)
        self.missing = missing


_Found = TypeVar("_Found")
_LENGTHS = (FeatureKind.LENGTH, FeatureKind.WIDTH, FeatureKind.DEPTH)


def ways_in(connection: Connection, row: FitRow) -> Worked[tuple[Together, ...]]:
    """Every way to put a tight fit together, on the sizes its parts have; what had to be assumed is said.

    Raises:
        NotKnown: a material, a length, a size of the fit is not known.
        BadEntry: nothing interferes.
        OutOfRange: the parts do not bear the fit.
    """
    said: list[str] = []
    fit = _tight(connection, row, said)
    methods = FOR_SHRINK if row.kind is FitKind.SHRINK else FOR_PRESS
    found = ways_together(fit, methods, row.unit)
    notes = tuple(Step(StepKind.NOTE, "", line) for line in said)
    return Worked(found.value, Working(found.working.title, (*notes, *found.working.steps)))


def _tight(connection: Connection, row: FitRow, said: list[str]) -> TightFit:
    missing: list[NotKnown] = []
    size = _known(missing, lambda: _diameter(row))
    tight = _known(missing, lambda: _interference(row, said))
    length = _known(missing, lambda: _length(connection, row))
    hub = _known(missing, lambda: _material(row.outer, said))
    shaft = _known(missing, lambda: _material(row.inner, said))
    if size is None or tight is None or length is None or hub is None or shaft is None:
        raise _all_of(row, missing)
    outside = _size_on(connection, row.outer.part_id, (FeatureKind.OUTSIDE_DIAMETER,), row.outer.feature_id)
    if outside is None or outside <= size:
        outside = math.inf
        said.append(f"No outside diameter of {row.outer.part} is known: it is taken as a large casting.")
    bore = _size_on(connection, row.inner.part_id, (FeatureKind.BORE,), row.inner.feature_id)
    if bore is not None and bore >= size:
        bore = None
    if bore is None:
        said.append(f"No bore of {row.inner.part} is known: it is taken as solid.")
    return TightFit(
        size,
        tight[0],
        length,
        outside,
        bore or 0.0,
        hub,
        shaft,
        tight[1],
        row.outer.part,
        row.inner.part,
        is_hardened(f"{row.outer.part} {row.outer.material}"),
        is_hardened(f"{row.inner.part} {row.inner.material}"),
    )


def _known(missing: list[NotKnown], look: Callable[[], _Found]) -> _Found | None:
    """What is found; what is missing is gathered, so that it is all said at once."""
    try:
        return look()
    except NotKnown as trouble:
        missing.append(trouble)
        return None


def _all_of(row: FitRow, missing: Sequence[NotKnown]) -> NotKnown:
    """One refusal that says all that is missing, each with its way out."""
    if len(missing) == 1:
        return missing[0]
    return NotKnown(
        f"is not worked out yet, {len(missing)} things are missing: "
        + " ".join(f"({number}) {one}" for number, one in enumerate(missing, 1)),
        tuple(thing for one in missing for thing in one.missing),
        where=f"How to put {row.title} together",
    )


def _length(connection: Connection, row: FitRow) -> float:
    """How long the joint is [mm]: a length of the outer part, else of the inner one. Raises NotKnown."""
    for side in row.sides:
        found = _size_on(connection, side.part_id, _LENGTHS, side.feature_id)
        if found is not None:
            return found
    raise NotKnown(
        "is not known: force and times go by it.",
        (Missing(f"length of {row.outer.part}", row.outer.part_id),),
        where=f"Length of {row.title}",
        way_out=f"Add a length to {row.outer.part} or {row.inner.part} and measure it, or type its spec.",
    )


def _diameter(row: FitRow) -> float:
    """The diameter of the joint [mm], from whichever side tells it. Raises NotKnown."""
    read = next((side.readings[0].value_mm for side in row.sides if side.readings), None)
    size = read or row.outer.nominal_mm or row.inner.nominal_mm
    if not size:
        raise NotKnown(
            "is not known: neither side is measured, nor has it a spec with a size.",
            _unread(row),
            where=f"Diameter of {row.title}",
            way_out=f"Measure {row.outer.title} before pressing, or {row.inner.title}.",
        )
    return size


def _interference(row: FitRow, said: list[str]) -> tuple[float, float]:
    """The interference on the sizes there are, and its expanded uncertainty [mm]; where it comes from is said.

    A mate nobody has decided on is what it reads; one that is to be made or reworked is not yet what it will be.
    """
    if row.now is not None and all(wait.stage is None for wait in row.waits):
        said += [f"{wait.sentence}; its readings are taken as they are." for wait in row.waits]
        pair = row.now.least
        if not pair.budget.complete:
            said.append(
                "Not every reading names its instrument: the ± here counts the others alone, and may be larger."
                if pair.budget.U_mm
                else "How well the readings are known is not said: name their instruments, for the doubt of the force."
            )
        return -pair.value_mm, pair.budget.U_mm
    if row.low_mm is None:
        raise NotKnown(
            "is not known: not both sides are measured, and no greatest interference is wanted.",
            _unread(row),
            where=f"Interference of {row.title}",
            way_out="Measure both sides, or type what is to be, as 0.01-0.03 interference.",
        )
    why = "; ".join(wait.sentence for wait in row.waits) or "Not measured yet on both sides"
    said.append(f"{why}: the greatest interference wanted is taken.")
    return -row.low_mm, 0.0


def _unread(row: FitRow) -> tuple[Missing, ...]:
    """The sides to be measured: those without a reading, else both."""
    sides = [side for side in row.sides if not side.readings] or row.sides
    return tuple(Missing(f"reading of {one.title}", one.part_id, one.feature_id) for one in sides)


def _material(side: SideRow, said: list[str]) -> Material:
    """What a side is made of; what a plain word is taken as is said. Raises NotKnown, which names the part."""
    entered = (Missing(f"material of {side.part}", side.part_id, field="material"),)
    if not side.material.strip():
        raise NotKnown(
            "is empty: how hard it holds and how it grows with heat go by it.",
            entered,
            where=f"Material of {side.part}",
            way_out=f"Open {side.part} in the parts and type its material, as steel, cast iron or SAE 660 bronze.",
        )
    found = find_material(side.material)
    if found is None:
        raise NotKnown(
            "is not in the table of materials, or names two of them.",
            entered,
            where=f"Material of {side.part}",
            value=side.material,
            way_out="Type the plain word (steel, cast iron, bronze, brass) or a grade, as 1045, 4140, SAE 660.",
        )
    if found.material.name.lower() != side.material.strip().lower():
        said.append(f"{side.part}: {found.note}")
    return found.material


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
