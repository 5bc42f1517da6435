"""What is typed behind, or in place of, a deviation: a test bar whose sag is taken out, or two collars.
``0.010 rising, bar 40 x 300 mm`` is what the spindle does and not the bar: the sag is put back. ``collars 40.000 40.012
over 150`` is the lean of the spindle over the length the limit is given for.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.trade.geometry.bar_sag import Held, Sag, bar_sag
from rebuild.trade.geometry.two_collar import Lean, two_collars
from rebuild.trade.results.working import Worked
from rebuild.trade.sizes.quantity import parse_length

WAYS_BAR = (
    "Type it as 0.010 rising, bar 40 x 300 mm; a bore as bar 40/20 x 300 mm; at its end between centres."
)
WAYS_COLLARS = (
    "Type it as collars 40.000 40.012 over 150 mm: at the chuck, at the free end, between their middles."
)
_BAR = re.compile(r"^(?P<value>.+?)\s*[,;]?\s+bar\s+(?P<bar>\S.*)$", re.I)
_SECTION = re.compile(
    r"(?P<outside>[^x/]+?)\s*(?:/\s*(?P<bore>[^x/]+?))?\s*x\s*(?P<long>[\d.,]+)\s*(?P<unit>mm|in)?"
    r"(?P<centres>\s+between centres)?",
    re.I,
)
_COLLARS = re.compile(
    r"collars\s+(?P<chuck>[\d.,]+)\s+(?P<free>[\d.,]+)\s*(?P<unit>mm|in)?\s+over\s+(?P<between>[\d.,]+)\s*(?P<other>mm|in)?",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Upright:
    """Which way a bar's sag shows at a position: +1 where plus is rising, -1 where plus is falling."""

    sign: int


def split_bar(text: str) -> tuple[str, str]:
    """A deviation and the bar it was read on; no bar: empty.

    >>> split_bar("0.010 rising, bar 40 x 300 mm"), split_bar("0.010 rising")
    (('0.010 rising', '40 x 300 mm'), ('0.010 rising', ''))
    """
    found = _BAR.match(text.strip())
    return (found["value"].strip(), found["bar"].strip()) if found else (text.strip(), "")


def sag_of(bar: str, unit: str, where: str, decimal_comma: bool | None = None) -> Worked[Sag]:
    """The sag of a steel bar as typed: ``40 x 300 mm``.

    Raises:
        BadEntry, OutOfRange: it is not a bar, or one too short to sag.

    >>> round(sag_of("40 x 300", "mm", "Test 6").value.sag_mm * 1000, 2)
    3.78
    """
    found = _SECTION.fullmatch(" ".join(bar.split()))
    if found is None:
        raise BadEntry("is no bar.", where=where, value=bar, way_out=WAYS_BAR)
    named = (found["unit"] or unit).lower()

    def size(name: str) -> float:
        return parse_length(found[name].strip(), named, f"{where}, bar", decimal_comma=decimal_comma).mm

    held = Held.CENTRES if found["centres"] else Held.ONE_END
    return bar_sag(size("outside"), size("long"), held, size("bore") if found["bore"] else 0.0)


def upright(plus: str, minus: str, where: str, typed: str) -> Upright:
    """Which way sag shows at a position, by its words. Raises BadEntry where nothing rises or falls.

    >>> upright("rising toward the free end", "falling toward the free end", "Test 6", "").sign
    1
    """
    for sign, word, other in ((1, plus, minus), (-1, minus, plus)):
        if "rising" in word.lower() or "falling" in other.lower():
            return Upright(sign)
    raise BadEntry(
        "names its bar, but sag shows only where rising and falling are read.",
        where=where,
        value=typed,
        way_out="Leave the bar out: read from the side, its sag makes no difference.",
    )


def lean_of(
    text: str, unit: str, per_mm: float | None, where: str, comma: bool | None
) -> Worked[Lean] | None:
    """The lean of the spindle by two collars over ``per_mm``, positive away from the tool; None: no collars typed.

    Raises:
        BadEntry, OutOfRange: not two collars, or sizes that cannot be.

    >>> round(lean_of("collars 40.000 40.012 over 150", "mm", 300.0, "Test 6", None).value.over_per_mm, 6)
    0.012
    """
    if not re.match(r"\s*collars\b", text, re.I):
        return None
    found = _COLLARS.fullmatch(" ".join(text.split()))
    if found is None:
        raise BadEntry(
            "names collars, and not two with what lies between.",
            where=where,
            value=text,
            way_out=WAYS_COLLARS,
        )
    first = (found["unit"] or found["other"] or unit).lower()

    def size(name: str, named: str) -> float:
        return parse_length(found[name], named, f"{where}, collars", decimal_comma=comma).mm

    between = size("between", (found["other"] or found["unit"] or unit).lower())
    return two_collars(size("chuck", first), size("free", first), between, per_mm or between)


def with_unit(text: str, unit: str) -> str:
    """A bar or two collars with the unit its bare sizes were read in, so that it reads back the same.

    >>> with_unit("40 x 300 between centres", "mm"), with_unit("collars 1.5 1.501 over 6 in", "mm")
    ('40 x 300 mm between centres', 'collars 1.5 1.501 over 6 in')
    """
    plain = text.strip()
    if re.search(r"\d\s*(mm|in)\b", plain, re.I):
        return plain
    head, between, tail = plain.partition(" between centres")
    return f"{head} {unit}{between}{tail}"
