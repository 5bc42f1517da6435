"""Sizes multiplied out, ``2 x 3 in`` or ``2 in x 3 ft``: whose unit a number without one is in."""

from __future__ import annotations

import re

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.quantity import Size, parse_length

_TIMES = re.compile(r"\s*[x×*]\s*", re.I)
_UNIT = re.compile(r"[a-zµ\"'′″]+\.?\s*$", re.I)
#: A long unit behind the last size is the length's own: nobody says whether the others are in it too.
_LONG = ("ft", "foot", "feet", "'", "′", "m")


def parse_product(
    text: str, unit: str = "mm", field: str = "Sizes", *, decimal_comma: bool | None = None
) -> tuple[float, ...]:
    """The sizes [mm] as ``read_product`` reads them.

    >>> parse_product("2 x 3 in"), parse_product("2 in x 3 ft"), parse_product("50 x 1000")
    ((50.8, 76.2), (50.8, 914.4), (50.0, 1000.0))
    """
    return tuple(size.mm for size in read_product(text, unit, field, decimal_comma=decimal_comma))


def read_product(
    text: str, unit: str = "mm", field: str = "Sizes", *, decimal_comma: bool | None = None
) -> tuple[Size, ...]:
    """The sizes in order. One unit behind the last is that of all before it that have none.

    Raises:
        BadEntry: no size.
        Ambiguous: feet or metres behind the last of several bare numbers.
    """
    parts = [part for part in _TIMES.split(text.strip()) if part]
    if not parts:
        raise BadEntry("is empty.", where=field, way_out="Type it as 50 x 1000 or 2 in x 3 ft.")
    last = _UNIT.search(parts[-1])
    word = last[0].strip() if last else ""
    bare = [part for part in parts[:-1] if not _UNIT.search(part)]
    if word.lower().rstrip(".") in _LONG and bare:
        raise _ask(text, parts, word, field)
    used = [f"{part} {word}" if word and not _UNIT.search(part) else part for part in parts]
    return tuple(parse_length(part, unit, field, decimal_comma=decimal_comma) for part in used)


def _ask(text: str, parts: list[str], word: str, field: str) -> Ambiguous:
    small = "mm" if word.lower() == "m" else "in"

    def in_unit(unit: str) -> str:
        return " x ".join(
            part if _UNIT.search(part) or place == len(parts) - 1 else f"{part} {unit}"
            for place, part in enumerate(parts)
        )

    return Ambiguous(
        f"does not say in which unit the numbers before “{word}” are.",
        where=field,
        value=text.strip(),
        readings=((f"the others in {small}", in_unit(small)), (f"all in {word}", in_unit(word))),
    )
