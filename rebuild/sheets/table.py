"""The one table of single sheets: ruled rows of paragraphs, wide for writing or dense for one page.

The book's long tables are another thing (``book/ruled.py``): they set plain lines themselves, since a paragraph
a cell is slow there, and lead to one another.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from rebuild.sheets import fonts
from rebuild.sheets.paper import MM, paragraph, words

Build = Callable[[float], int]
SIZES = (8.6, 8.2, 7.8, 7.4, 7.0, 6.6)


@dataclass(frozen=True, slots=True)
class Look:
    """How cells stand between their rules: against which edge, and with how much room around them [pt]."""

    against: str
    left: float
    right: float
    above: float
    below: float


WIDE = Look("MIDDLE", 2, 4, 1.5, 2.5)
DENSE = Look("TOP", 2, 3, 0.8, 1.6)


def on_one_page(write: Build, sizes: Sequence[float] = SIZES) -> int:
    """Call ``write`` with smaller and smaller letters until one page holds it; returns the pages of the last try."""
    pages = 0
    for size in sizes:
        pages = write(size)
        if pages == 1:
            break
    return pages


def cell(text: str, size: float, *, bold: bool = False, grey: bool = False) -> Any:
    """A paragraph of plain text in a size [points]."""
    from reportlab.lib import colors
    from reportlab.lib.styles import ParagraphStyle

    fonts.register()
    like = ParagraphStyle(
        "cell",
        fontName=fonts.BOLD if bold else fonts.NORMAL,
        fontSize=size,
        leading=size * 1.16,
        textColor=colors.Color(0.3, 0.3, 0.3) if grey else colors.black,
    )
    return paragraph(text, like)


def ruled(
    rows: Sequence[Sequence[Any]],
    widths_mm: Sequence[float],
    *,
    head: bool = True,
    least_mm: float = 0.0,
    boxed: Sequence[int] = (),
) -> Any:
    """A table with thin rules between its rows; columns of ``boxed`` are framed, to be written in.

    Strings become paragraphs, those of the head small ones.
    """
    from reportlab.lib import colors

    cells = [
        [words(one, "small" if head and at == 0 else "body") if isinstance(one, str) else one for one in row]
        for at, row in enumerate(rows)
    ]
    made = _table(cells, widths_mm, WIDE, head=head, after=range(len(rows)), least_mm=least_mm)
    frames = [("BOX", (column, 1 if head else 0), (column, -1), 0.9, colors.black) for column in boxed]
    made.setStyle(frames)
    return made


def dense(
    head: Sequence[str],
    rows: Sequence[Sequence[Any]],
    widths_mm: Sequence[float],
    size: float,
    starts: Sequence[int] = (),
) -> Any:
    """A table in letters of ``size`` [points]; ``starts`` are the rows that begin a group (0: first).

    Without ``starts`` every row is ruled off; with them only the groups are. Strings become paragraphs.
    """
    cells = [[cell(word, size - 0.6, grey=True) for word in head]]
    cells += [[cell(one, size) if isinstance(one, str) else one for one in row] for row in rows]
    return _table(cells, widths_mm, DENSE, head=True, after=starts or range(len(rows)))


def _table(
    cells: list[list[Any]],
    widths_mm: Sequence[float],
    look: Look,
    *,
    head: bool,
    after: Sequence[int],
    least_mm: float = 0.0,
) -> Any:
    """Cells with a thin rule under the rows of ``after`` and the last, and a firm one under the head."""
    from reportlab.lib import colors
    from reportlab.platypus import Table, TableStyle

    grey = colors.Color(0.55, 0.55, 0.55)
    commands: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), look.against),
        ("LEFTPADDING", (0, 0), (-1, -1), look.left),
        ("RIGHTPADDING", (0, 0), (-1, -1), look.right),
        ("TOPPADDING", (0, 0), (-1, -1), look.above),
        ("BOTTOMPADDING", (0, 0), (-1, -1), look.below),
        *(("LINEBELOW", (0, at), (-1, at), 0.4, grey) for at in (*after, -1)),
    ]
    if head:
        commands.append(("LINEBELOW", (0, 0), (-1, 0), 0.9, colors.black))
    least = [0.0 if head and at == 0 else least_mm * MM for at in range(len(cells))] if least_mm else None
    made = Table(cells, [width * MM for width in widths_mm], repeatRows=1 if head else 0, minRowHeights=least)
    made.setStyle(TableStyle(commands))
    made.hAlign = "LEFT"
    return made
