"""Inch bearings come in two widths, open and closed (sealed or shielded): which one a designation means."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TYPE_CHECKING

from rebuild.errors import OutOfRange
from rebuild.trade.sizes.own_unit import both

if TYPE_CHECKING:
    from rebuild.trade.bearings.table import Bearing

#: Marks of seals and shields behind a number: 2RS, RS1, ZZ, 2Z, Z, LLU, DDU, VV and the word itself.
_CLOSED_MARK = re.compile(
    r"[-/ ]*(?:2?RS[A-Z0-9]*|2?Z{1,2}[A-Z0-9]*|LL[A-Z]|DDU?|VV|2?RU|SEALED|SHIELDED)(?![A-Z])"
)
_CLOSED_WIDER = "R"
_SEALED = "-sealed"


def closed(designation: str, found: Bearing, by_name: Mapping[str, Bearing]) -> Bearing:
    """The closed bearing where the inch series makes it wider than the open one.

    Raises:
        OutOfRange: it is closed, and the table has only the open one's width.
    """
    rest = designation.strip().lstrip("*").strip().upper().removeprefix(found.designation.upper())
    if found.series != _CLOSED_WIDER or not _CLOSED_MARK.match(rest):
        return found
    sealed = by_name.get(f"{found.designation}{_SEALED}".upper())
    if sealed is None:
        raise OutOfRange(
            "is closed, and the table has only the open one's width; "
            "closed ones of this series are often wider.",
            where="Bearing",
            value=designation.strip(),
            way_out="Measure its width.",
        )
    return sealed


def other_width(found: Bearing, by_name: Mapping[str, Bearing]) -> str:
    """What to say of an inch bearing made in two widths, open and closed; empty for all others.

    >>> from rebuild.trade.bearings.table import by_designation
    >>> other_width(by_designation()["R8"], by_designation())
    'Open; closed (2RS, ZZ) it is 7.938 mm (0.3125 in) wide.'
    """
    if not found.inch or found.series not in (_CLOSED_WIDER, "R sealed"):
        return ""
    if found.designation.endswith(_SEALED):
        open_one = by_name[found.designation.removesuffix(_SEALED).upper()]
        return f"Closed; open it is {both(open_one.width_mm)} wide. One shield alone: measure it."
    sealed = by_name.get(f"{found.designation}{_SEALED}".upper())
    if sealed is None:
        return "Open; closed ones of this series are often wider: measure."
    return f"Open; closed (2RS, ZZ) it is {both(sealed.width_mm)} wide."
