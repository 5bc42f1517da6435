"""A pasted column may bring its heading along: it is told from a reading, so that no value shifts by a row.

A heading that says a unit says it of every number under it that has none of its own.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.length_units import TYPOGRAPHY, UNIT_OF
from rebuild.trade.sizes.quantity import is_bare, parse_length

#: What a heading may end with: ``diameter (mm)``, ``cleaned, in``, ``Ø [µm]``, ``slope mm/m``.
_LAST = re.compile(r"(?:^|[\s(\[,;:])(?P<unit>[^\s()\[\],;:]+)[)\]]?\s*$")
_SLOPES = {"mm/m": "mm/m", "µm/m": "µm/m", "in/ft": "in/ft", "div": "div", "divisions": "div"}
#: A name and the unit under it are the most a column has above its values.
MOST_LINES = 3


def heading_lines(block: Sequence[Sequence[str]]) -> int:
    """How many lines above a block name its columns: nothing in them reads as a size, what is under them does.

    >>> heading_lines([["near", "far"], ["59.98", "59.97"]]), heading_lines([["59.98"], ["59.97"]])
    (1, 0)
    >>> heading_lines([["near"], ["(mm)"], ["59.98"]]), heading_lines([["5o.98"], ["59.98"]])
    (2, 0)
    """
    for lines in range(min(MOST_LINES, len(block))):
        here = [text for text in block[lines] if text.strip()]
        if lines and any(map(_reads, here)):
            return lines
        if not here or not all(map(is_heading, here)):
            return 0
    return 0


def headings_of(lines: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """One heading for each column out of the lines above it.

    >>> headings_of([["near", "far"], ["mm"]])
    ('near mm', 'far')
    """
    wide = max(map(len, lines), default=0)
    return tuple(
        " ".join(line[at].strip() for line in lines if at < len(line) and line[at].strip())
        for at in range(wide)
    )


def without_heading(column: Sequence[str]) -> tuple[str, list[str]]:
    """The heading of a column and what stands under it; an empty heading where there is none.

    A heading is a first cell that has no number in it, over a cell that has one. A mistyped number is no heading.

    >>> without_heading(["as found", "0.01", "0.02"])
    ('as found', ['0.01', '0.02'])
    >>> without_heading(["5o.98", "59.98"])
    ('', ['5o.98', '59.98'])
    """
    lines = heading_lines([[cell] for cell in column])
    return " ".join(cell.strip() for cell in column[:lines]), list(column[lines:])


def unit_named(heading: str) -> str:
    """The unit a heading says its numbers are in; empty where it says none.

    >>> unit_named("Near (mm)"), unit_named("diameter in"), unit_named("µm"), unit_named("slope mm/m")
    ('mm', 'in', 'µm', 'mm/m')
    >>> unit_named("near end"), unit_named("Station A"), unit_named("cleaned, inches")
    ('', '', 'in')
    """
    last = _LAST.search(heading.casefold().translate(TYPOGRAPHY))
    word = last["unit"].rstrip(".") if last is not None else ""
    return _SLOPES.get(word) or (UNIT_OF.get(word, "") if len(word) > 1 else "")


def in_unit_named(text: str, unit: str) -> str:
    """A cell with the unit of its heading behind each number without one.

    >>> in_unit_named("59.98", "mm"), in_unit_named("0.98; 0.99", "in"), in_unit_named("1 in", "mm")
    ('59.98 mm', '0.98 in; 0.99 in', '1 in')
    """
    if not unit or not text.strip():
        return text
    parts = [part.strip() for part in text.split(";")]
    return "; ".join(f"{part} {unit}" if part and is_bare(part) else part for part in parts)


def units_said(units: Sequence[str]) -> str:
    """What the headings' units did, to put behind; empty where they say none.

    >>> units_said(["mm", ""]), units_said(["", ""])
    (', and the numbers under it are in mm', '')
    """
    told = " and ".join(dict.fromkeys(filter(None, units)))
    return f", and the numbers under it are in {told}" if told else ""


def is_heading(text: str) -> bool:
    """A word, not a value: it begins with a letter, and reads as no size.

    >>> is_heading("As found (mm)"), is_heading("Station 1"), is_heading("59.98"), is_heading("")
    (True, True, False, False)
    """
    plain = text.strip()
    return plain.lstrip("([Ø⌀ ")[:1].isalpha() and not _reads(plain)


def _reads(text: str) -> bool:
    try:
        parse_length(text.strip(), "mm")
    except Ambiguous:
        return True
    except BadEntry:
        return any(mark.isdigit() for mark in text) and not text.strip()[:1].isalpha()
    return True
