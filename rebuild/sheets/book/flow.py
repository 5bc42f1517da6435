"""What a chapter is made of: headings that the contents know, prose, facts, and tables that keep with their heading."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import CondPageBreak, Flowable, Paragraph, Spacer
from reportlab.platypus.doctemplate import FrameBreak

from rebuild.sheets import fonts
from rebuild.sheets.book import measure
from rebuild.sheets.book.columns import Column
from rebuild.sheets.book.ruled import Cell, Line, Ruled
from rebuild.sheets.paper import paragraph

#: Size and room before and after, by level of heading [pt].
_LEVELS = {1: (16.0, 10.0, 8.0), 2: (10.5, 9.0, 3.0), 3: (8.8, 6.0, 2.0)}
#: A chapter begins on the page it comes to only where at least this much of it is free [pt].
CHAPTER_ROOM = 300.0


class Heading(Flowable):  # type: ignore[misc]
    """A heading: told to the contents and the outline, and a place links can lead to."""

    def __init__(self, text: str, key: str, level: int = 1) -> None:
        super().__init__()
        self.text, self.key, self.level = fonts.printable(text), key, level
        self._size, before, after = _LEVELS[level]
        self.spaceBefore, self.spaceAfter = before, after
        self._lines: tuple[str, ...] = ()

    def wrap(self, room: float, _high: float) -> tuple[float, float]:
        """Its size."""
        self._lines = measure.lines(self.text, room, fonts.BOLD, self._size)
        self.width = room
        return room, len(self._lines) * self._size * 1.2 + (4 if self.level == 1 else 0)

    def draw(self) -> None:
        """Put it on the page and tell the contents."""
        canvas = self.canv
        height = len(self._lines) * self._size * 1.2 + (4 if self.level == 1 else 0)
        canvas.setFillGray(0)
        canvas.setFont(fonts.BOLD, self._size)
        for at, line in enumerate(self._lines):
            canvas.drawString(0, height - (at + 1) * self._size * 1.2 + 0.25 * self._size, line)
        if self.level == 1:
            canvas.setStrokeGray(0)
            canvas.setLineWidth(1.2)
            canvas.line(0, 0, self.width, 0)
        canvas.note_heading(self, height)


class Room(CondPageBreak):  # type: ignore[misc]
    """Breaks the page where a heading and the beginning of what it heads would not stand on it together."""

    def __init__(self, kept: Sequence[Flowable]) -> None:
        super().__init__(0)
        self._kept = tuple(kept)

    def wrap(self, room: float, high: float) -> tuple[float, float]:
        """Takes no room of its own."""
        if high < sum(least(one, room) for one in self._kept):
            frame = self._doctemplateAttr("frame")
            if frame is not None and not frame._atTop:
                frame.add_generated_content(FrameBreak)
        return 0, 0


def least(one: Flowable, room: float) -> float:
    """The height something needs on a page to begin there [pt]."""
    before = float(one.getSpaceBefore())
    if isinstance(one, Ruled):
        return before + one.least(room)
    height = float(one.wrap(room, 10_000)[1])
    if isinstance(one, Paragraph):
        height = min(height, 3.0 * one.style.leading)
    return before + height + float(one.getSpaceAfter())


def section(text: str, key: str, content: Sequence[Flowable], level: int = 2) -> list[Flowable]:
    """A heading with what stands under it; nothing when there is nothing."""
    if not content:
        return []
    head = Heading(text, key, level)
    kept = [head, *content[:1]]
    while len(kept) - 1 < len(content) and isinstance(kept[-1], (Heading, Room)):
        kept.append(content[len(kept) - 1])
    return [Room(kept), head, *content]


def chapter_of(text: str, key: str, content: Sequence[Flowable]) -> list[Flowable]:
    """A chapter: its heading on a fresh page unless much of this one is free; nothing when it is empty."""
    made = section(text, key, content, level=1)
    return [CondPageBreak(CHAPTER_ROOM), *made] if made else []


def style(
    size: float = 8.8, *, bold: bool = False, slanted: bool = False, indent: float = 0.0
) -> ParagraphStyle:
    """A paragraph style."""
    fonts.register()
    font = fonts.BOLD if bold else fonts.SLANTED if slanted else fonts.NORMAL
    return ParagraphStyle(
        "book",
        fontName=font,
        fontSize=size,
        leading=size * 1.34,
        spaceAfter=3.5,
        leftIndent=indent,
        allowWidows=0,
        allowOrphans=0,
    )


def prose(text: str, *, bold: bool = False, slanted: bool = False, indent: float = 0.0) -> Paragraph:
    """A paragraph of plain text; line ends are kept."""
    return paragraph(text.strip(), style(bold=bold, slanted=slanted, indent=indent))


def small(text: str) -> Paragraph:
    """A remark in small letters."""
    return paragraph(text.strip(), style(7.4, slanted=True))


def facts(pairs: Iterable[tuple[str, str]], label_mm: float = 38.0) -> list[Flowable]:
    """Label and value, one a line; empty values are left out."""
    rows: list[Line] = [(label, value) for label, value in pairs if value.strip()]
    return [Ruled((Column("", mm=label_mm), Column("")), rows, plain=True, strong=True)] if rows else []


def table(columns: Sequence[Column | str], rows: Sequence[Line], *, strong: bool = False) -> list[Flowable]:
    """A table; a column in which nothing stands is left out, and a table without rows altogether."""
    listed = [column if isinstance(column, Column) else Column(column) for column in columns]
    if not rows:
        return []
    used = [
        at
        for at in range(len(listed))
        if any(_said(row[at]) for row in rows if isinstance(row, (tuple, list)))
    ]
    kept: list[Line] = [
        tuple(row[at] for at in used) if isinstance(row, (tuple, list)) else row for row in rows
    ]
    return [Ruled([listed[at] for at in used], kept, strong=strong)] if used else []


def _said(cell: Cell) -> bool:
    return bool((cell if isinstance(cell, str) else cell.text).strip())


def gap(points: float = 6.0) -> Spacer:
    """Some room."""
    return Spacer(1, points)


def warmth(celsius: float | None) -> str:
    """A temperature to a tenth, without its unit.

    >>> warmth(17.7778), warmth(9.0), warmth(None)
    ('17.8', '9', '')
    """
    return "" if celsius is None else f"{celsius:.1f}".removesuffix(".0")
