"""A line drawing of strokes as vectors on a printed page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from rebuild.sheets import fonts
from rebuild.sheets.paper import MM
from rebuild.trade.drawing.sketch import Drawing, Weight
from rebuild.trade.lubrication.leaders import around

#: Line width [points], grey (0 is black) and dashes [points] of each weight, for a drawing some 60 mm wide.
PENS: dict[Weight, tuple[float, float, tuple[float, ...]]] = {
    Weight.OUTLINE: (0.9, 0.0, ()),
    Weight.THIN: (0.45, 0.25, ()),
    Weight.CENTRE: (0.4, 0.25, (7, 2, 1.5, 2)),
    Weight.MARK: (1.3, 0.0, ()),
}
#: Small drawings are drawn with finer lines.
FULL_WIDTH_MM = 60.0

#: How far outside the field the numbers of marks stand, and how close together [mm].
MARK_GAP_MM, MARK_PITCH_MM = 4.0, 5.2
#: The room round a field whose marks are numbered.
FREE_MM = MARK_GAP_MM + MARK_PITCH_MM / 2

Mark = tuple[float, float, str]


def sketch_flowable(drawing: Drawing | None, width_mm: float, marks: Sequence[Mark] = ()) -> Any:
    """A drawing in the flow of a page, ``width_mm`` wide; ``marks`` are spots at shares of its field.

    Each mark's number stands in a ring outside the field, at the end of a leader.
    """
    from reportlab.platypus import Flowable

    high_mm = 0.0 if drawing is None else width_mm * drawing.height / drawing.width
    free_mm = FREE_MM if marks else 0.0

    class Sketched(Flowable):  # type: ignore[misc]
        def wrap(self, _wide: float, _high: float) -> tuple[float, float]:
            return (width_mm + 2 * free_mm) * MM, (high_mm + 2 * free_mm) * MM

        def draw(self) -> None:
            if drawing is not None:
                self.canv.translate(free_mm * MM, free_mm * MM)
                paint(self.canv, drawing, width_mm * MM)
                mark_all(self.canv, marks, width_mm, high_mm)

    return Sketched()


def paint(canvas: Any, drawing: Drawing, width: float) -> None:
    """Draw on a canvas whose origin is the drawing's lower left corner; ``width`` in points."""
    fonts.register()
    scale = width / drawing.width
    finer = min(1.0, max(0.45, width / MM / FULL_WIDTH_MM))
    canvas.saveState()
    for stroke in drawing.strokes:
        wide, grey, dashes = PENS[stroke.weight]
        canvas.setLineWidth(wide * finer)
        canvas.setStrokeGray(grey)
        canvas.setFillGray(grey)
        canvas.setDash(*(([dash * finer for dash in dashes], 0) if dashes else ([], 0)))
        path = canvas.beginPath()
        places = [(x * scale, (drawing.height - y) * scale) for x, y in stroke.points]
        path.moveTo(*places[0])
        for place in places[1:]:
            path.lineTo(*place)
        if stroke.closed:
            path.close()
        canvas.drawPath(path, stroke=1, fill=1 if stroke.filled else 0)
    canvas.setDash([], 0)
    canvas.setFillGray(0.2)
    if width / MM > FULL_WIDTH_MM / 2:
        canvas.setFont(fonts.NORMAL, 7)
        for word in drawing.words:
            at = (word.at[0] * scale, (drawing.height - word.at[1]) * scale)
            draw = {"l": canvas.drawString, "m": canvas.drawCentredString, "r": canvas.drawRightString}[
                word.anchor
            ]
            draw(*at, fonts.printable(word.text))
    canvas.restoreState()


def mark_all(canvas: Any, marks: Sequence[Mark], width_mm: float, high_mm: float) -> None:
    """Numbers in rings round a field that begins at the origin; leaders first, so that none lies over a number."""
    spots = [(x * width_mm, (1 - y) * high_mm) for x, y, _text in marks]
    outside = around(spots, width_mm, high_mm, MARK_GAP_MM, MARK_PITCH_MM) if marks else []
    canvas.setLineWidth(0.35)
    for (x, y), (far_x, far_y) in zip(spots, outside, strict=True):
        canvas.line(x * MM, y * MM, far_x * MM, far_y * MM)
        canvas.circle(x * MM, y * MM, 0.9, stroke=0, fill=1)
    for (x, y), (_x, _y, text) in zip(outside, marks, strict=True):
        _mark(canvas, x * MM, y * MM, text)


def _mark(canvas: Any, x: float, y: float, text: str) -> None:
    """A ring with a number in it, on blank paper."""
    canvas.saveState()
    size = 7.0 if len(text) < 3 else 5.6
    r = 6.2
    canvas.setFillGray(1.0)
    canvas.setStrokeGray(0.0)
    canvas.setLineWidth(0.8)
    canvas.circle(x, y, r, stroke=1, fill=1)
    canvas.setFillGray(0.0)
    canvas.setFont(fonts.BOLD, size)
    canvas.drawCentredString(x, y - size * 0.36, fonts.printable(text))
    canvas.restoreState()
