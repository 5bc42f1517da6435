"""The view of a part about its axis: its ends, its outline, its walls; a detail beyond them is refused."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.drawing.detail import Detail
from rebuild.trade.drawing.ink import Draft, Drawing, Layer, Line, Side
from rebuild.trade.sizes.show import show_both


@dataclass(frozen=True, slots=True)
class SideView:
    """The side view: its ends and its outlines."""

    left: float
    right: float
    outlines: tuple[Line, ...]
    whole_right: float
    inner: tuple[Line, ...] = ()

    @staticmethod
    def of(drawing: Drawing) -> SideView:
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
        return SideView(left, right, lines, drawing.bounds[2], inner)

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


def dimension_place(draft: Draft, view: SideView, detail: Detail, x: float) -> None:
    """Its place from the left end, above the view."""
    if detail.place is not None and x > view.left:
        draft.along(f"place of {detail.name}", detail.place, view.left, x, view.radius(x), Side.TOP)
