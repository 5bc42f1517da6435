"""The size among the words typed: ``24.98``, ``0.98346 in``, ``3/8``, alone or beside other words."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.sizes.quantity import FACTORS, Size, parse_length

#: A size is found within half of its last figure typed, and never farther off than this [mm].
WIDEST_MM = 0.05


@dataclass(frozen=True, slots=True)
class Wanted:
    """A size meant by what was typed [mm], and how far off another may lie [mm] to be the same."""

    mm: float
    within_mm: float


def sizes_in(typed: str, *, decimal_comma: bool | None = None) -> tuple[tuple[Wanted, ...], tuple[str, ...]]:
    """The sizes typed may mean (a bare number is mm and inches alike), and the words beside it.

    >>> wanted, words = sizes_in("journal 24.98")
    >>> [round(one.mm, 3) for one in wanted], words
    ([24.98, 634.492], ('journal',))
    >>> [round(one.mm, 4) for one in sizes_in("0.98346 in")[0]], sizes_in("bag 7")[0]
    ([24.9799], ())
    """
    words = typed.split()
    for length in (3, 2, 1):
        for start in range(len(words) - length + 1):
            text = " ".join(words[start : start + length])
            found = _sizes(text, decimal_comma, alone=len(words) == length)
            if found:
                return found, (*words[:start], *words[start + length :])
    return (), tuple(words)


def _sizes(text: str, comma: bool | None, *, alone: bool) -> tuple[Wanted, ...]:
    """A whole number beside other words is a number of theirs, not a size: bag 7."""
    if not re.match(r"[.,]?\d", text) or not (
        alone or re.search(r"[.,/]|\d\s*(?:mm|in|thou|µm|cm|\")$", text)
    ):
        return ()
    found: dict[float, Wanted] = {}
    for unit in ("mm", "in"):
        try:
            size = parse_length(text, unit, decimal_comma=comma)
        except BadEntry:
            continue
        if size.mm > 0:
            found.setdefault(size.mm, Wanted(size.mm, _within(size)))
    return tuple(found.values())


def _within(size: Size) -> float:
    """Half of the last figure typed [mm]."""
    decimals = re.search(r"[.,](\d+)", size.text)
    if "/" in size.text or decimals is None:
        return WIDEST_MM
    half: float = FACTORS[size.unit] / (2.0 * 10.0 ** len(decimals[1]))
    return min(WIDEST_MM, half) * (1 + 1e-9)
