"""What a line of the removal log says against itself: the wrong end of a taper pin, a lost part that lies in a bag."""

from __future__ import annotations

import re

from rebuild.trade.results.door import door
from rebuild.words.teardown import RemovalWay

_WIDE = r"(?:wide|large|big|thick)"
_NARROW = r"(?:narrow|small|little|thin)"
_END_AT = re.compile(
    rf"(?:the )?(?:(?P<wide>{_WIDE})|{_NARROW})[ -]end (?:was |is )?"
    r"(?:(?:to|towards?|at|facing) )?(?:the )?(?P<where>.+)",
    re.IGNORECASE,
)
_OPPOSITE = {
    "front": "rear", "rear": "front", "back": "front", "left": "right", "right": "left", "above": "below",
    "below": "above", "top": "bottom", "bottom": "top", "inside": "outside", "outside": "inside",
    "upper": "lower", "lower": "upper", "up": "down", "down": "up",
}  # fmt: skip
_LOST = re.compile(r"(?:lost|missing|gone|not there)\b", re.IGNORECASE)


@door()
def wrong_end(how: RemovalWay, from_end: str, orientation: str) -> str:
    """Why a pin could not be driven out so; empty when nothing speaks against it.

    A taper pin comes out only towards its wide end: it is struck at the narrow one (common practice, no source).

    >>> wrong_end(RemovalWay.DRIVEN, "front", "wide end at the front")
    'struck at the front, where its wide end was'
    >>> wrong_end(RemovalWay.DRIVEN, "front", "wide end to the rear")
    ''
    """
    if how is not RemovalWay.DRIVEN:
        return ""
    struck = re.sub(r"^the ", "", from_end.strip().lower())
    if re.fullmatch(rf"{_WIDE}[ -]end", struck):
        return "struck at its wide end"
    for clause in orientation.split(";"):
        found = _END_AT.fullmatch(clause.strip())
        if found is None:
            continue
        where = found["where"].strip().lower()
        wide = where if found["wide"] else _OPPOSITE.get(where, "")
        if wide and wide == struck:
            return f"struck at the {struck}, where its wide end was"
    return ""


@door()
def other_end(end: str) -> str:
    """The end across from one; what is struck there comes out here.

    >>> other_end("front"), other_end("small end"), other_end("middle")
    ('rear', 'big end', 'other end than the middle')
    >>> other_end("tagged end"), other_end("upper"), other_end("thin end")
    ('other end than the tagged end', 'lower', 'thick end')
    """
    said = end.strip().lower()
    across = {
        "wide": "narrow",
        "narrow": "wide",
        "large": "small",
        "big": "small",
        "small": "big",
        "little": "big",
        "thick": "thin",
        "thin": "thick",
    }
    first, _, rest = said.partition(" ")
    if rest == "end" and first in across:
        return f"{across[first]} end"
    return _OPPOSITE.get(said, f"other end than the {said}")


@door()
def is_lost(how: RemovalWay, broke: str) -> bool:
    """Whether the part itself is not there: not found on the machine, or lost.

    >>> is_lost(RemovalWay.LIFTED, "lost"), is_lost(RemovalWay.BROKEN, "one ear"), is_lost(RemovalWay.MISSING, "")
    (True, False, True)
    """
    return how is RemovalWay.MISSING or _LOST.match(broke) is not None
