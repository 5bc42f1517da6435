"""A laid-out drawing as vectors on a printed page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from rebuild.sheets import fonts
from rebuild.sheets.paper import MM
from rebuild.trade.drawing.ink import Layer
from rebuild.trade.drawing.laid import LINE_STEP, Laid, Words, block, scale_words
from rebuild.trade.drawing.title import ROWS

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


#: Height of the title strip, and of its labels and texts [mm].
STRIP_MM = 18.0
_LABEL_MM = 2.5
#: How a text is set: in at most so many lines, of this size, the first on a line so far under the cell's top [mm].
_SET = ((1, 2.9, 5.4), (2, 2.5, 5.4), (3, 1.8, 4.7), (3, 1.5, 4.7), (4, 1.2, 4.5))


def flowable(laid: Laid, width_mm: float, note: str = "", strip: Sequence[tuple[str, str]] = ()) -> Any:
    """A drawing in the flow of a page, in the middle of ``width_mm``; underneath its title strip, or else its scale."""
    from reportlab.platypus import Flowable

    left, bottom, right, top = laid.bounds
    foot = STRIP_MM + 2.0 if strip else 6.0
    high = top - bottom + foot + 2.0

    class Drawn(Flowable):  # type: ignore[misc]
        def wrap(self, _wide: float, _high: float) -> tuple[float, float]:
            return width_mm * MM, high * MM

        def draw(self) -> None:
            canvas = self.canv
            canvas.saveState()
            across = (width_mm - (right - left)) / 2 - left
            canvas.translate(across * MM, (foot - bottom) * MM)
            paint(canvas, laid)
            canvas.restoreState()
            if strip:
                title_strip(canvas, strip, width_mm)
                return
            canvas.setFont(fonts.NORMAL, 8)
            caption = f"scale {scale_words(laid.scale)}" + (f"; {note}" if note else "")
            canvas.drawString(0, 2, fonts.printable(caption))

    return Drawn()


def title_strip(canvas: Any, strip: Sequence[tuple[str, str]], width_mm: float) -> None:
    """Ruled cells over the whole width: a small label, its text under it in as small a type as it needs."""
    fonts.register()
    canvas.setLineWidth(0.7)
    half = STRIP_MM / 2
    upper = len(ROWS[0])
    for foot, cells, shares in ((half, strip[:upper], ROWS[0]), (0.0, strip[upper:], ROWS[1])):
        x = 0.0
        for (label, text), share in zip(cells, shares, strict=True):
            wide = share * width_mm
            canvas.rect(x * MM, foot * MM, wide * MM, half * MM)
            canvas.setFont(fonts.NORMAL, _LABEL_MM * MM)
            canvas.drawString((x + 0.8) * MM, (foot + half - 2.6) * MM, label)
            lines, size, down = _fitted(canvas, fonts.printable(text), (wide - 1.6) * MM)
            canvas.setFont(fonts.NORMAL, size)
            for number, line in enumerate(lines):
                canvas.drawString((x + 0.8) * MM, (foot + half - down) * MM - number * 1.05 * size, line)
            x += wide


def _fitted(canvas: Any, text: str, room: float) -> tuple[list[str], float, float]:
    """A text in one line, else in more and smaller ones whose feet stay within the cell; their size, the first's place.

    What four lines do not hold ends in an ellipsis: it is said in full elsewhere on the sheet.
    """
    for setting in _SET:
        most, size, down = setting[0], setting[1] * MM, setting[2]
        lines = [""]
        for word in text.split():
            longer = f"{lines[-1]} {word}".strip()
            if canvas.stringWidth(longer, fonts.NORMAL, size) <= room or not lines[-1]:
                lines[-1] = longer
            else:
                lines.append(word)
        if len(lines) <= most and all(canvas.stringWidth(one, fonts.NORMAL, size) <= room for one in lines):
            break
    if len(lines) > most:
        lines = [*lines[: most - 1], f"{lines[most - 1]}…"]
    return lines, size, down


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
