"""What is on a part beside its turned sizes, put on its drawing: holes, spots, flats, keyways, grooves, angles, teeth.

Each stands at a place along the axis from the left end and at an angle round it, 0° up, 90° towards the viewer. Teeth
and splines are in their simplified form: thin lines at the root, no tooth drawn (ISO 6414 and ISO 2203, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence

from rebuild.trade.drawing.cut_along import CUT_ALONG
from rebuild.trade.drawing.detail import Detail
from rebuild.trade.drawing.drilled import DRILLED
from rebuild.trade.drawing.ink import Draft, Drawing, Side
from rebuild.trade.drawing.side_view import SideView, dimension_place
from rebuild.trade.results.door import door
from rebuild.words.making_details import DetailKind


@door()
def with_details(drawing: Drawing, details: Sequence[Detail], unit: str = "mm") -> Drawing:
    """A drawing with its details on it, each with a note and, where it stands along the axis, its place.

    Raises:
        BadEntry: a detail beyond the part's ends, deeper than the part, or without the size it needs.

    >>> from rebuild.trade.drawing.measure import Measure
    >>> from rebuild.trade.drawing.shapes import draw
    >>> pin = draw("pin", {"diameter": Measure("diameter", 20.0), "length": Measure("length", 60.0)})
    >>> hole = Detail(DetailKind.CROSS_HOLE, "oil", Measure("place", 15.0), Measure("size", 4.0))
    >>> made = with_details(pin, [hole])
    >>> made.dimension("place of oil").measured_mm, made.notes[-1].lines
    (15.0, ('oil: cross-hole Ø4', 'through, 0° round'))
    """
    draft = Draft(
        drawing.title, [*drawing.strokes], [*drawing.regions], [*drawing.dimensions], [*drawing.notes]
    )
    view = SideView.of(drawing)
    for detail in details:
        _DRAWN[detail.kind](draft, view, detail, unit)
    return draft.close()


def _angle(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    x = view.place(detail, unit)
    dimension_place(draft, view, detail, x)
    draft.note((x, -view.radius(x)), f"{detail.name}: {detail.around_deg:g}°", side=Side.BOTTOM)


_DRAWN = {**CUT_ALONG, **DRILLED, DetailKind.ANGLE: _angle}
