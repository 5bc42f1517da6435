"""Details cut along or round the part: flats, keyways, grooves, splines."""

from __future__ import annotations

import math

from rebuild.trade.drawing.detail import Detail, angle_words, needed, size_alone, told
from rebuild.trade.drawing.ink import Draft, Layer, Side
from rebuild.trade.drawing.side_view import SideView, dimension_place
from rebuild.words.making_details import DetailKind


def _run(draft: Draft, view: SideView, detail: Detail, unit: str, layer: Layer) -> tuple[float, float, float]:
    """A floor cut into the top over its length: where it begins, ends, and how high its floor stands."""
    x = view.place(detail, unit)
    end = x + needed(detail.long, detail, "length").at_mm
    radius = min(view.radius(x + 1e-6), view.radius(end - 1e-6))
    floor = radius - needed(detail.depth, detail, "depth").at_mm
    if floor <= -radius:
        view.depth(detail, radius, unit)
    up = 1.0 if math.cos(math.radians(detail.around_deg)) >= 0 else -1.0
    draft.run(layer, [(x, up * radius), (x, up * floor), (end, up * floor), (end, up * radius)])
    dimension_place(draft, view, detail, x)
    return x, end, up * floor


def _flat(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    x, end, floor = _run(draft, view, detail, unit, Layer.OUTLINE)
    long = f"{size_alone(detail.long, unit)} long"
    draft.note(((x + end) / 2, floor), *told(detail, unit, long, angle_words(detail)), side=Side.BOTTOM)


def _keyway(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    wide = needed(detail.size, detail, "width").at_mm
    toward = abs(math.sin(math.radians(detail.around_deg))) > 0.7
    if toward:  # seen from above: its two sides and round ends
        x = view.place(detail, unit)
        end = x + needed(detail.long, detail, "length").at_mm
        draft.box(Layer.OUTLINE, x, -wide / 2, end, wide / 2)
        dimension_place(draft, view, detail, x)
        floor = -wide / 2
    else:
        x, end, floor = _run(draft, view, detail, unit, Layer.HIDDEN)
    long = f"{size_alone(detail.long, unit)} long"
    draft.note(((x + end) / 2, floor), *told(detail, unit, long, angle_words(detail)), side=Side.BOTTOM)


def _groove(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    """Along the axis over its length; without one, round the part."""
    if detail.long is not None and detail.long.given:
        x, end, floor = _run(draft, view, detail, unit, Layer.HIDDEN)
        words = told(detail, unit, f"{size_alone(detail.long, unit)} long", angle_words(detail))
        draft.note(((x + end) / 2, floor), *words, side=Side.BOTTOM)
        return
    x, half = view.place(detail, unit), needed(detail.size, detail, "width").at_mm / 2
    radius = view.radius(x)
    floor = radius - needed(detail.depth, detail, "depth").at_mm
    for up in (1.0, -1.0):
        draft.run(
            Layer.OUTLINE,
            [
                (x - half, up * radius),
                (x - half, up * floor),
                (x + half, up * floor),
                (x + half, up * radius),
            ],
        )
    dimension_place(draft, view, detail, x)
    draft.note((x + half, -floor), *told(detail, unit, "all round"), side=Side.BOTTOM)


def _spline(draft: Draft, view: SideView, detail: Detail, unit: str) -> None:
    """Thin lines at the root over its length, and a thin line where it ends; no tooth is drawn."""
    x = view.place(detail, unit)
    end = x + needed(detail.long, detail, "length").at_mm
    root = view.radius((x + end) / 2) - needed(detail.depth, detail, "depth").at_mm
    for up in (root, -root):
        draft.line(Layer.THREAD, (x, up), (end, up))
    for stop in (x, end):
        if view.left < stop < view.right:
            draft.line(Layer.THREAD, (stop, -view.radius(stop)), (stop, view.radius(stop)))
    dimension_place(draft, view, detail, x)
    long = f"{size_alone(detail.long, unit)} long"
    number = f"{detail.count} off" if detail.count > 1 else ""
    draft.note(((x + end) / 2, -root), *told(detail, unit, number, long), side=Side.BOTTOM)


#: How each kind is drawn.
CUT_ALONG = {
    DetailKind.FLAT: _flat,
    DetailKind.KEYWAY: _keyway,
    DetailKind.OIL_GROOVE: _groove,
    DetailKind.SPLINE: _spline,
}
