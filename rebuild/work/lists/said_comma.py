"""What the comma means in a list: said by the list as a whole, where one cell alone leaves it open."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from rebuild.work.lists.batch import Batch

#: Where sizes stand in a list.
_SIZES = ("typed", "spec", "at")
_NUMBER = re.compile(r"\d[\d.,]*|[.,]\d+")
#: So many digits before a comma read as thousands are ten metres or inches and more: no part of a machine is so long.
_TOO_LONG = 2
_DECIMAL, _THOUSANDS, _OPEN, _POINT = "decimal", "thousands", "open", "point"


def comma_of(batches: Sequence[Batch]) -> bool | None:
    """True where every comma of a list can be a decimal one and some can be nothing else; None where that is open.

    A list that writes points, or a number that is only right with thousands, is left to be asked cell by cell.
    """
    seen = {
        kind
        for batch in batches
        for line in batch.lines
        for kind in _kinds(line.text(name) for name in _SIZES)
    }
    return True if _DECIMAL in seen and not seen & {_THOUSANDS, _POINT} else None


def _kinds(cells: Iterable[str]) -> Iterable[str]:
    for cell in cells:
        for number in _NUMBER.findall(cell):
            yield _kind(number.rstrip(".,"))


def _kind(number: str) -> str:
    """What the comma of one number can be.

    >>> [_kind(one) for one in ("0,021", "47,03", "20,008", "1,250", "1,250,000", "1,250.5", "59.98", "25")]
    ['decimal', 'decimal', 'decimal', 'open', 'thousands', 'thousands', 'point', 'open']
    """
    if "," not in number:
        return _POINT if "." in number else _OPEN
    whole, _, rest = number.partition(",")
    if "." in number or "," in rest:
        return _THOUSANDS
    grouped = len(rest) == 3 and 0 < len(whole) <= 3 and not whole.startswith("0")
    return _OPEN if grouped and len(whole) < _TOO_LONG else _DECIMAL
