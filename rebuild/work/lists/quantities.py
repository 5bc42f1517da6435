"""How many of a part a list says: ``2x``, ``4 pcs``, ``2.0``, ``0.1 m``, ``as needed``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.sizes.number import read_number
from rebuild.work.lists.heading_words import plain

_SAID = re.compile(
    r"(?:[x×]\s*)?(?P<number>\d[\d.,]*)\s*(?:[x×*](?![a-z]))?\s*(?P<unit>[^\d\s][^\d]*2?)?", re.IGNORECASE
)
#: Words for a piece.
_PIECES = frozenset(
    plain(word)
    for word in (
        "pc", "pcs", "piece", "pieces", "ea", "each", "off", "no", "nos", "x", "unit", "units", "item", "items", "St",
        "Stk", "Stck", "Stück", "pièce", "pièces", "pce", "pz", "pezzo", "pezzi", "ud", "uds", "unidad", "unidades",
        "pieza", "piezas", "stuk", "stuks", "個", "ケ", "コ", "本", "枚", "台", "式", "件", "只", "个", "套",
        "条", "片",
    )
)  # fmt: skip
#: Units of what is measured out, not counted.
_MEASURED = frozenset({
    "m", "mm", "cm", "dm", "km", "in", "inch", "inches", "ft", "foot", "feet", "yd", "g", "kg", "mg", "lb",
    "lbs", "oz",
    "l", "ml", "cl", "litre", "liter", "litres", "meter", "metre", "metres", "meters", "m2", "qt", "gal", "米", "克",
})  # fmt: skip
_OPEN = frozenset(
    {"", "asneeded", "asrequired", "ar", "tbd", "na", "several", "some", "nachbedarf", "selonbesoin"}
)


@dataclass(frozen=True, slots=True)
class Quantity:
    """How many; ``said`` keeps what the list said when that is not simply a number of pieces."""

    count: int
    said: str = ""


def quantity_said(text: str, unit: str = "", *, comma: bool | None = None) -> Quantity:
    """Read how many.

    Raises:
        BadEntry: it is neither a number of pieces nor an amount.

    >>> quantity_said("2x").count, quantity_said("4 Stk.").count, quantity_said("0.1", "m")
    (2, 4, Quantity(count=1, said='0.1 m'))
    """
    bare = text.strip()
    if plain(bare) in _OPEN:
        return Quantity(1, bare)
    found = _SAID.fullmatch(bare)
    if found is None:
        raise BadEntry(
            "is not a whole number.",
            where="Quantity",
            value=text,
            way_out="Give a number, as 2, 2x or 4 pcs.",
        )
    number = read_number(found["number"], "Quantity", at_least=0, decimal_comma=comma)
    of = (found["unit"] or unit).strip()
    whole = number.is_integer()
    if whole and plain(of) not in _MEASURED:
        said = (
            "" if not of or plain(of) in _PIECES else f"{bare} {unit}".strip() if not found["unit"] else bare
        )
        return Quantity(int(number), said)
    return Quantity(1, f"{found['number']} {of}".strip())
