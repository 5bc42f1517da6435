"""The page of everything printed: paper sizes, the frame with its heading and foot, and the letters' sizes.

Sized to be read at arm's length with dirty gloves: body 10.5 points and up, limits larger, room to write.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from rebuild.errors import BadEntry, FileTrouble
from rebuild.sheets import fonts
from rebuild.work.records.field import show_exact
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


def unit_name(unit: str) -> str:
    """A unit in a sentence, where its sign would be misread.

    >>> unit_name("in"), unit_name("mm")
    ('inches', 'mm')
    """
    return "inches" if unit == "in" else unit


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
        str(target),
        pagesize=(on.width_mm * MM, on.height_mm * MM),
        title=f"{heading.kind} {heading.title}",
        author="",
        creator="Rebuild",
        invariant=1,
    )
    frame = Frame(
        MARGIN_MM * MM,
        FOOT_MM * MM,
        on.inside_mm * MM,
        (on.height_mm - TOP_MM - FOOT_MM) * MM,
        leftPadding=0,
        rightPadding=0,
        topPadding=2,
        bottomPadding=2,
    )
    document.addPageTemplates([PageTemplate(frames=[frame])])
    try:
        document.build(list(story), canvasmaker=counting)
    except OSError as trouble:
        raise FileTrouble(
            f"the page cannot be written: {trouble.strerror}.",
            where=target.name,
            way_out="Choose another folder, or close the program that shows it.",
        ) from trouble
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
    canvas.drawRightString(right, low - 9, f"printed {show_exact(printed)}   {page}")


def style(name: str = "body") -> ParagraphStyle:
    """One of the paragraph styles: body, small, strong, large, heading, caution."""
    from reportlab.lib.styles import ParagraphStyle

    fonts.register()
    sizes = {"body": 10.5, "small": 8.5, "strong": 10.5, "large": 14.0, "heading": 9.5, "caution": 9.0}
    size = sizes[name]
    return ParagraphStyle(
        name,
        fontName=fonts.BOLD if name in ("strong", "large", "heading") else fonts.NORMAL,
        fontSize=size,
        leading=size * 1.22,
        spaceBefore=6 if name == "heading" else 0,
        spaceAfter=2 if name == "heading" else 0,
    )


def paragraph(text: str, like: ParagraphStyle) -> Any:
    """A paragraph of plain text in a style; line ends are kept, signs no font has are replaced."""
    from reportlab.platypus import Paragraph

    return Paragraph(escape(fonts.printable(text)).replace("\n", "<br/>"), like)


def words(text: str, kind: str = "body") -> Any:
    """A paragraph of plain text in one of the styles."""
    return paragraph(text, style(kind))
