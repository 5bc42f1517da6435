"""Shim packs: leaves as typed (``0.003 + 0.002 + 2 x 0.0015``) and their total."""

from __future__ import annotations

import re
from collections.abc import Sequence

from rebuild.errors import BadEntry
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.quantity import Size, parse_length
from rebuild.trade.sizes.show import show_both, show_typed
from rebuild.trade.sizes.typed_text import plain_of

_TIMES = re.compile(r"(\d{1,2})\s*[x×*]\s*(.+)|(.+?)\s*[x×*]\s*(\d{1,2})")
THICKEST_MM = 10.0
WAYS = "Type the leaves as 0.003 + 0.002, each up to 10 mm."
LONGEST = 400


@door()
def parse_leaves(text: str, unit: str = "mm", *, decimal_comma: bool | None = None) -> list[Size]:
    """The leaves of a pack in order, from the casting up; a bare number is in ``unit``.

    Raises:
        BadEntry, Ambiguous: a leaf is no size, is not more than zero, or is thicker than 10 mm.

    >>> [leaf.text for leaf in parse_leaves("0.003 + 2 x 0.002", "in")]
    ['0.003', '0.002', '0.002']
    """
    leaves: list[Size] = []
    for part in re.split(r"[+;]", plain_of(text, "Leaves", WAYS, longest=LONGEST, sort="a pack")):
        times, size = _times(part.strip())
        leaf = parse_length(size, unit, "Leaf", decimal_comma=decimal_comma)
        if not 0 < leaf.mm <= THICKEST_MM:
            raise BadEntry(
                "is not the thickness of a shim.",
                where="Leaf",
                value=part.strip(),
                way_out=WAYS,
            )
        leaves += [leaf] * times
    return leaves


def _times(part: str) -> tuple[int, str]:
    found = _TIMES.fullmatch(part)
    if found is None:
        return 1, part
    number, size = (found[1], found[2]) if found[1] else (found[4], found[3])
    return read_whole(number, "Leaves"), size


@door()
def total(leaves: Sequence[Size], unit: str) -> Worked[float]:
    """The thickness of a pack [mm] with its sum spelled out in ``unit``.

    >>> round(total(parse_leaves("0.003 + 2 x 0.002", "in"), "in").value, 4)
    0.1778
    """
    sheet = Sheet("Shim pack")
    value = sum(leaf.mm for leaf in leaves)
    spelled = " + ".join(show_typed(leaf, leaf.unit) for leaf in leaves) or "no leaf"
    sheet.equation("total", f"{spelled} = {show_both(value, unit)}")
    sheet.result("total", show_both(value, unit), Source("sum of the leaves as read", status=Status.COMPUTED))
    return Worked(value, sheet.close())
