"""Photos with their marks drawn on them as lines; scaled down so that the book stays small."""

from __future__ import annotations

import io
from collections.abc import Sequence
from math import atan2, cos, sin
from pathlib import Path
from typing import Any

from reportlab.lib.utils import ImageReader
from reportlab.platypus import Flowable

from rebuild.sheets import fonts
from rebuild.sheets.book import measure
from rebuild.sheets.book.flow import chapter_of, prose
from rebuild.sheets.book.lettering import write
from rebuild.sheets.book.options import BookOptions
from rebuild.sheets.book.pages import MARGIN_MM
from rebuild.sheets.paper import MM, paper
from rebuild.sheets.pictures import small_jpeg
from rebuild.words.photos import MarkKind
from rebuild.work.book.rows import BookData, PhotoPage
from rebuild.work.photos.rows import MarkRow
from rebuild.work.records.field import show_day

_ACROSS, _HIGH_MM = 2, 74.0


def chapter(book: BookData, options: BookOptions) -> list[Flowable]:
    """The photos of no subassembly; those of one stand with it (``of_group``)."""
    if not options.photos or book.project is None:
        return []
    groups = {group.id for group in book.groups}
    loose = [one for one in book.photos if one.row.subassembly_id not in groups]
    return chapter_of("Further photos", "photos", pictures(loose, book.project, options))


def of_group(book: BookData, group_id: int, options: BookOptions) -> list[Flowable]:
    """The photos of a subassembly, its parts and its steps, to stand beside what they show."""
    if not options.photos or book.project is None:
        return []
    mine = [one for one in book.photos if one.row.subassembly_id == group_id]
    return pictures(mine, book.project, options)


def pictures(pages: Sequence[PhotoPage], project: Path, options: BookOptions) -> list[Flowable]:
    """Photos two across with their words, oldest first; a missing or damaged one is said, not passed over."""
    wide = ((paper(options.paper).width_mm - 2 * MARGIN_MM) * MM - 12) / _ACROSS
    content: list[Flowable] = []
    row: list[_Framed] = []
    for page in pages:
        kept = small_jpeg(page.row.path(project))
        if kept is None:
            content.append(prose(f"{page.row.file_name}: the photo is missing or cannot be read."))
            continue
        row.append(_Framed(page, kept, wide))
        if len(row) == _ACROSS:
            content.append(_Row(row, wide))
            row = []
    if row:
        content.append(_Row(row, wide))
    return content


class _Framed:
    """One photo with its words, not yet on a page."""

    def __init__(self, page: PhotoPage, content: bytes, wide: float) -> None:
        self.reader = ImageReader(io.BytesIO(content))
        self.marks: Sequence[MarkRow] = page.marks
        across, high = self.reader.getSize()
        scale = min(wide / across, _HIGH_MM * MM / high)
        self.size: tuple[float, float] = (across * scale, high * scale)
        row = page.row
        taken = show_day(row.taken_at) if row.taken_at is not None else ""
        said = ". ".join(
            filter(None, (row.about, row.proves, ", ".join(filter(None, (row.phase.value, taken)))))
        )
        self.lines = measure.lines(fonts.printable(said), wide, fonts.NORMAL, 7.4)

    @property
    def height(self) -> float:
        """Photo and words [pt]."""
        return self.size[1] + 10.0 * len(self.lines) + 4


class _Row(Flowable):  # type: ignore[misc]
    """Photos side by side, their tops level."""

    def __init__(self, photos: Sequence[_Framed], wide: float) -> None:
        super().__init__()
        self._photos, self._wide = tuple(photos), wide
        self.spaceAfter = 8

    def wrap(self, room: float, _high: float) -> tuple[float, float]:
        """Its size."""
        return room, max(photo.height for photo in self._photos)

    def draw(self) -> None:
        """Put them on the page."""
        top = max(photo.height for photo in self._photos)
        for at, photo in enumerate(self._photos):
            _draw(self.canv, photo, at * (self._wide + 12), top)


def _draw(canvas: Any, photo: _Framed, left: float, top: float) -> None:
    wide, high = photo.size
    canvas.drawImage(photo.reader, left, top - high, wide, high)
    canvas.setLineWidth(0.5)
    canvas.setStrokeGray(0)
    canvas.rect(left, top - high, wide, high)
    for mark in photo.marks:
        _mark(canvas, mark, left, top, wide, high)
    for at, text in enumerate(photo.lines):
        write(canvas, text, left, top - high - 9 - 10 * at, "l", 7.4)


def _mark(canvas: Any, mark: MarkRow, left: float, top: float, wide: float, high: float) -> None:
    """Black on a white edge, so that it shows on any ground."""
    x, y = left + mark.x * wide, top - mark.y * high
    x2, y2 = left + mark.x2 * wide, top - mark.y2 * high
    for width, grey in ((2.6, 1.0), (1.1, 0.0)):
        canvas.setLineWidth(width)
        canvas.setStrokeGray(grey)
        if mark.kind is MarkKind.RING:
            canvas.ellipse(x, y, x2, y2)
        elif (x, y) != (x2, y2):
            canvas.line(x, y, x2, y2)
            if mark.kind is MarkKind.ARROW:
                _head(canvas, x, y, x2, y2)
    if mark.said:
        words = fonts.printable(mark.said)
        room = measure.width(words, fonts.NORMAL, 7.0) + 4
        canvas.setFillGray(1)
        canvas.rect(x - 2, y - 3, room, 10, stroke=0, fill=1)
        write(canvas, words, x, y, "l", 7.0)


def _head(canvas: Any, x: float, y: float, x2: float, y2: float) -> None:
    turn = atan2(y2 - y, x2 - x)
    for side in (0.45, -0.45):
        canvas.line(x2, y2, x2 - 7 * cos(turn + side), y2 - 7 * sin(turn + side))
