"""The size among the words typed: ``24.98``, ``0.98346 in``, ``3/8``, ``M8 x 30``, alone or beside other words."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.sizes.quantity import FACTORS, Size, parse_length
from rebuild.trade.teardown.fastener_words import known_thread, parse_fastener

#: What only a fastener's size looks like: M8, 3/8-16, #10-32.
_FASTENER = re.compile(r"\bm\d|\d/\d+\s*-\s*\d|#\s*\d+\s*-\s*\d", re.IGNORECASE)
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


@dataclass(frozen=True, slots=True)
class WantedFastener:
    """A fastener meant: its thread as ``same_thread`` has it, its length [mm] (None: any), and the words beside."""

    thread: str
    length_mm: float | None
    words: str


def fastener_in(typed: str) -> WantedFastener | None:
    """The fastener a text means by its size; None when it names no thread in the way fasteners are named.

    >>> fastener_in("M8x30"), fastener_in("4 × M8 × 30 mm set screw").words
    (WantedFastener(thread='m8', length_mm=30.0, words=''), 'set screw')
    >>> fastener_in("3/8-16 x 1 in").length_mm, fastener_in("24.98"), fastener_in("bag 7")
    (25.4, None, None)
    """
    if not _FASTENER.search(typed):
        return None
    try:
        said = parse_fastener(typed.replace("×", "x"))
        length = parse_length(said.length, said.length_unit).mm if said.length else None
    except BadEntry:
        return None
    if known_thread(said.thread) is None:
        return None
    kind = said.kind if said.kind in typed.lower() else ""
    words = " ".join(filter(None, (said.head, kind, said.note)))
    return WantedFastener(same_thread(said.thread), length, words)


def same_thread(thread: str) -> str:
    """A thread without the ways it may be spaced: ``M8 x 1.25`` and ``m8×1.25`` are one.

    >>> same_thread("M8 × 1.25")
    'm8x1.25'
    """
    return "".join(thread.lower().replace("×", "x").split())
