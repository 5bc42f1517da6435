"""A dense printed table that is set smaller until it fits on one page."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from rebuild.sheets import fonts
from rebuild.sheets.paper import MM

Build = Callable[[float], int]
SIZES = (8.6, 8.2, 7.8, 7.4, 7.0, 6.6)


def on_one_page(write: Build) -> int:
    """Call ``write`` with smaller and smaller letters until one page holds it; returns the pages of the last try."""
    pages = 0
    for size in SIZES:
        pages = write(size)
        if pages == 1:
            break
    return pages


def cell(text: str, size: float, *, bold: bool = False, grey: bool = False) -> Any:
    """A paragraph of plain text in a size [points]."""
    from xml.sax.saxutils import escape

    from reportlab.lib import colors
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph

    fonts.register()
    style = ParagraphStyle(
        "cell", fontName=fonts.BOLD if bold else fonts.NORMAL, fontSize=size, leading=size * 1.16,
        textColor=colors.Color(0.3, 0.3, 0.3) if grey else colors.black,
    )  # fmt: skip
    return Paragraph(escape(fonts.printable(text)).replace("\n", "<br/>"), style)


def dense(
    head: Sequence[str],
    rows: Sequence[Sequence[Any]],
    widths_mm: Sequence[float],
    size: float,
    rules: Sequence[int] = (),
) -> Any:
    """A table with a firm rule under its head and thin ones; ``rules`` are the rows that begin a group (0: first).

    Without ``rules`` every row is ruled off; with them only the groups are. Strings become paragraphs.
    """
    from reportlab.lib import colors
    from reportlab.platypus import Table, TableStyle

    cells = [[cell(word, size - 0.6, grey=True) for word in head]]
    cells += [[cell(one, size) if isinstance(one, str) else one for one in row] for row in rows]
    grey = colors.Color(0.6, 0.6, 0.6)
    commands: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"), ("LINEBELOW", (0, 0), (-1, 0), 0.9, colors.black),
        ("LEFTPADDING", (0, 0), (-1, -1), 2), ("RIGHTPADDING", (0, 0), (-1, -1), 3),
        ("TOPPADDING", (0, 0), (-1, -1), 0.8), ("BOTTOMPADDING", (0, 0), (-1, -1), 1.6),
        ("LINEBELOW", (0, -1), (-1, -1), 0.4, grey),
    ]  # fmt: skip
    starts = rules if rules else range(len(rows))
    commands += [("LINEABOVE", (0, at + 1), (-1, at + 1), 0.35, grey) for at in starts if at]
    made = Table(cells, [width * MM for width in widths_mm], repeatRows=1)
    made.setStyle(TableStyle(commands))
    made.hAlign = "LEFT"
    return made
