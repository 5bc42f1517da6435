"""The pages of the book: one pass over the story, then contents in front with page numbers that are true.

The page count is a form every page refers to and that is drawn last, so nothing is laid out twice.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate

from rebuild.sheets import fonts
from rebuild.sheets.book import measure
from rebuild.sheets.book.flow import Heading
from rebuild.sheets.paper import MM, Paper

MARGIN_MM, TOP_MM, FOOT_MM = 18.0, 20.0, 17.0
_LINE = {1: 17.0, 2: 12.2}
_TOTAL = "number-of-pages"


@dataclass(frozen=True, slots=True)
class Cover:
    """What stands in the heading of every page and in the file's own properties."""

    title: str
    author: str
    subject: str
    creator: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the contents."""

    level: int
    text: str
    key: str
    page: int


class BookCanvas(Canvas):  # type: ignore[misc]
    """A canvas that gathers headings and puts the contents in front when all else is drawn."""

    def __init__(
        self, *given: Any, cover: Cover, paper: Paper, planned: Sequence[Heading], **named: Any
    ) -> None:
        super().__init__(*given, **named)
        self._cover, self._paper = cover, paper
        self._sheets = plan_contents(planned, paper)
        self._entries: list[Entry] = []
        self._chapter = self._page_of = ""
        self._outline = -1

    def note_heading(self, heading: Heading, height: float) -> None:
        """A heading was drawn: a place to link to, a line of the contents, a line of the outline."""
        self.bookmarkHorizontal(heading.key, 0, height + 6)
        if heading.level > 2:
            return
        if heading.level == 1:
            self._chapter = heading.text
            if not self._page_of or self._at_top(height):
                self._page_of = heading.text
        level = min(heading.level - 1, self._outline + 1)
        self._outline = level
        self.addOutlineEntry(heading.text, heading.key, level, closed=1)
        self._entries.append(Entry(heading.level, heading.text, heading.key, self.printed_number()))

    def _at_top(self, height: float) -> bool:
        """Whether what is drawn now, so high, is the first of its page."""
        _x, y = self.absolutePosition(0, height)
        return bool(y >= (self._paper.height_mm - TOP_MM) * MM - 1.0)

    def turn_page(self) -> str:
        """The chapter this page begins in; the next page begins in the one that is open now."""
        begun_in, self._page_of = self._page_of, self._chapter
        return begun_in

    def printed_number(self) -> int:
        """The number this page will bear: the contents come after the title page."""
        physical = int(self.getPageNumber())
        return physical if physical == 1 else physical + len(self._sheets)

    def head_and_foot(self, number: int, chapter: str) -> None:
        """The running heading, and page x of y."""
        left, right = MARGIN_MM * MM, (self._paper.width_mm - MARGIN_MM) * MM
        top, low = (self._paper.height_mm - 13.0) * MM, 11.0 * MM
        self.setFillGray(0)
        self.setFont(fonts.NORMAL, 7.5)
        self.drawString(left, top, fonts.printable(self._cover.title))
        self.drawRightString(right, top, fonts.printable(chapter))
        self.setStrokeGray(0.5)
        self.setLineWidth(0.4)
        self.line(left, top - 4, right, top - 4)
        words = f"page {number} of "
        wide = measure.width(words, fonts.NORMAL, 7.5) + 18
        self.drawString(right - wide, low, words)
        self.saveState()
        self.translate(right - 18, low)
        self.doForm(_TOTAL)
        self.restoreState()

    def save(self) -> None:
        """Draw the contents and the page count, put the contents behind the title page, and write."""
        body = len(self._doc.Pages.pages)
        entries = list(self._entries)
        for number, count in enumerate(self._sheets):
            self._draw_contents(entries[:count], number)
            entries = entries[count:]
            self.showPage()
        pages = self._doc.Pages.pages
        pages[1:] = [*pages[body:], *pages[1:body]]
        self.beginForm(_TOTAL, 0, -3, 24, 9)
        self.setFont(fonts.NORMAL, 7.5)
        self.drawString(0, 0, str(len(pages)))
        self.endForm()
        super().save()

    def _draw_contents(self, entries: Sequence[Entry], number: int) -> None:
        left, right = MARGIN_MM * MM, (self._paper.width_mm - MARGIN_MM) * MM
        self.head_and_foot(number + 2, "Contents")
        y = (self._paper.height_mm - TOP_MM) * MM
        if number == 0:
            y -= 22
            self.setFont(fonts.BOLD, 16)
            self.drawString(left, y, "Contents")
            self.setLineWidth(1.2)
            self.setStrokeGray(0)
            self.line(left, y - 6, right, y - 6)
            self.bookmarkHorizontal("contents", 0, y + 16)
            y -= 12
        for entry in entries:
            y -= _LINE[entry.level]
            self._draw_entry(entry, left + (12 if entry.level > 1 else 0), right, y)

    def _draw_entry(self, entry: Entry, left: float, right: float, y: float) -> None:
        font, size = (fonts.BOLD, 9.5) if entry.level == 1 else (fonts.NORMAL, 8.5)
        page = str(entry.page)
        text = measure.lines(entry.text, right - left - 40, font, size)[0]
        self.setFont(font, size)
        self.drawString(left, y, text)
        self.drawRightString(right, y, page)
        start = left + measure.width(text, font, size) + 5
        end = right - measure.width(page, font, size) - 5
        self.setDash(0.5, 2.5)
        self.setLineWidth(0.5)
        self.setStrokeGray(0.35)
        if end > start:
            self.line(start, y + 1.5, end, y + 1.5)
        self.setDash()
        box = (left, y - 2.5, right, y + size)
        self.linkRect("", entry.key, box, thickness=0)


def plan_contents(headings: Sequence[Heading], paper: Paper) -> tuple[int, ...]:
    """How many lines of the contents go on each of its pages; known before anything is drawn."""
    high = (paper.height_mm - TOP_MM - FOOT_MM) * MM
    counts, used = [0], 34.0
    for heading in headings:
        if heading.level > 2:
            continue
        if used + _LINE[heading.level] > high:
            counts.append(0)
            used = 0.0
        counts[-1] += 1
        used += _LINE[heading.level]
    return tuple(counts)


class BookPages(BaseDocTemplate):  # type: ignore[misc]
    """Lays the story out; ``told`` hears how much of it is on paper and may stop it by raising."""

    def __init__(self, target: Path, cover: Cover, paper: Paper, told: Callable[[float], None]) -> None:
        super().__init__(
            str(target),
            pagesize=(paper.width_mm * MM, paper.height_mm * MM),
            title=cover.title,
            author=cover.author,
            subject=cover.subject,
            creator=cover.creator,
            invariant=1,
            pageCompression=1,
        )
        self._told = told
        self._whole, self._laid = 1, 0
        frame = Frame(
            MARGIN_MM * MM,
            FOOT_MM * MM,
            (paper.width_mm - 2 * MARGIN_MM) * MM,
            (paper.height_mm - TOP_MM - FOOT_MM) * MM,
            leftPadding=0,
            rightPadding=0,
            topPadding=0,
            bottomPadding=0,
        )
        self.addPageTemplates(
            [
                PageTemplate("title", frames=[frame], autoNextPageTemplate="body"),
                PageTemplate("body", frames=[frame], onPageEnd=_dress),
            ]
        )

    def lay_out(self, story: Sequence[Flowable], cover: Cover, paper: Paper) -> int:
        """Write the file; returns how many pages it has."""
        fonts.register()
        planned = [one for one in story if isinstance(one, Heading)]
        self._whole = max(1, len(story))
        maker = partial(BookCanvas, cover=cover, paper=paper, planned=planned)
        self.build(list(story), canvasmaker=maker)
        return int(self.page) + len(plan_contents(planned, paper))

    def afterFlowable(self, flowable: Flowable) -> None:
        """Count what is on paper."""
        self._laid += 1

    def afterPage(self) -> None:
        """Say how far it is."""
        self._told(min(1.0, self._laid / self._whole))


def _dress(canvas: BookCanvas, _document: BaseDocTemplate) -> None:
    canvas.saveState()
    canvas.head_and_foot(canvas.printed_number(), canvas.turn_page())
    canvas.restoreState()
