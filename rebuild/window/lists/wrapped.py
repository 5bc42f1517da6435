"""Words broken into the lines a column has room for: between words, and inside one only when it is alone too long."""

from __future__ import annotations

from PySide6.QtGui import QFontMetrics

_MOST_KEPT = 20_000
_widths: dict[tuple[str, str], int] = {}
_broken: dict[tuple[str, int, str], tuple[str, ...]] = {}


def wide(text: str, metrics: QFontMetrics, font: str = "") -> int:
    """The width of one line of text [px]; ``font`` names the font for what is kept."""
    found = _widths.get((text, font))
    if found is None:
        if len(_widths) > _MOST_KEPT:
            _widths.clear()
        found = _widths[text, font] = metrics.horizontalAdvance(text)
    return found


def forget_widths() -> None:
    """Measure anew: the window's own font has another size."""
    _widths.clear()
    _broken.clear()


def wrapped(text: str, room: int, metrics: QFontMetrics, font: str = "") -> tuple[str, ...]:
    """The lines of a text in a room [px]; no letter is dropped."""
    if "\n" not in text and wide(text, metrics, font) <= room:
        return (text,)
    found = _broken.get((text, room, font))
    if found is None:
        if len(_broken) > _MOST_KEPT:
            _broken.clear()
        lines = [line for part in text.split("\n") for line in _lines(part, room, metrics, font)]
        found = _broken[text, room, font] = tuple(lines)
    return found


def _lines(text: str, room: int, metrics: QFontMetrics, font: str) -> list[str]:
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if wide(longer, metrics, font) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        *whole, line = _pieces(word, room, metrics, font)
        lines += whole
    return [*lines, line]


def _pieces(word: str, room: int, metrics: QFontMetrics, font: str) -> list[str]:
    """A word, cut where it is wider than the room by itself."""
    pieces = [""]
    for letter in word if wide(word, metrics, font) > room else (word,):
        if pieces[-1] and wide(pieces[-1] + letter, metrics, font) > room:
            pieces.append("")
        pieces[-1] += letter
    return pieces
