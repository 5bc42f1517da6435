"""What labels are printed on: sheets of labels, wire-on tags and rolls, each by its own millimetres.

The ready ones are sizes found on many makers' boxes (common practice, no source): measure your own, and type it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.sizes.number import read_number, read_whole

#: Paper sheets of labels come on, upright [mm].
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
#: The least label that holds a square readable at 200 dpi beside a code readable at arm's length [mm].
LEAST_WIDE, LEAST_HIGH = 24.0, 12.0
WAYS = (
    "Type a sheet as “A4, 63.5 x 38.1, 3 x 7, margin 7.2 x 15.1, gap 2.5 x 0”, "
    "a tag as “tag 120 x 60, hole 18”, a roll as “roll 62 x 29”; all in mm."
)
_PAIR = re.compile(r"(?P<word>[a-z]*)\s*(?P<first>[\d.,]+)\s*[x×]\s*(?P<second>[\d.,]+)$", re.IGNORECASE)
_HOLE = re.compile(r"hole\s*(?P<first>[\d.,]+)$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Stock:
    """A page of labels [mm]: its size, one label's, how many across and down, from where and how far apart.

    ``hole`` is kept clear at the left end, for the eyelet of a tag.
    """

    words: str
    page_wide: float
    page_high: float
    wide: float
    high: float
    across: int = 1
    down: int = 1
    left: float = 0.0
    top: float = 0.0
    gap_across: float = 0.0
    gap_down: float = 0.0
    hole: float = 0.0

    @property
    def on_a_page(self) -> int:
        """Labels on one page."""
        return self.across * self.down


@dataclass(frozen=True, slots=True)
class Placed:
    """Where one label lies: its page (0: first), and its left upper corner from the page's [mm]."""

    page: int
    left: float
    top: float


READY = (
    "A4, 63.5 x 38.1, 3 x 7, margin 7.2 x 15.1, gap 2.5 x 0",
    "A4, 99.1 x 57.3, 2 x 5, margin 4.65 x 5.25, gap 2.5 x 0",
    "A4, 70 x 36, 3 x 8, margin 0 x 4.5",
    "Letter, 66.7 x 25.4, 3 x 10, margin 4.8 x 12.7, gap 3.2 x 0",
    "Letter, 101.6 x 50.8, 2 x 5, margin 4 x 12.7, gap 4.7 x 0",
    "tag 120 x 60, hole 18",
    "tag 80 x 38, hole 14",
    "roll 62 x 29",
    "roll 24 x 60",
)


def read_stock(text: str) -> Stock:
    """A stock as typed, held against its paper.

    Raises:
        BadEntry: it does not read as a stock, or its labels do not fit on the paper.
        OutOfRange: a label too small to be read, or a page beyond all printers.

    >>> read_stock("A4, 70 x 36, 3 x 8, margin 0 x 4.5").on_a_page
    24
    >>> read_stock("tag 120 x 60, hole 18").page_wide
    120.0
    """
    pieces = [piece.strip() for piece in re.split(r"[,;](?=\s)", text.strip()) if piece.strip()]
    if not pieces:
        raise BadEntry("is empty.", where="Labels", way_out=WAYS)
    on_paper = next((name for name in PAPERS if name.lower() == pieces[0].lower()), "")
    found = _sheet(text, on_paper, pieces[1:]) if on_paper else _alone(text, pieces)
    _refuse_unfit(found)
    return found


def _sheet(text: str, on: str, pieces: Sequence[str]) -> Stock:
    sizes = [_pair(text, piece) for piece in pieces]
    bare = [pair for pair in sizes if not pair[0]]
    named = {word: (first, second) for word, first, second in sizes if word}
    if len(bare) != 2 or set(named) - {"margin", "gap"} or len(named) != len(sizes) - 2:
        raise _unread(text)
    (_, wide, high), (_, across, down) = bare
    left, top = (_length(one, "Margin") for one in named.get("margin", ("0", "0")))
    gaps = (_length(one, "Gap") for one in named.get("gap", ("0", "0")))
    return Stock(
        text.strip(),
        *PAPERS[on],
        _length(wide, "Width"),
        _length(high, "Height"),
        read_whole(across, "Across", at_least=1, at_most=40),
        read_whole(down, "Down", at_least=1, at_most=80),
        left,
        top,
        *gaps,
    )


def _alone(text: str, pieces: Sequence[str]) -> Stock:
    word, first, second = _pair(text, pieces[0])
    hole = 0.0
    for piece in pieces[1:]:
        found = _HOLE.match(piece)
        if found is None:
            raise _unread(text)
        hole = _length(found["first"], "Hole")
    if word not in ("tag", "roll") or len(pieces) > 2:
        raise _unread(text)
    wide, high = _length(first, "Width"), _length(second, "Height")
    return Stock(text.strip(), wide, high, wide, high, hole=hole)


def _pair(text: str, piece: str) -> tuple[str, str, str]:
    found = _PAIR.match(piece)
    if found is None:
        raise _unread(text)
    return found["word"].lower(), found["first"], found["second"]


def _length(text: str, field: str) -> float:
    return read_number(text, field, "mm", at_least=0, at_most=1200)


def _unread(text: str) -> BadEntry:
    return BadEntry("is no stock of labels.", where="Labels", value=text.strip()[:80], way_out=WAYS)


def _refuse_unfit(stock: Stock) -> None:
    """Raise when labels are too small to be read, or hang over the paper's edge."""
    if stock.wide - stock.hole < LEAST_WIDE or stock.high < LEAST_HIGH:
        raise OutOfRange(
            f"is too small to be read: a label needs {LEAST_WIDE:g} x {LEAST_HIGH:g} mm beside its hole.",
            where="Labels",
            value=stock.words,
            way_out="Take a larger one.",
        )
    wide = stock.left + stock.across * stock.wide + (stock.across - 1) * stock.gap_across
    high = stock.top + stock.down * stock.high + (stock.down - 1) * stock.gap_down
    if wide > stock.page_wide + 0.05 or high > stock.page_high + 0.05:
        raise BadEntry(
            f"does not fit: the labels take {wide:g} x {high:g} mm of {stock.page_wide:g} x {stock.page_high:g}.",
            where="Labels",
            value=stock.words,
            way_out="Measure the sheet again: label, margin of the left upper one, gaps between.",
        )


def placed(stock: Stock, count: int, first: int = 1) -> list[Placed]:
    """Where ``count`` labels lie, row by row, when printing begins at label ``first`` of a sheet begun before.

    Raises:
        OutOfRange: there is no such label on the sheet.

    >>> [(one.left, one.top) for one in placed(read_stock("A4, 70 x 36, 3 x 8, margin 0 x 4.5"), 2, 3)]
    [(140.0, 4.5), (0.0, 40.5)]
    """
    if not 1 <= first <= stock.on_a_page:
        raise OutOfRange(
            f"is not on the sheet, which has {stock.on_a_page}.",
            where="First label",
            value=str(first),
            way_out="Count from the left upper one, row by row.",
        )
    found = []
    for at in range(first - 1, first - 1 + count):
        page, on_it = divmod(at, stock.on_a_page)
        row, column = divmod(on_it, stock.across)
        found.append(
            Placed(
                page,
                stock.left + column * (stock.wide + stock.gap_across),
                stock.top + row * (stock.high + stock.gap_down),
            )
        )
    return found
