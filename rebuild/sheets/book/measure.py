"""How wide words are, and lines of text that fit a width."""

from __future__ import annotations

from functools import lru_cache

from reportlab.pdfbase import pdfmetrics

from rebuild.sheets import fonts


@lru_cache(maxsize=65_536)
def width(text: str, font: str, size: float) -> float:
    """The width of a text on one line [pt]."""
    fonts.register()
    return float(pdfmetrics.stringWidth(text, font, size))


def longest_word(text: str, font: str, size: float) -> float:
    """The width of the longest word [pt]."""
    return max((width(word, font, size) for word in text.replace("\n", " ").split(" ")), default=0.0)


def natural(text: str, font: str, size: float) -> float:
    """The width a text takes when it is not broken [pt]."""
    return max((width(line, font, size) for line in text.split("\n")), default=0.0)


def lines(text: str, room: float, font: str, size: float) -> tuple[str, ...]:
    """A text broken into lines no wider than ``room`` [pt]; a word too long for a line is cut."""
    found: list[str] = []
    for line in text.split("\n"):
        if width(line, font, size) <= room:
            found.append(line)
        else:
            found += _broken(line, room, font, size)
    return tuple(found)


def _broken(text: str, room: float, font: str, size: float) -> list[str]:
    space = width(" ", font, size)
    found: list[str] = []
    line, used = "", 0.0
    for word in filter(None, text.split(" ")):
        wide = width(word, font, size)
        if line and used + space + wide <= room:
            line, used = f"{line} {word}", used + space + wide
            continue
        if line:
            found.append(line)
        while wide > room and len(word) > 1:
            cut = _cut(word, room, font, size)
            found.append(word[:cut])
            word = word[cut:]
            wide = width(word, font, size)
        line, used = word, wide
    return [*found, line]


def _cut(word: str, room: float, font: str, size: float) -> int:
    cut = len(word)
    while cut > 1 and width(word[:cut], font, size) > room:
        cut -= 1
    return cut
