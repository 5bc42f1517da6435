"""The short code a tag carries: which file, which sort of thing, which number, and a check character.

At most ten capitals and digits, so that the smallest QR symbol holds it at its highest correction. It names
the record, not its name: a part renamed or given another code keeps its tag.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from rebuild.errors import BadEntry, OutOfRange

DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
BASE = len(DIGITS)
#: Characters: sort, mark of the file, number, check.
MARK_LONG, NUMBER_MOST, LONGEST = 3, 5, 10
MOST = BASE**NUMBER_MOST - 1
_NONE_OF_OURS = "Type the ten characters under the square, or the thing's own code."


class Tagged(StrEnum):
    """What a code stands on; the value is its first character."""

    PART = "P"
    PLACE = "B"


@dataclass(frozen=True, slots=True)
class Code:
    """A code taken apart: the sort of thing, the mark of its file, and the record's number."""

    sort: Tagged
    mark: str
    number: int

    def text(self) -> str:
        """As it is printed.

        Raises:
            OutOfRange: the number does not fit.

        >>> Code(Tagged.PART, "7QF", 41).text()
        'P7QF15T'
        """
        if not 0 < self.number <= MOST:
            raise OutOfRange(
                f"has no code: it lies outside 1 to {MOST}.", where="Number", value=str(self.number)
            )
        body = f"{self.sort.value}{self.mark}{in_digits(self.number)}"
        return body + check_character(body)


def read_code(text: str) -> Code:
    """A code as read or typed; spaces and small letters do not matter.

    Raises:
        BadEntry: it is none of ours, or a character is wrong.

    >>> read_code("p7qf15t").number
    41
    """
    plain = "".join(text.split()).upper()
    sorts = {sort.value for sort in Tagged}
    shaped = 2 + MARK_LONG < len(plain) <= LONGEST and set(plain) <= set(DIGITS) and plain[0] in sorts
    if not shaped:
        raise BadEntry("is no code of a tag.", where="Code", value=text.strip()[:40], way_out=_NONE_OF_OURS)
    if check_character(plain[:-1]) != plain[-1]:
        raise BadEntry(
            "has a wrong character: its last one does not agree with the others.",
            where="Code",
            value=plain,
            way_out="Look at the tag again; O is 0 and I is 1 where they were mistaken.",
        )
    number = 0
    for sign in plain[1 + MARK_LONG : -1]:
        number = number * BASE + DIGITS.index(sign)
    return Code(Tagged(plain[0]), plain[1 : 1 + MARK_LONG], number)


def in_digits(number: int, least: int = 1) -> str:
    """A whole number in base 36.

    >>> in_digits(41), in_digits(35, 3)
    ('15', '00Z')
    """
    found = ""
    while number or not found:
        number, rest = divmod(number, BASE)
        found = DIGITS[rest] + found
    return found.rjust(least, "0")


def check_character(body: str) -> str:
    """The check character of ISO/IEC 7064 MOD 37,36, which finds every single wrong or swapped neighbour but few.

    >>> check_character("A12425GABC1234002")
    'M'
    """
    carried = BASE
    for sign in body:
        carried = (carried + DIGITS.index(sign)) % BASE or BASE
        carried = carried * 2 % (BASE + 1)
    return DIGITS[(BASE + 1 - carried) % BASE]
