"""One door to every drawing: a shape by its word, its sizes by role."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from rebuild.errors import BadEntry
from rebuild.trade.drawing import bars, rings, rods, threaded
from rebuild.trade.drawing.ink import Drawing
from rebuild.trade.drawing.measure import Given, Measure
from rebuild.trade.drawing.thread_shown import ThreadShown
from rebuild.trade.results.door import door
from rebuild.words.making import PartShape

_Drawn = Callable[[Given, str, ThreadShown | None], Drawing]

_DRAWN: dict[str, _Drawn] = {
    PartShape.BUSH: lambda given, unit, _: rings.bush(given, unit),
    PartShape.COLLAR: lambda given, unit, _: rings.ring(given, unit, word="collar", thickness="width"),
    PartShape.WASHER: lambda given, unit, _: rings.ring(given, unit, word="washer", thickness="thickness"),
    PartShape.SPACER: lambda given, unit, _: rings.ring(given, unit, word="spacer", thickness="length"),
    PartShape.GEAR: lambda given, unit, _: rings.gear_blank(given, unit),
    PartShape.SHAFT: rods.shaft,
    PartShape.PIN: lambda given, unit, _: rods.pin(given, unit),
    PartShape.TAPER_PIN: lambda given, unit, _: rods.taper_pin(given, unit),
    PartShape.HANDLE: rods.handle,
    PartShape.NUT: threaded.nut,
    PartShape.SCREW: threaded.screw,
    PartShape.KEY: lambda given, unit, _: bars.key(given, unit),
    PartShape.GIB: lambda given, unit, _: bars.gib(given, unit),
}


def drawable() -> tuple[str, ...]:
    """The shapes that can be drawn.

    >>> PartShape.BUSH in drawable(), PartShape.OTHER in drawable()
    (True, False)
    """
    return tuple(_DRAWN)


@door()
def draw(
    shape: str, sizes: Mapping[str, Measure], unit: str = "mm", thread: ThreadShown | None = None
) -> Drawing:
    """The drawing of a part from its sizes.

    Args:
        shape: one of ``drawable``.
        sizes: by role; an angle is carried in degrees where a size is in mm.
        unit: the sheet's unit, for the words.
        thread: for nut and screw; else drawn where a length for it is given.

    Raises:
        BadEntry: no such shape; a size is missing or impossible; the sentence names it.

    >>> ring = {"outside diameter": Measure("outside", 30.0), "bore": Measure("bore", 20.0)}
    >>> made = draw("washer", ring | {"thickness": Measure("thickness", 3.0)})
    >>> made.dimension("bore").measured_mm
    20.0
    """
    drawn = _DRAWN.get(shape)
    if drawn is None:
        raise BadEntry(
            "has no drawing here.", where="Shape", value=shape, way_out=f"Drawn: {', '.join(_DRAWN)}."
        )
    return drawn(Given(shape, sizes), unit, thread)
