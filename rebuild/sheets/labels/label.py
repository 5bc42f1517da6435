"""One tag or label: the code read at arm's length, name, machine, match mark, and the square beside or above them.

Letters seen well are about a 200th of the distance high (common practice, no source): 3.5 mm capitals at 0.7 m,
which is 14 points. What a small label has no room for is left out, the least needed first.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from rebuild.sheets import fonts
from rebuild.sheets.labels.square import draw_square
from rebuild.sheets.paper import MM
from rebuild.work.labels.rows import Label

#: Kept free of print along the edge, and the largest square worth its room [mm].
EDGE_MM, SQUARE_MOST_MM = 1.5, 32.0
#: Side of the smallest square that is read at 200 dots to the inch, and the width words need beside two [mm].
TWIN_MM, WORDS_LEAST_MM = 12.0, 26.0
#: Share of the width the square may take, of the words' height the code read from afar may, and letters' sizes [pt].
SQUARE_SHARE, BIG_SHARE, BIG_MOST, BIG_LEAST, SMALL, LEAST = 0.42, 0.46, 54.0, 7.0, 9.0, 6.5
#: The code read from afar keeps so much of the height however much is said under it; more lines are cut.
BIG_SHARE_LEAST, MOST_LINES = 0.2, 3
#: Between what a line says: how many, where it lies; the machine, the subassembly.
_PIECES = re.compile(r"( · |, )")
#: Of the lines under it the first so many keep a line each: name, match mark, note, machine; the code, too, where
#: there is room for a line of each.
NEEDED = 4


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle on the page [pt]: left lower corner, width, height."""

    left: float
    low: float
    wide: float
    high: float


@dataclass(frozen=True, slots=True)
class Fitted:
    """Lines of words in the largest letters a room holds [pt]."""

    lines: tuple[str, ...]
    size: float


def draw_label(canvas: Any, label: Label, box: Box) -> None:
    """Draw one label inside a box: upright ones have the square on top, others on the right.

    Where there is room the square stands twice, so that whichever corner is torn off or oily one of the two is read.
    """
    edge = EDGE_MM * MM
    inner = Box(box.left + edge, box.low + edge, box.wide - 2 * edge, box.high - 2 * edge)
    squares, words = _upright(inner) if inner.high > 1.3 * inner.wide else _across(inner)
    for number, at in enumerate(squares):
        draw_square(canvas, label.code, at.left, at.low, at.wide / MM, turned=number == 0)
    _words(canvas, label, words)


def _upright(inner: Box) -> tuple[list[Box], Box]:
    """The square on top, its twin at the foot, words between."""
    side, twin, top = (
        min(inner.wide, inner.high * 0.4, SQUARE_MOST_MM * MM),
        TWIN_MM * MM,
        inner.low + inner.high,
    )
    squares = [Box(inner.left, top - side, side, side)]
    if inner.high - side < 2.5 * twin:
        return squares, Box(inner.left, inner.low, inner.wide, inner.high - side)
    squares.append(Box(inner.left + inner.wide - twin, inner.low, twin, twin))
    return squares, Box(inner.left, inner.low + twin, inner.wide, inner.high - side - twin)


def _across(inner: Box) -> tuple[list[Box], Box]:
    """The square in the right upper corner, its twin under it, else beside it, else none; words on the left."""
    twin, right, top = TWIN_MM * MM, inner.left + inner.wide, inner.low + inner.high
    most = min(inner.wide * SQUARE_SHARE, SQUARE_MOST_MM * MM)
    under = inner.high >= 2 * twin
    side = min(inner.high - twin if under else inner.high, most)
    squares = [Box(right - side, top - side, side, side)]
    if under:
        least = min(side, inner.high - side)
        squares.append(Box(right - least, inner.low, least, least))
    elif inner.wide - side - twin >= WORDS_LEAST_MM * MM:
        squares.append(Box(right - side - twin, inner.low, twin, twin))
    room = min(at.left for at in squares) - inner.left
    return squares, Box(inner.left, inner.low, room, inner.high)


def _words(canvas: Any, label: Label, box: Box) -> None:
    marked = f"match mark {label.match_mark}" if label.match_mark else ""
    of = " · ".join(filter(None, (label.machine, label.of)))
    rest = [
        (label.name, fonts.NORMAL, 13.0),
        (marked, fonts.BOLD, 11.0),
        (label.note, fonts.BOLD, SMALL),
        (of, fonts.NORMAL, SMALL),
        (label.code, fonts.NORMAL, LEAST),
    ]
    leasts = [_least(text, font, box.wide) for text, font, _most in rest]
    keeps_code = sum(min(one, LEAST * 1.2) for one in leasts) + BIG_LEAST * 1.2 <= box.high
    kept = leasts[: NEEDED + keeps_code]
    if sum(kept) + BIG_LEAST * 1.2 > box.high:
        kept = _what_fits([min(one, LEAST * 1.2) for one in kept], box.high - BIG_LEAST * 1.2)
    share = BIG_SHARE if label.name or label.machine else 0.8
    share = min(share, max(BIG_SHARE_LEAST, 1 - sum(kept) / box.high))
    big = fitted(label.big, fonts.BOLD, box.wide, box.high * share, BIG_MOST, BIG_LEAST)
    top = _lines(canvas, big, fonts.BOLD, box.left, box.low + box.high)
    for at, (text, font, most) in enumerate(rest):
        room = top - box.low - sum(kept[at + 1 :])
        if not text or room < LEAST * 1.2 or (at < len(kept) and not kept[at]):
            continue
        found = _by_pieces(text, font, box.wide, min(room, most * 2.5), most)
        if found is None or (at > 0 and _says_little(found, text)):
            continue
        if len(found.lines) * found.size * 1.2 <= room + 0.1:
            top = _lines(canvas, found, font, box.left, top)


def _what_fits(heights: list[float], high: float) -> list[float]:
    """The heights of lines, those of the least needed taken as none until the rest has room."""
    kept = list(heights)
    for at in reversed(range(len(kept))):
        if sum(kept) <= high:
            break
        kept[at] = 0.0
    return kept


def _by_pieces(text: str, font: str, wide: float, high: float, most: float) -> Fitted | None:
    """A line without the last of its pieces that have no room; what is one piece is cut, of several none is."""
    pieces = _PIECES.split(text)
    for end in range(len(pieces), 0, -2):
        found = fitted("".join(pieces[:end]), font, wide, high, most, LEAST)
        if not found.lines[-1].endswith("…"):
            return found
    return fitted(text, font, wide, high, most, LEAST) if len(pieces) == 1 else None


def _says_little(found: Fitted, text: str) -> bool:
    """Whether less than half of a line is left of it: three letters and dots help nobody."""
    return found.lines[-1].endswith("…") and 2 * len("".join(found.lines)) <= len(text) + 2


def _least(text: str, font: str, wide: float) -> float:
    """The height a text takes in the smallest letters [pt]; none for no text, and of a long one a few lines."""
    lines = _broken(fonts.printable(text), font, LEAST, wide) if text else ()
    return min(MOST_LINES, max(1, len(lines))) * LEAST * 1.2 if text else 0.0


def fitted(text: str, font: str, wide: float, high: float, most: float, least: float) -> Fitted:
    """A text broken into lines in the largest letters that go into a room; what is still too long ends with …"""
    plain = fonts.printable(text)
    fonts.register()
    size = most
    while size > least:
        lines = _broken(plain, font, size, wide)
        if lines and len(lines) * size * 1.2 <= high:
            return Fitted(lines, size)
        size -= 0.5
    return Fitted(_cut(plain, font, least, wide, max(1, int(high / (least * 1.2)))), least)


def _broken(text: str, font: str, size: float, wide: float) -> tuple[str, ...]:
    """Lines broken between words; none when a word is wider than the room."""
    from reportlab.lib.utils import simpleSplit
    from reportlab.pdfbase.pdfmetrics import stringWidth

    lines = tuple(simpleSplit(text, font, size, wide))
    return () if any(stringWidth(line, font, size) > wide for line in lines) else lines


def _cut(text: str, font: str, size: float, wide: float, most: int) -> tuple[str, ...]:
    """As many lines as there is room for: between words where they fit, else broken anywhere."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    whole = _broken(text, font, size, wide)
    if whole:
        kept = whole[:most]
        return kept if len(whole) <= most else (*kept[:-1], kept[-1][:-1].rstrip(" ,") + "…")
    lines: list[str] = []
    rest = text
    while rest and len(lines) < most:
        end = len(rest)
        while end > 1 and stringWidth(rest[:end], font, size) > wide:
            end -= 1
        lines.append(rest[:end])
        rest = rest[end:]
    if rest and lines:
        lines[-1] = lines[-1][:-1] + "…"
    return tuple(lines)


def _lines(canvas: Any, found: Fitted, font: str, left: float, top: float) -> float:
    """Draw lines from ``top`` down; returns where the next may begin."""
    canvas.setFont(font, found.size)
    for line in found.lines:
        canvas.drawString(left, top - found.size * 0.95, line)
        top -= found.size * 1.2
    return top
