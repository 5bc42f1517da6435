"""A laid-out drawing as vectors on a printed page."""

from __future__ import annotations

from typing import Any

from rebuild.sheets import fonts
from rebuild.sheets.paper import MM
from rebuild.trade.drawing.ink import Layer
from rebuild.trade.drawing.laid import LINE_STEP, Laid, Words, block, scale_words

#: Line width [points] and dashes [points] of each sort of line.
PENS: dict[Layer, tuple[float, tuple[float, ...]]] = {
    Layer.OUTLINE: (1.4, ()),
    Layer.HIDDEN: (0.7, (4, 2)),
    Layer.CENTRE: (0.5, (10, 2, 2, 2)),
    Layer.THREAD: (0.6, ()),
    Layer.HATCH: (0.4, ()),
    Layer.DIMENSION: (0.5, ()),
    Layer.NOTE: (0.5, ()),
}


def flowable(laid: Laid, width_mm: float, note: str = "") -> Any:
    """A drawing in the flow of a page, in the middle of ``width_mm``, with its scale underneath."""
    from reportlab.platypus import Flowable

    left, bottom, right, top = laid.bounds
    high = top - bottom + 8.0

    class Drawn(Flowable):  # type: ignore[misc]
        def wrap(self, _wide: float, _high: float) -> tuple[float, float]:
            return width_mm * MM, high * MM

        def draw(self) -> None:
            canvas = self.canv
            canvas.saveState()
            across = (width_mm - (right - left)) / 2 - left
            canvas.translate(across * MM, (6.0 - bottom) * MM)
            paint(canvas, laid)
            canvas.restoreState()
            canvas.setFont(fonts.NORMAL, 8)
            caption = f"scale {scale_words(laid.scale)}" + (f"; {note}" if note else "")
            canvas.drawString(0, 2, fonts.printable(caption))

    return Drawn()


def paint(canvas: Any, laid: Laid) -> None:
    """Draw on a canvas whose origin is the drawing's."""
    fonts.register()
    canvas.setLineCap(0)
    canvas.setLineJoin(0)
    for run in laid.runs:
        width, dashes = PENS[run.layer]
        canvas.setLineWidth(width)
        canvas.setDash(*((list(dashes), 0) if dashes else ([], 0)))
        path = canvas.beginPath()
        path.moveTo(run.points[0][0] * MM, run.points[0][1] * MM)
        for x, y in run.points[1:]:
            path.lineTo(x * MM, y * MM)
        canvas.drawPath(path)
    canvas.setDash([], 0)
    for tip, one, other in laid.heads:
        path = canvas.beginPath()
        path.moveTo(tip[0] * MM, tip[1] * MM)
        path.lineTo(one[0] * MM, one[1] * MM)
        path.lineTo(other[0] * MM, other[1] * MM)
        path.close()
        canvas.drawPath(path, stroke=0, fill=1)
    for words in laid.words:
        _clear(canvas, words, laid)
        _write(canvas, words, laid)


def _clear(canvas: Any, words: Words, laid: Laid) -> None:
    """Blank paper behind words, so that no line runs through them."""
    left, bottom, right, top = (value * MM for value in block(words, laid.style))
    canvas.setFillGray(1.0)
    canvas.rect(left, bottom, right - left, top - bottom, stroke=0, fill=1)
    canvas.setFillGray(0.0)


def _write(canvas: Any, words: Words, laid: Laid) -> None:
    size = laid.style.text * MM
    canvas.setFont(fonts.NORMAL, size)
    x, y = words.at[0] * MM, words.at[1] * MM
    top = y + size * LINE_STEP * (len(words.lines) - 1) / 2 - 0.36 * size
    write = {"centre": canvas.drawCentredString, "left": canvas.drawString, "right": canvas.drawRightString}[
        words.anchor
    ]
    for number, line in enumerate(words.lines):
        write(x, top - number * size * LINE_STEP, fonts.printable(line))
