"""What is on a part beside its turned sizes, put on its drawing: holes, spots, flats, keyways, grooves, angles, teeth.

Each stands at a place along the axis from the left end and at an angle round it, 0° up, 90° towards the viewer. Teeth
and splines are in their simplified form: thin lines at the root, no tooth drawn (ISO 6414 and ISO 2203, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from rebuild.errors import BadEntry
from rebuild.trade.drawing.ink import Draft, Drawing, Layer, Line, Point, Side
from rebuild.trade.drawing.measure import Measure
from rebuild.trade.results.door import door
from rebuild.trade.sizes.show import show_both
from rebuild.words.making_details import DetailKind

#: A point of an ellipse every so many degrees.
_STEP_DEG = 15


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


@door()
def with_details(drawing: Drawing, details: Sequence[Detail], unit: str = "mm") -> Drawing:
    """A drawing with its details on it, each with a note and, where it stands along the axis, its place.

    Raises:
        BadEntry: a detail beyond the part's ends, deeper than the part, or without the size it needs.

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
    view = _View.of(drawing)
    for detail in details:
        _DRAWN[detail.kind](draft, view, detail, unit)
    return draft.close()


@dataclass(frozen=True, slots=True)
class _View:
    """The side view: its ends and its outlines."""

    left: float
    right: float
    outlines: tuple[Line, ...]
    whole_right: float
    inner: tuple[Line, ...] = ()

    @staticmethod
    def of(drawing: Drawing) -> _View:
        """The view about the axis: what hangs together from the left end on."""
        lines = tuple(one for one in drawing.strokes if isinstance(one, Line) and one.layer is Layer.OUTLINE)
        level = [one for one in lines if abs(one.a[0] - one.b[0]) > 1e-9]
        left = min(min(one.a[0], one.b[0]) for one in level or lines)
        right = left
        for one in sorted(level or lines, key=lambda line: min(line.a[0], line.b[0])):
            if min(one.a[0], one.b[0]) <= right + 1e-6:
                right = max(right, one.a[0], one.b[0])
        inner = tuple(
            one
            for one in drawing.strokes
            if isinstance(one, Line) and one.layer in (Layer.OUTLINE, Layer.HIDDEN)
        )
        return _View(left, right, lines, drawing.bounds[2], inner)

    def radius(self, x: float) -> float:
        """Half of the part's height at a place."""
        found = [0.0]
        for one in self.outlines:
            (x0, y0), (x1, y1) = sorted((one.a, one.b))
            if x0 - 1e-9 <= x <= x1 + 1e-9 and x1 - x0 > 1e-9:
                found.append(abs(y0 + (y1 - y0) * (x - x0) / (x1 - x0)))
        return max(found)

    def wall(self, x: float) -> float | None:
        """How thick one wall of a bored part is at a place; None where it is solid."""
        radius, inside = self.radius(x), 0.0
        for one in self.inner:
            (x0, y0), (x1, y1) = sorted((one.a, one.b))
            if x0 - 1e-9 <= x <= x1 + 1e-9 and x1 - x0 > 1e-9:
                at = abs(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
                inside = max(inside, at if at < radius - 1e-6 else 0.0)
        return radius - inside if inside > 0 else None

    @property
    def most(self) -> float:
        """Half of the part's largest height."""
        return max(
            max(abs(one.a[1]), abs(one.b[1])) for one in self.outlines if one.a[0] <= self.right + 1e-6
        )

    def place(self, detail: Detail, unit: str) -> float:
        """Where a detail begins, refused beyond the part."""
        at = self.left + (detail.place.at_mm if detail.place is not None else 0.0)
        end = at + (detail.long.at_mm if detail.long is not None else 0.0)
        if end > self.right + 1e-6:
            raise BadEntry(
                f"ends {show_both(end - self.left, unit)} from the left end, beyond the part, "
                f"{show_both(self.right - self.left, unit)} long.",
                where=detail.name,
                way_out="Mend its place or its length.",
            )
        return at

    def depth(self, detail: Detail, radius: float, unit: str) -> float:
        """How deep it goes, refused where the part ends."""
        depth = detail.depth.at_mm if detail.depth is not None else 2 * radius
        if depth > 2 * radius + 1e-6:
            raise BadEntry(
                f"is deeper than the part there, {show_both(2 * radius, unit)}.",
                where=f"{detail.name}, depth",
                value=show_both(depth, unit),
                way_out="Leave the depth empty for a hole that goes through.",
            )
        return depth


def _need(measure: Measure | None, detail: Detail, what: str) -> Measure:
    if measure is None or not measure.given:
        raise BadEntry(
            "is not given yet.", where=f"{detail.name}, {what}", way_out=f"A {detail.kind} needs its {what}."
        )
    return measure


def _dimension(draft: Draft, view: _View, detail: Detail, x: float) -> None:
    """Its place from the left end, above the view."""
    if detail.place is not None and x > view.left:
        draft.along(f"place of {detail.name}", detail.place, view.left, x, view.radius(x), Side.TOP)


def _told(detail: Detail, unit: str, *more: str, diameter: bool = False) -> tuple[str, ...]:
    size = ""
    if detail.size is not None and detail.size.given:
        size = " " + " to ".join(reversed(detail.size.lines(unit, diameter=diameter)))
        size += "" if diameter else " wide"
    deep = ""
    if detail.depth is not None and detail.depth.given:
        deep = " to ".join(reversed(detail.depth.lines(unit))) + " deep"
    return f"{detail.name}: {detail.kind}{size}", ", ".join(filter(None, (deep, *more)))


def _round(detail: Detail) -> str:
    return f"{detail.around_deg:g}° round"


def _cross_hole(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    x, size = view.place(detail, unit), _need(detail.size, detail, "diameter").at_mm
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
    _dimension(draft, view, detail, x)
    through = "" if detail.depth is not None else "through" if wall is None else "through one wall"
    where = Side.TOP if up > 0 and not detail.place else Side.BOTTOM
    draft.note(
        (x + half, up * radius), *_told(detail, unit, through, _round(detail), diameter=True), side=where
    )


def _ellipse(draft: Draft, centre: Point, across: float, up: float, layer: Layer) -> None:
    draft.run(
        layer,
        [
            (
                centre[0] + across * math.cos(math.radians(turn)),
                centre[1] + up * math.sin(math.radians(turn)),
            )
            for turn in range(0, 361, _STEP_DEG)
        ],
    )


def _spot(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    """The mark of a set screw: a drill's point, as deep as it is told, else a quarter of its diameter."""
    x, size = view.place(detail, unit), _need(detail.size, detail, "diameter").at_mm
    radius, half = view.radius(x), size / 2
    up = math.cos(math.radians(detail.around_deg))
    deep = detail.depth.at_mm if detail.depth is not None else size / 4
    if abs(up) > 0.2:
        draft.run(
            Layer.OUTLINE,
            [(x - half, up * radius), (x, up * (radius - deep)), (x + half, up * radius)],
        )
    else:
        draft.circle(Layer.OUTLINE, (x, up * radius), size)
    draft.line(Layer.CENTRE, (x, up * 1.15 * radius), (x, up * (radius - 2 * deep)))
    _dimension(draft, view, detail, x)
    draft.note((x + half, up * radius), *_told(detail, unit, _round(detail), diameter=True), side=Side.BOTTOM)


def _run(draft: Draft, view: _View, detail: Detail, unit: str, layer: Layer) -> tuple[float, float, float]:
    """A floor cut into the top over its length: where it begins, ends, and how high its floor stands."""
    x = view.place(detail, unit)
    end = x + _need(detail.long, detail, "length").at_mm
    radius = min(view.radius(x + 1e-6), view.radius(end - 1e-6))
    floor = radius - _need(detail.depth, detail, "depth").at_mm
    if floor <= -radius:
        view.depth(detail, radius, unit)
    up = 1.0 if math.cos(math.radians(detail.around_deg)) >= 0 else -1.0
    draft.run(layer, [(x, up * radius), (x, up * floor), (end, up * floor), (end, up * radius)])
    _dimension(draft, view, detail, x)
    return x, end, up * floor


def _flat(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    x, end, floor = _run(draft, view, detail, unit, Layer.OUTLINE)
    long = f"{_only(detail.long, unit)} long"
    draft.note(((x + end) / 2, floor), *_told(detail, unit, long, _round(detail)), side=Side.BOTTOM)


def _keyway(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    wide = _need(detail.size, detail, "width").at_mm
    toward = abs(math.sin(math.radians(detail.around_deg))) > 0.7
    if toward:  # seen from above: its two sides and round ends
        x = view.place(detail, unit)
        end = x + _need(detail.long, detail, "length").at_mm
        draft.box(Layer.OUTLINE, x, -wide / 2, end, wide / 2)
        _dimension(draft, view, detail, x)
        floor = -wide / 2
    else:
        x, end, floor = _run(draft, view, detail, unit, Layer.HIDDEN)
    long = f"{_only(detail.long, unit)} long"
    draft.note(((x + end) / 2, floor), *_told(detail, unit, long, _round(detail)), side=Side.BOTTOM)


def _groove(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    """Along the axis over its length; without one, round the part."""
    if detail.long is not None and detail.long.given:
        x, end, floor = _run(draft, view, detail, unit, Layer.HIDDEN)
        words = _told(detail, unit, f"{_only(detail.long, unit)} long", _round(detail))
        draft.note(((x + end) / 2, floor), *words, side=Side.BOTTOM)
        return
    x, half = view.place(detail, unit), _need(detail.size, detail, "width").at_mm / 2
    radius = view.radius(x)
    floor = radius - _need(detail.depth, detail, "depth").at_mm
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
    _dimension(draft, view, detail, x)
    draft.note((x + half, -floor), *_told(detail, unit, "all round"), side=Side.BOTTOM)


def _angle(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    x = view.place(detail, unit)
    _dimension(draft, view, detail, x)
    draft.note((x, -view.radius(x)), f"{detail.name}: {detail.around_deg:g}°", side=Side.BOTTOM)


def _spline(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    """Thin lines at the root over its length, and a thin line where it ends; no tooth is drawn."""
    x = view.place(detail, unit)
    end = x + _need(detail.long, detail, "length").at_mm
    root = view.radius((x + end) / 2) - _need(detail.depth, detail, "depth").at_mm
    for up in (root, -root):
        draft.line(Layer.THREAD, (x, up), (end, up))
    for stop in (x, end):
        if view.left < stop < view.right:
            draft.line(Layer.THREAD, (stop, -view.radius(stop)), (stop, view.radius(stop)))
    _dimension(draft, view, detail, x)
    long = f"{_only(detail.long, unit)} long"
    number = f"{detail.count} off" if detail.count > 1 else ""
    draft.note(((x + end) / 2, -root), *_told(detail, unit, number, long), side=Side.BOTTOM)


def _holes_on_circle(draft: Draft, view: _View, detail: Detail, unit: str) -> None:
    """A view from the end, on the right: the circle, its holes, the first at its angle from the top, clockwise."""
    hole, circle = _need(detail.size, detail, "diameter"), _need(detail.circle, detail, "circle")
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
    lines = _told(detail, unit, deep, on, f"first at {detail.around_deg:g}°", diameter=True)
    head = lines[0].replace(f"{detail.kind} ", f"{detail.count} holes ")
    side = Side.TOP if first[1] >= 0 else Side.BOTTOM
    edge = (first[0], first[1] + math.copysign(hole.at_mm / 2, first[1] or 1.0))
    draft.note(edge, head, lines[1], side=side)


def _diameters_inside(draft: Draft, view: _View) -> None:
    """Diameters on the right go through the view: their lines would run across the view from the end."""
    for at, one in enumerate(draft.dimensions):
        if not (one.upright and one.side is Side.RIGHT and one.inline_x is None and one.edge is None):
            continue
        x = one.a[0] - 0.15 * (view.right - view.left)
        moved = replace(one, a=(x, one.a[1]), b=(x, one.b[1]), side=Side.TOP, inline_x=x)
        draft.dimensions[at] = moved


def _only(measure: Measure | None, unit: str) -> str:
    return " to ".join(reversed(measure.lines(unit))) if measure is not None else ""


_DRAWN = {
    DetailKind.CROSS_HOLE: _cross_hole,
    DetailKind.SPOT: _spot,
    DetailKind.FLAT: _flat,
    DetailKind.KEYWAY: _keyway,
    DetailKind.OIL_GROOVE: _groove,
    DetailKind.ANGLE: _angle,
    DetailKind.HOLES_ON_CIRCLE: _holes_on_circle,
    DetailKind.SPLINE: _spline,
}
