"""One detail of a part beside its turned sizes: its kind, its place, its sizes; and what a note says of it."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.drawing.measure import Measure
from rebuild.words.making_details import DetailKind


@dataclass(frozen=True, slots=True)
class Detail:
    """One detail.

    ``size`` is a diameter or a width, ``long`` runs along the axis from ``place``; ``circle`` and ``count`` are those
    of holes seen from the end; ``around_deg`` is the angle round the axis, of an ``ANGLE`` the angle itself.
    """

    kind: DetailKind
    name: str
    place: Measure | None = None
    size: Measure | None = None
    depth: Measure | None = None
    long: Measure | None = None
    around_deg: float = 0.0
    circle: Measure | None = None
    count: int = 1
    #: A cross-hole into a bored part goes through one wall, as an oil hole does, or right through both.
    one_wall: bool = False


def needed(measure: Measure | None, detail: Detail, what: str) -> Measure:
    """A measure that a kind cannot do without. Raises BadEntry when it is not given.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> needed(Measure("size", 4.0), Detail(DetailKind.CROSS_HOLE, "oil"), "diameter").at_mm
    4.0
    """
    if measure is None or not measure.given:
        raise BadEntry(
            "is not given yet.", where=f"{detail.name}, {what}", way_out=f"A {detail.kind} needs its {what}."
        )
    return measure


def told(detail: Detail, unit: str, *more: str, diameter: bool = False) -> tuple[str, ...]:
    """The two lines of a note: kind and size, how deep and what else.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> told(Detail(DetailKind.CROSS_HOLE, "oil", size=Measure("size", 4.0)), "mm", "through", diameter=True)
    ('oil: cross-hole Ø4', 'through')
    """
    size = ""
    if detail.size is not None and detail.size.given:
        size = " " + " to ".join(reversed(detail.size.lines(unit, diameter=diameter)))
        size += "" if diameter else " wide"
    deep = ""
    if detail.depth is not None and detail.depth.given:
        deep = " to ".join(reversed(detail.depth.lines(unit))) + " deep"
    return f"{detail.name}: {detail.kind}{size}", ", ".join(filter(None, (deep, *more)))


def angle_words(detail: Detail) -> str:
    """The angle round the axis, as a note says it.

    >>> angle_words(Detail(DetailKind.FLAT, "seat", around_deg=90.0))
    '90° round'
    """
    return f"{detail.around_deg:g}° round"


def size_alone(measure: Measure | None, unit: str) -> str:
    """A measure as a note says it, without its mark.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> size_alone(Measure("long", 20.0), "mm"), size_alone(None, "mm")
    ('20', '')
    """
    return " to ".join(reversed(measure.lines(unit))) if measure is not None else ""
