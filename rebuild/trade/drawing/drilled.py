"""Details drilled into the part: cross-holes, the spot of a set screw, holes on a circle seen from the end."""

from __future__ import annotations

import math
from dataclasses import replace

from rebuild.errors import BadEntry
from rebuild.trade.drawing.detail import Detail, angle_words, needed, told
from rebuild.trade.drawing.ink import Draft, Layer, Point, Side
from rebuild.trade.drawing.side_view import SideView, dimension_place
from rebuild.trade.sizes.show import show_both
from rebuild.words.making_details import DetailKind

#: A point of an ellipse every so many degrees.
_STEP_DEG = 15


def _cross_hole(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    x, size = view.place(detail, unit), needed(detail.size, detail, "diameter").at_mm
    radius = view.radius(x)
    wall = view.wall(x) if detail.one_wall and detail.depth is None else None
    depth = view.depth(detail, radius, unit) if wall is None else wall
    turn = math.radians(detail.around_deg)
    up, toward = math.cos(turn), math.sin(turn)
    half = size / 2
    for side in (-half, half):
        draft.line(Layer.HIDDEN, (x + side, up * radius), (x + side, up * (radius - depth)))
    draft.line(Layer.CENTRE, (x, up * 1.15 * radius), (x, up * (radius - depth) - up * 0.15 * radius))
    if abs(toward) > 1e-6:
        _ellipse(
            draft, (x, up * radius), half, half * abs(toward), Layer.OUTLINE if toward > 0 else Layer.HIDDEN
        )
        draft.cross((x, up * radius), size)
    dimension_place(draft, view, detail, x)
    through = "" if detail.depth is not None else "through" if wall is None else "through one wall"
    where = Side.TOP if up > 0 and not detail.place else Side.BOTTOM
    draft.note(
        (x + half, up * radius), *told(detail, unit, through, angle_words(detail), diameter=True), side=where
    )


def _ellipse(draft: Draft, centre: Point, across: float, up: float, layer: Layer) -> None:
    draft.run(
        layer,
        [
            (centre[0] + across * math.cos(math.radians(turn)), centre[1] + up * math.sin(math.radians(turn)))
            for turn in range(0, 361, _STEP_DEG)
        ],
    )


def _spot(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    """The mark of a set screw: a drill's point, as deep as it is told, else a quarter of its diameter."""
    x, size = view.place(detail, unit), needed(detail.size, detail, "diameter").at_mm
    radius, half = view.radius(x), size / 2
    up = math.cos(math.radians(detail.around_deg))
    deep = detail.depth.at_mm if detail.depth is not None else size / 4
    if abs(up) > 0.2:
        draft.run(
            Layer.OUTLINE, [(x - half, up * radius), (x, up * (radius - deep)), (x + half, up * radius)]
        )
    else:
        draft.circle(Layer.OUTLINE, (x, up * radius), size)
    draft.line(Layer.CENTRE, (x, up * 1.15 * radius), (x, up * (radius - 2 * deep)))
    dimension_place(draft, view, detail, x)
    draft.note(
        (x + half, up * radius), *told(detail, unit, angle_words(detail), diameter=True), side=Side.BOTTOM
    )


def _holes_on_circle(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    """A view from the end, on the right: the circle, its holes, the first at its angle from the top, clockwise."""
    hole, circle = needed(detail.size, detail, "diameter"), needed(detail.circle, detail, "circle")
    outside = 2 * view.most
    if circle.at_mm + hole.at_mm > outside + 1e-6:
        raise BadEntry(
            f"does not fit on the part, {show_both(outside, unit)} across.",
            where=f"{detail.name}, circle",
            value=show_both(circle.at_mm, unit),
            way_out="Mend the circle or the holes.",
        )
    _diameters_inside(draft, view)
    left = max(view.whole_right, draft.close().bounds[2])
    middle = (left + 0.75 * outside, 0.0)
    draft.circle(Layer.OUTLINE, middle, outside)
    draft.circle(Layer.CENTRE, middle, circle.at_mm)
    draft.cross(middle, outside)
    first: Point = middle
    for number in range(detail.count):
        turn = math.radians(90 - detail.around_deg - 360 * number / detail.count)
        at = (middle[0] + circle.at_mm / 2 * math.cos(turn), circle.at_mm / 2 * math.sin(turn))
        draft.circle(Layer.OUTLINE, at, hole.at_mm)
        first = at if number == 0 else first
    deep = "" if detail.depth is not None else "through"
    on = f"on {circle.lines(unit, diameter=True)[0]}"
    lines = told(detail, unit, deep, on, f"first at {detail.around_deg:g}°", diameter=True)
    head = lines[0].replace(f"{detail.kind} ", f"{detail.count} holes ")
    side = Side.TOP if first[1] >= 0 else Side.BOTTOM
    edge = (first[0], first[1] + math.copysign(hole.at_mm / 2, first[1] or 1.0))
    draft.note(edge, head, lines[1], side=side)


def _diameters_inside(draft: Draft, view: SideView) -> None:
    """Diameters on the right go through the view: their lines would run across the view from the end."""
    for at, one in enumerate(draft.dimensions):
        if not (one.upright and one.side is Side.RIGHT and one.inline_x is None and one.edge is None):
            continue
        x = one.a[0] - 0.15 * (view.right - view.left)
        moved = replace(one, a=(x, one.a[1]), b=(x, one.b[1]), side=Side.TOP, inline_x=x)
        draft.dimensions[at] = moved


#: How each kind is drawn.
DRILLED = {
    DetailKind.CROSS_HOLE: _cross_hole,
    DetailKind.SPOT: _spot,
    DetailKind.HOLES_ON_CIRCLE: _holes_on_circle,
}
