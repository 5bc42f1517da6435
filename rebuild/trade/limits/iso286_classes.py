"""Tolerance classes as typed: ``H7``, ``25 g6``, ``Ø25 H7/g6``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.limits.iso286_tables import GRADES
from rebuild.trade.limits.sizes import Role
from rebuild.trade.sizes.given import text_of
from rebuild.trade.sizes.quantity import Size, parse_length

LETTERS = ("a", "b", "c", "cd", "d", "e", "ef", "f", "fg", "g", "h", "js", "j", "k", "m", "n", "p", "r", "s",
           "t", "u", "v", "x", "y", "z", "za", "zb", "zc")  # fmt: skip
_CLASS = re.compile(r"(?P<letters>[A-Za-z]{1,2})\s?(?P<grade>\d{1,2})")
_TYPED = re.compile(
    r"(?P<size>.*?)\s*(?P<first>(?<![A-Za-z])[A-Za-z]{1,2}\s?\d{1,2})"
    r"(?:\s*[/-]\s*(?P<second>[A-Za-z]{1,2}\s?\d{1,2}))?"
)


@dataclass(frozen=True, slots=True)
class ToleranceClass:
    """A class such as H7 or js6: letters in capitals for holes, and the grade (``01``, ``0`` to ``18``)."""

    letters: str
    grade: str

    @property
    def role(self) -> Role:
        """Capitals are holes."""
        return Role.HOLE if self.letters.isupper() else Role.SHAFT

    def __str__(self) -> str:
        return f"{self.letters}{self.grade}"


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed: a size or none, and one class or a hole and a shaft."""

    size: Size | None
    hole: ToleranceClass | None
    shaft: ToleranceClass | None


def parse_class(text: str) -> ToleranceClass:
    """Read a tolerance class.

    Raises:
        BadEntry: not letters of ISO 286 in one case, or no grade.

    >>> str(parse_class("H7")), parse_class("g6").role.value
    ('H7', 'shaft')
    """
    return read_class(text_of("Class", text, "Type it as H7 or g6."))


@lru_cache(maxsize=2048)
def read_class(text: str) -> ToleranceClass:
    """As ``parse_class`` for what is text; each is read once, because grids ask for the same few.

    >>> read_class("H7") is read_class("H7")
    True
    """
    match = _CLASS.fullmatch(text.strip())
    if not match:
        raise BadEntry("is not a tolerance class.", where="Class", value=text, way_out="Type it as H7 or g6.")
    letters, grade = match["letters"], match["grade"]
    if not (letters.islower() or letters.isupper()) or letters.lower() not in LETTERS:
        raise BadEntry(
            "has no such letters in ISO 286.",
            where="Class",
            value=text,
            way_out=f"Letters: {' '.join(LETTERS)}; capitals for holes, I L O Q W are not used.",
        )
    if grade not in GRADES:
        raise OutOfRange(
            "has no such grade: ISO 286-1:2010 has IT01, IT0 and IT1 to IT18.",
            where="Class",
            value=text,
            way_out="Type it as H7 or g6.",
        )
    return ToleranceClass(letters, grade)


def parse_typed(text: str, unit: str = "mm", field: str = "Fit") -> Typed:
    """Read ``25 H7``, ``H7/g6``, ``Ø25 H7/g6`` or ``1 in g6``.

    Raises:
        BadEntry: no class in it, or two of the same side.

    >>> typed = parse_typed("Ø25 H7/g6")
    >>> typed.size.mm, str(typed.hole), str(typed.shaft)
    (25.0, 'H7', 'g6')
    """
    match = _TYPED.fullmatch(text_of(field, text).strip().lstrip("Øø⌀∅").strip())
    if not match:
        raise BadEntry(
            "names no tolerance class.", where=field, value=text, way_out="Type it as 25 H7/g6 or H7."
        )
    size = parse_length(match["size"], unit, field) if match["size"] else None
    classes = [parse_class(match[name]) for name in ("first", "second") if match[name]]
    sides = {one.role: one for one in classes}
    if len(sides) < len(classes):
        raise BadEntry(
            "names two classes of the same side.",
            where=field,
            value=text,
            way_out="Capitals are holes, small letters shafts: H7/g6.",
        )
    return Typed(size, sides.get(Role.HOLE), sides.get(Role.SHAFT))
