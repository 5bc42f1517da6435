"""Tables of plain text, ruled like a parts list: they run over pages with their heading, and no row is lost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from reportlab.platypus import Flowable

from rebuild.sheets import fonts
from rebuild.sheets.book import measure
from rebuild.sheets.book.columns import GAP, Column, Need, widths

SIZE, LEADING = 7.8, 9.6
PAD = 1.9
INDENT = 12.0
RULE = 0.72


@dataclass(frozen=True, slots=True)
class Linked:
    """A cell that leads to another place of the book, or is a place others lead to."""

    text: str
    to: str = ""
    here: str = ""


@dataclass(frozen=True, slots=True)
class Band:
    """A line over the whole width that heads the rows under it; an ``inner`` one stands under another."""

    text: str
    to: str = ""
    inner: bool = False
    here: str = ""


@dataclass(frozen=True, slots=True)
class Wide:
    """A remark over the whole width, under the row it belongs to."""

    text: str


Cell = str | Linked
Line = Sequence[Cell] | Band | Wide


@dataclass(frozen=True, slots=True)
class _Laid:
    """One row broken into lines."""

    cells: tuple[tuple[str, ...], ...]
    links: tuple[str, ...]
    band: Band | None
    places: tuple[str, ...] = ()
    #: Asked at every page a table goes over, of every row that is left.
    height: float = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "height", max(map(len, self.cells)) * LEADING + 2 * PAD)


class _Words:
    """Words put on the page in one piece: a piece each costs more than all that is in it."""

    def __init__(self, canvas: Any) -> None:
        self._canvas, self._text, self._font = canvas, canvas.beginText(), ""

    def put(self, text: str, font: str, left: float, base: float) -> None:
        if font != self._font:
            self._font = font
            self._text.setFont(font, SIZE)
        self._text.setTextOrigin(left, base)
        self._text.textOut(text)

    def put_to(self, text: str, font: str, right: float, base: float) -> None:
        """Ending at ``right``."""
        self.put(text, font, right - measure.width(text, font, SIZE), base)

    def done(self) -> None:
        self._canvas.drawText(self._text)


class Ruled(Flowable):  # type: ignore[misc]
    """Rows under their headings; ``plain`` leaves the headings away, ``strong`` prints the first column bold."""

    def __init__(
        self, columns: Sequence[Column], rows: Sequence[Line], *, plain: bool = False, strong: bool = False
    ) -> None:
        super().__init__()
        self.columns = tuple(columns)
        self._rows = tuple(rows)
        self._plain = plain
        self._strong = strong
        self._laid: tuple[_Laid, ...] | None = None
        self._widths: tuple[float, ...] = ()
        self._heads: tuple[tuple[str, ...], ...] = ()
        self.spaceBefore, self.spaceAfter = 2, 6

    def least(self, room: float) -> float:
        """The height of what must stand together at its beginning [pt]."""
        self._lay_out(room)
        laid = self._laid or ()
        count = next((at + 1 for at, row in enumerate(laid) if not row.band), len(laid))
        return self._head_height() + sum(row.height for row in laid[:count])

    def wrap(self, room: float, _high: float) -> tuple[float, float]:
        """Its size."""
        self._lay_out(room)
        return room, self._head_height() + sum(row.height for row in self._laid or ())

    def split(self, room: float, high: float) -> list[Flowable]:
        """The rows that fit, and the rest under the same headings."""
        self._lay_out(room)
        laid, used, count = self._laid or (), self._head_height(), 0
        while count < len(laid) and used + laid[count].height <= high:
            used += laid[count].height
            count += 1
        if count == len(laid) - 1 and count > 3:
            count -= 1
        while count and laid[count - 1].band:
            count -= 1
        if count == 0:
            return self._cut_first(room, high)
        rest = laid[count:]
        return [self._piece(laid[:count]), self._piece((*_heads_again(laid[:count], rest[0]), *rest))]

    def _cut_first(self, room: float, high: float) -> list[Flowable]:
        """A single row higher than a page is cut between its lines; anything lower waits for the next page."""
        laid = self._laid or ()
        bands = next((at for at, row in enumerate(laid) if not row.band), 0)
        row = laid[bands]
        free = high - self._head_height() - sum(one.height for one in laid[:bands])
        fit = int((free - 2 * PAD) / LEADING)
        if row.height < 500 or fit < 4:
            return []
        first = _Laid(tuple(cell[:fit] for cell in row.cells), row.links, None, row.places)
        second = _Laid(tuple(cell[fit:] or ("",) for cell in row.cells), row.links, None)
        return [self._piece((*laid[:bands], first)), self._piece((second, *laid[bands + 1 :]))]

    def _piece(self, laid: tuple[_Laid, ...]) -> Ruled:
        made = Ruled(self.columns, (), plain=self._plain, strong=self._strong)
        made._laid, made._widths, made._heads = laid, self._widths, self._heads
        return made

    def _lay_out(self, room: float) -> None:
        if self._laid is not None:
            return
        texts = [
            None if isinstance(row, (Band, Wide)) else [fonts.printable(_text(cell)) for cell in row]
            for row in self._rows
        ]
        self._widths = widths(self.columns, [self._need(at, texts) for at in range(len(self.columns))], room)
        self._heads = tuple(
            measure.lines(column.head, wide, fonts.BOLD, SIZE)
            for column, wide in zip(self.columns, self._widths, strict=True)
        )
        self._laid = tuple(self._row(row, text, room) for row, text in zip(self._rows, texts, strict=True))

    def _need(self, at: int, texts: Sequence[list[str] | None]) -> Need:
        font = self._font(at)
        head = "" if self._plain else self.columns[at].head
        shown = [row[at] for row in texts if row is not None]
        natural = max((measure.natural(text, font, SIZE) for text in shown), default=0.0)
        least = max((measure.longest_word(text, font, SIZE) for text in shown), default=0.0)
        return Need(
            max(natural, measure.longest_word(head, fonts.BOLD, SIZE)) + 0.5,
            max(min(least, 110.0), measure.longest_word(head, fonts.BOLD, SIZE)) + 0.5,
        )

    def _row(self, row: Line, texts: list[str] | None, room: float) -> _Laid:
        if isinstance(row, Band):
            shown = measure.lines(fonts.printable(row.text), room, fonts.BOLD, SIZE)
            return _Laid((shown,), (row.to,), row)
        if isinstance(row, Wide):
            shown = measure.lines(fonts.printable(row.text), room - INDENT, fonts.NORMAL, SIZE)
            return _Laid((shown,), (), None)
        cells = tuple(
            measure.lines(text, wide, self._font(at), SIZE)
            for at, (text, wide) in enumerate(zip(texts or (), self._widths, strict=True))
        )
        linked = [cell for cell in row if isinstance(cell, Linked)]
        links = tuple(cell.to if isinstance(cell, Linked) else "" for cell in row)
        return _Laid(cells, links, None, tuple(cell.here for cell in linked if cell.here))

    def _font(self, at: int) -> str:
        return fonts.BOLD if self._strong and at == 0 else fonts.NORMAL

    def _head_height(self) -> float:
        if self._plain:
            return 0.0
        return max((len(head) for head in self._heads), default=0) * LEADING + 2 * PAD

    def draw(self) -> None:
        """Put it on the page."""
        canvas = self.canv
        canvas.setFillGray(0)
        words = _Words(canvas)
        room = sum(self._widths) + GAP * (len(self._widths) - 1)
        top = self._head_height() + sum(row.height for row in self._laid or ())
        if not self._plain:
            top = self._draw_head(canvas, words, top, room)
        for row in self._laid or ():
            if row.band is not None:
                self._draw_band(canvas, words, row, top, room)
            elif not row.links:
                self._draw_wide(words, row, top)
            else:
                self._draw_row(canvas, words, row, top)
            top -= row.height
            canvas.setLineWidth(0.3)
            canvas.setStrokeGray(RULE)
            canvas.line(0, top, room, top)
        words.done()

    def _draw_head(self, canvas: Any, words: _Words, top: float, room: float) -> float:
        height = self._head_height()
        left = 0.0
        for column, wide, head in zip(self.columns, self._widths, self._heads, strict=True):
            for at, text in enumerate(head):
                base = top - height + PAD + (len(head) - 1 - at) * LEADING + 2.0
                _write(words, text, fonts.BOLD, left, base, wide, right=column.right)
            left += wide + GAP
        canvas.setStrokeGray(0)
        canvas.setLineWidth(0.8)
        canvas.line(0, top - height, room, top - height)
        return top - height

    def _draw_band(self, canvas: Any, words: _Words, row: _Laid, top: float, room: float) -> None:
        inner = row.band is not None and row.band.inner
        if row.band is not None and row.band.here:
            canvas.bookmarkHorizontal(row.band.here, 0, top + 4)
        if not inner:
            canvas.setFillGray(0.93)
            canvas.rect(0, top - row.height, room, row.height, stroke=0, fill=1)
            canvas.setFillGray(0)
        font = fonts.SLANTED if inner else fonts.BOLD
        for at, text in enumerate(row.cells[0]):
            words.put(text, font, 0 if inner else 2, top - PAD - (at + 1) * LEADING + 2.2)
        if row.links[0]:
            canvas.linkRect("", row.links[0], (0, top - row.height, room, top), relative=1, thickness=0)

    def _draw_wide(self, words: _Words, row: _Laid, top: float) -> None:
        for at, text in enumerate(row.cells[0]):
            words.put(text, fonts.NORMAL, INDENT, top - PAD - (at + 1) * LEADING + 2.2)

    def _draw_row(self, canvas: Any, words: _Words, row: _Laid, top: float) -> None:
        for place in row.places:
            canvas.bookmarkHorizontal(place, 0, top + 4)
        left = 0.0
        for at, (column, wide, cell) in enumerate(zip(self.columns, self._widths, row.cells, strict=True)):
            for number, text in enumerate(cell):
                if text:
                    base = top - PAD - (number + 1) * LEADING + 2.2
                    _write(words, text, self._font(at), left, base, wide, right=column.right)
            if row.links[at]:
                box = (left, top - row.height, left + wide, top)
                canvas.linkRect("", row.links[at], box, relative=1, thickness=0)
            left += wide + GAP


def _write(
    words: _Words, text: str, font: str, left: float, base: float, wide: float, *, right: bool
) -> None:
    if right:
        words.put_to(text, font, left + wide, base)
    else:
        words.put(text, font, left, base)


def _text(cell: Cell) -> str:
    return cell.text if isinstance(cell, Linked) else cell


def _heads_again(before: Sequence[_Laid], first: _Laid) -> list[_Laid]:
    """The lines that head the first row of a further page, said to go on."""
    found: list[_Laid] = []
    if first.band is not None and not first.band.inner:
        return found
    want_inner = first.band is None
    for row in reversed(before):
        if row.band is None:
            continue
        if row.band.inner and want_inner:
            found.insert(0, _continued(row))
            want_inner = False
        elif not row.band.inner:
            found.insert(0, _continued(row))
            break
    return found


def _continued(row: _Laid) -> _Laid:
    text = row.cells[0][0]
    shown = text if text.endswith("(continued)") else f"{text} (continued)"
    band = replace(row.band, here="") if row.band is not None else None
    return _Laid(((shown,),), row.links, band)
