"""Words and marks drawn straight on a page."""

from __future__ import annotations

from typing import Any

from rebuild.sheets import fonts


def write(canvas: Any, text: str, x: float, y: float, anchor: str, size: float) -> None:
    """A text whose left end, middle or right end (l, m, r) stands at a place."""
    canvas.setFillGray(0)
    canvas.setFont(fonts.NORMAL, size)
    shown = fonts.printable(text)
    {"l": canvas.drawString, "m": canvas.drawCentredString, "r": canvas.drawRightString}[anchor](x, y, shown)
