"""What one cell of a list holds, prepared once for its width and its height."""

from __future__ import annotations

import re
from typing import NamedTuple

from PySide6.QtGui import QFontMetrics

from rebuild.window.lists.shares import Need
from rebuild.window.lists.wrapped import wide, wrapped

#: A word longer than this many average letters may be broken, or no table with it would fit a window.
LONGEST_WORD = 22
#: A text with a digit and no more letters than this is a value: it stays on one line.
VALUE = 13
#: Under this many average letters a line of words reads badly; the list is then scrolled sideways.
FEWEST_LETTERS = 13


class Cell(NamedTuple):
    """The words of a cell, how they are written, and what edges and picture take beside them [px]."""

    text: str
    metrics: QFontMetrics
    font: str
    around: int

    @property
    def need(self) -> Need:
        """Its width on one line, and the width under which a word or a value would be cut."""
        natural = self.around + 1 + max(wide(part, self.metrics, self.font) for part in self.text.split("\n"))
        if len(self.text) <= VALUE and any(letter.isdigit() for letter in self.text):
            return Need(natural, natural)
        longest = max(
            (wide(word, self.metrics, self.font) for word in re.split(r"[ \n]+", self.text)), default=0
        )
        letter = self.metrics.averageCharWidth()
        least = max(min(longest, LONGEST_WORD * letter), FEWEST_LETTERS * letter)
        return Need(natural, min(natural, self.around + least + 1))

    def lines(self, room: int) -> int:
        """How many lines it goes on in a width [px]."""
        return len(wrapped(self.text, max(8, room - self.around), self.metrics, self.font))
