"""The page of everything printed: paper sizes, the frame with its heading and foot, and the letters' sizes.

Sized to be read at arm's length with dirty gloves: body 10.5 points and up, limits larger, room to write.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.errors import BadEntry, FileTrouble
from rebuild.sheets import fonts
from rebuild.work.records.wall_clock import now

if TYPE_CHECKING:
    from reportlab.lib.styles import ParagraphStyle

MM = 72.0 / 25.4
MARGIN_MM = 14.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, upright [mm]."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def inside_mm(self) -> float:
        """The width between the margins."""
        return self.width_mm - 2 * MARGIN_MM


A4 = Paper("A4", 210.0, 297.0)
LETTER = Paper("Letter", 215.9, 279.4)
PAPERS = (A4, LETTER)


def paper(name: str) -> Paper:
    """A paper by its name. Raises BadEntry.

    >>> paper("letter").width_mm
    215.9
    """
    for one in PAPERS:
        if one.name.lower() == name.strip().lower():
            return one
    raise BadEntry("is not a paper here.", where="Paper", value=name, way_out="Choose A4 or Letter.")


@dataclass(frozen=True, slots=True)
class Heading:
    """What stands on top of every page: what it is, its title, lines on the right, and a mark that must be seen."""

    kind: str
    title: str
    right: tuple[str, ...] = ()
    mark: str = ""
    foot: str = ""


TOP_MM = 24.0
FOOT_MM = 13.0


def build(
    target: Path,
    heading: Heading,
    story: Sequence[Any],
    on: Paper = A4,
    *,
    printed: dt.datetime | None = None,
) -> int:
    """Write a PDF; returns how many pages it has.

    Raises:
        FileTrouble: it cannot be written there.
    """
    from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

    fonts.register()
    counting = _counting_canvas(heading, on, printed or now())
    document = BaseDocTemplate(
        str(target), pagesize=(on.width_mm * MM, on.height_mm * MM), title=f"{heading.kind} {heading.title}",
        author="", creator="Rebuild", invariant=1,
    )  # fmt: skip
    frame = Frame(
        MARGIN_MM * MM, FOOT_MM * MM, on.inside_mm * MM, (on.height_mm - TOP_MM - FOOT_MM) * MM,
        leftPadding=0, rightPadding=0, topPadding=2, bottomPadding=2,
    )  # fmt: skip
    document.addPageTemplates([PageTemplate(frames=[frame])])
    try:
        document.build(list(story), canvasmaker=counting)
    except OSError as trouble:
        raise FileTrouble(
            f"the page cannot be written: {trouble.strerror}.", where=target.name,
            way_out="Choose another folder, or close the program that shows it.",
        ) from trouble  # fmt: skip
    return int(document.page)


def _counting_canvas(heading: Heading, on: Paper, printed: dt.datetime) -> type:
    """A canvas that draws heading and foot once it knows how many pages there are."""
    from reportlab.pdfgen.canvas import Canvas

    class Counting(Canvas):  # type: ignore[misc]
        def __init__(self, *given: Any, **named: Any) -> None:
            super().__init__(*given, **named)
            self._kept: list[dict[str, Any]] = []

        def showPage(self) -> None:
            self._kept.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for number, state in enumerate(self._kept, 1):
                self.__dict__.update(state)
                _head(self, heading, on)
                _foot(self, heading, on, f"{number} / {len(self._kept)}", printed)
                super().showPage()
            super().save()

    return Counting


def _head(canvas: Any, heading: Heading, on: Paper) -> None:
    left, right = MARGIN_MM * MM, (on.width_mm - MARGIN_MM) * MM
    top = (on.height_mm - 8.0) * MM
    canvas.setFont(fonts.NORMAL, 9)
    canvas.drawString(left, top - 7, fonts.printable(heading.kind))
    canvas.setFont(fonts.NORMAL, 9.5)
    beside = 0.0
    for number, line in enumerate(heading.right[:3]):
        shown = fonts.printable(line)
        canvas.drawRightString(right, top - 7 - 11.5 * number, shown)
        beside = max(beside, canvas.stringWidth(shown, fonts.NORMAL, 9.5))
    edge = right - beside - 12
    if heading.mark:
        edge = _mark(canvas, heading.mark, edge, top)
    shown = fonts.printable(heading.title)
    size = 19.0
    while size > 10 and canvas.stringWidth(shown, fonts.BOLD, size) > edge - left:
        size -= 0.5
    canvas.setFont(fonts.BOLD, size)
    canvas.drawString(left, top - 26, shown)
    canvas.setLineWidth(1.4)
    canvas.line(left, top - 34, right, top - 34)


def _mark(canvas: Any, mark: str, right: float, top: float) -> float:
    """The boxed mark, its right end at ``right``; returns where the room before it ends."""
    words = fonts.printable(mark)
    wide = canvas.stringWidth(words, fonts.BOLD, 12) + 12
    canvas.setLineWidth(1.4)
    canvas.rect(right - wide, top - 27, wide, 19)
    canvas.setFont(fonts.BOLD, 12)
    canvas.drawCentredString(right - wide / 2, top - 21.5, words)
    return float(right - wide - 10)


def _foot(canvas: Any, heading: Heading, on: Paper, page: str, printed: dt.datetime) -> None:
    left, right = MARGIN_MM * MM, (on.width_mm - MARGIN_MM) * MM
    low = 9.0 * MM
    canvas.setLineWidth(0.4)
    canvas.line(left, low, right, low)
    canvas.setFont(fonts.NORMAL, 8)
    canvas.drawString(left, low - 9, fonts.printable(heading.foot))
    canvas.drawRightString(right, low - 9, f"printed {printed:%Y-%m-%d %H:%M}   {page}")


def style(name: str = "body") -> ParagraphStyle:
    """One of the paragraph styles: body, small, strong, large, heading, caution."""
    from reportlab.lib.styles import ParagraphStyle

    fonts.register()
    sizes = {"body": 10.5, "small": 8.5, "strong": 10.5, "large": 14.0, "heading": 9.5, "caution": 9.0}
    size = sizes[name]
    return ParagraphStyle(
        name, fontName=fonts.BOLD if name in ("strong", "large", "heading") else fonts.NORMAL, fontSize=size,
        leading=size * 1.22, spaceBefore=6 if name == "heading" else 0, spaceAfter=2 if name == "heading" else 0,
    )  # fmt: skip


def words(text: str, kind: str = "body") -> Any:
    """A paragraph of plain text; line ends are kept."""
    from xml.sax.saxutils import escape

    from reportlab.platypus import Paragraph

    return Paragraph(escape(fonts.printable(text)).replace("\n", "<br/>"), style(kind))


def ruled(
    rows: Sequence[Sequence[Any]],
    widths_mm: Sequence[float],
    *,
    head: bool = True,
    least_mm: float = 0.0,
    boxed: Sequence[int] = (),
) -> Any:
    """A table with thin rules between its rows; columns of ``boxed`` are framed, to be written in.

    A row that is a mere string is turned into paragraphs cell by cell.
    """
    from reportlab.lib import colors
    from reportlab.platypus import Table, TableStyle

    cells = [
        [
            words(cell, "small" if head and number == 0 else "body") if isinstance(cell, str) else cell
            for cell in row
        ]
        for number, row in enumerate(rows)
    ]
    heights = [None if head and number == 0 else (least_mm * MM or None) for number in range(len(rows))]
    grey = colors.Color(0.55, 0.55, 0.55)
    commands: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, grey),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
        ("TOPPADDING", (0, 0), (-1, -1), 1.5),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.5),
    ]
    if head:
        commands.append(("LINEBELOW", (0, 0), (-1, 0), 0.9, colors.black))
    commands += [("BOX", (column, 1 if head else 0), (column, -1), 0.9, colors.black) for column in boxed]
    made = Table(cells, [width * MM for width in widths_mm], None, repeatRows=1 if head else 0)
    if least_mm:
        made = Table(
            cells, [width * MM for width in widths_mm], None, repeatRows=1 if head else 0,
            minRowHeights=[height or 0 for height in heights],
        )  # fmt: skip
    made.setStyle(TableStyle(commands))
    made.hAlign = "LEFT"
    return made
