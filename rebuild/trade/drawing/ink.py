"""What a drawing is made of: strokes on layers, hatched regions, dimensions that measure, notes that point."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

from rebuild.trade.drawing.measure import Measure

Point = tuple[float, float]


class Layer(StrEnum):
    """The sort of line, as shop drawings tell them apart."""

    OUTLINE = "outline"
    HIDDEN = "hidden"
    CENTRE = "centre"
    THREAD = "thread"
    HATCH = "hatch"
    DIMENSION = "dimension"
    NOTE = "note"


class Side(StrEnum):
    """The side of the view a dimension stands on."""

    TOP = "top"
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stroke."""

    layer: Layer
    a: Point
    b: Point

    def points(self) -> tuple[Point, ...]:
        """Its ends."""
        return (self.a, self.b)


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, anticlockwise from ``start_deg`` to ``end_deg``; a whole one from 0 to 360."""

    layer: Layer
    centre: Point
    radius: float
    start_deg: float = 0.0
    end_deg: float = 360.0

    @property
    def whole(self) -> bool:
        """Whether it is a full circle."""
        return self.end_deg - self.start_deg >= 360.0 - 1e-9

    def points(self) -> tuple[Point, ...]:
        """Points along it, close enough to look round on paper."""
        span = self.end_deg - self.start_deg
        count = max(16, round(abs(span) / 5.0))
        angles = (math.radians(self.start_deg + span * n / count) for n in range(count + 1))
        return tuple(
            (self.centre[0] + self.radius * math.cos(t), self.centre[1] + self.radius * math.sin(t))
            for t in angles
        )


Stroke = Line | Arc


@dataclass(frozen=True, slots=True)
class Region:
    """A closed outline that is hatched: cut metal."""

    loop: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Dimension:
    """A size between two points of the geometry, measured along x, or along y when ``upright``.

    ``inline_x`` puts an upright dimension line inside the view; its text then hangs above or below. ``edge``
    is the place its own view ends at, where the drawing has several. What the points measure is what the
    sheet says: ``measured_mm`` equals ``measure.at_mm``.
    """

    role: str
    a: Point
    b: Point
    measure: Measure
    upright: bool
    side: Side
    diameter: bool = False
    inline_x: float | None = None
    edge: float | None = None

    @property
    def measured_mm(self) -> float:
        """The distance of its two points along the measured direction."""
        axis = 1 if self.upright else 0
        return abs(self.b[axis] - self.a[axis])


@dataclass(frozen=True, slots=True)
class Note:
    """Words on a leader that points at ``at``."""

    at: Point
    lines: tuple[str, ...]
    side: Side = Side.TOP


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing in mm, x to the right and y up."""

    title: str
    strokes: tuple[Stroke, ...]
    regions: tuple[Region, ...]
    dimensions: tuple[Dimension, ...]
    notes: tuple[Note, ...]

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of what is drawn, dimensions not counted."""
        points = [point for stroke in self.strokes for point in stroke.points()]
        xs, ys = [point[0] for point in points], [point[1] for point in points]
        return min(xs), min(ys), max(xs), max(ys)

    def dimension(self, role: str) -> Dimension:
        """The dimension of one role. Raises KeyError."""
        for dimension in self.dimensions:
            if dimension.role == role:
                return dimension
        raise KeyError(role)


@dataclass(slots=True)
class Draft:
    """A drawing being put together."""

    title: str
    strokes: list[Stroke] = field(default_factory=list)
    regions: list[Region] = field(default_factory=list)
    dimensions: list[Dimension] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)

    def line(self, layer: Layer, a: Point, b: Point) -> None:
        """One stroke, left out when it has no length."""
        if math.dist(a, b) > 1e-9:
            self.strokes.append(Line(layer, a, b))

    def run(self, layer: Layer, points: Iterable[Point]) -> None:
        """Strokes from point to point."""
        listed = list(points)
        for a, b in itertools.pairwise(listed):
            self.line(layer, a, b)

    def box(self, layer: Layer, left: float, bottom: float, right: float, top: float) -> None:
        """A rectangle."""
        self.run(layer, [(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)])

    def circle(self, layer: Layer, centre: Point, diameter: float) -> None:
        """A whole circle."""
        self.strokes.append(Arc(layer, centre, diameter / 2))

    def cross(self, centre: Point, diameter: float) -> None:
        """The two centre lines of a circle."""
        reach = 0.6 * diameter
        x, y = centre
        self.line(Layer.CENTRE, (x - reach, y), (x + reach, y))
        self.line(Layer.CENTRE, (x, y - reach), (x, y + reach))

    def along(
        self, role: str, measure: Measure, x0: float, x1: float, y: float, side: Side = Side.BOTTOM
    ) -> None:
        """A length between two places along the axis, taken at height ``y``."""
        self.dimensions.append(Dimension(role, (x0, y), (x1, y), measure, False, side))

    def across(
        self,
        role: str,
        measure: Measure,
        x: float,
        side: Side,
        *,
        inline: bool = False,
        centre_y: float = 0.0,
    ) -> None:
        """A diameter, taken at ``x``; ``inline`` draws it through the view with its text above or below."""
        half = measure.at_mm / 2
        self.dimensions.append(
            Dimension(
                role,
                (x, centre_y - half),
                (x, centre_y + half),
                measure,
                True,
                side,
                True,
                x if inline else None,
            )
        )

    def height(self, role: str, measure: Measure, x: float, y0: float, y1: float, side: Side) -> None:
        """A height that is no diameter, beside the view that ends at ``x``."""
        self.dimensions.append(Dimension(role, (x, y0), (x, y1), measure, True, side, edge=x))

    def note(self, at: Point, *lines: str, side: Side = Side.TOP) -> None:
        """Words pointing at a place."""
        self.notes.append(Note(at, tuple(line for line in lines if line), side))

    def close(self) -> Drawing:
        """The finished drawing."""
        return Drawing(
            self.title, tuple(self.strokes), tuple(self.regions), tuple(self.dimensions), tuple(self.notes)
        )
