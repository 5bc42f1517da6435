"""Decimal point under decimal point: how far a number of a column stands in from its right edge."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QFontMetrics

from rebuild.window.lists.wrapped import wide

#: A model tells by this role what stands behind the point, or the last whole digit, in every row of a column.
TAILS = int(Qt.ItemDataRole.UserRole) + 71
_WHOLE = re.compile(r"[-+±≤≥]? ?\d[\d,]*")


def tail(text: str) -> str:
    """From the point on; of a whole number its unit alone.

    >>> tail("12.50 mm"), tail("7 mm"), tail("-0.002")
    ('.50 mm', ' mm', '.002')
    """
    found = _WHOLE.match(text)
    return text[found.end() :] if found is not None else ""


def tails(texts: Sequence[str]) -> frozenset[str]:
    """The tails of a column of numbers of one unit; none where units differ or no number has a point.

    >>> sorted(tails(["12.5 mm", "7 mm", ""])), sorted(tails(["12.5 mm", "7 in"])), sorted(tails(["3", "14"]))
    ([' mm', '.5 mm'], [], [])
    """
    found = frozenset(tail(text) for text in texts if text)
    units = {one.lstrip(".0123456789").strip() for one in found}
    return found if len(units) == 1 and any(one.startswith(".") for one in found) else frozenset()


def stands_in(index: QModelIndex | QPersistentModelIndex, text: str, metrics: QFontMetrics, font: str) -> int:
    """How far [px] a number stands in from the right, so that its point is under those of its column."""
    every: Collection[str] = index.data(TAILS) or ()
    if not every or not text:
        return 0
    return max(wide(one, metrics, font) for one in every) - wide(tail(text), metrics, font)
