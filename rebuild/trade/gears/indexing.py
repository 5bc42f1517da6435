"""Dividing a circle on a 40:1 head: holes of a plate where one has them, else differential indexing.

The crank's turns for A divisions, taken N times, miss a whole circle by 40 (A - N)/A turns; the plate is geared to
turn by that much while the work goes once round.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked
from rebuild.trade.sizes.given import whole_of

RATIO = 40
_ONE = Fraction(1)
#: Hole circles of the three plates most heads come with. From memory.
CIRCLES = (15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49)
PLATES = Source("Three plates of a 40:1 dividing head", status=Status.FROM_MEMORY)
RULE = Source("differential indexing", "gears = 40 (A - N)/A", Status.COMPUTED)
_NEAR = 20
#: No simple gearing turns the plate faster than this.
_MOST = Fraction(6)


@dataclass(frozen=True, slots=True)
class Indexing:
    """Crank turns for a division, and on which circle; ``gearing`` is the plate's turns while the work goes once round.

    ``near`` is the number of divisions the crank is set for; it is the number asked where the circle divides it.
    """

    turns: Fraction
    circle: int | None
    holes: int
    near: int
    gearing: Fraction

    @property
    def words(self) -> str:
        """What to turn, as it is said at the head."""
        whole = self.turns.numerator // self.turns.denominator
        turn = f"{whole} turn{'' if whole == 1 else 's'}" if whole else ""
        if self.circle is None:
            return "no plate and no simple gearing divides it: make a plate with that many holes"
        rest = f"{self.holes} holes on the {self.circle} circle" if self.holes else ""
        told = " and ".join(filter(None, (turn, rest)))
        if self.gearing == 0:
            return told
        way = "with the crank" if self.gearing > 0 else "against the crank"
        ratio = abs(self.gearing)
        return (
            f"{told}, plate geared {ratio.numerator}:{ratio.denominator} to the spindle and turning {way} "
            f"(differential, set for {self.near})"
        )


@door()
def indexing(divisions: int) -> Worked[Indexing]:
    """How to divide by a number on a 40:1 head.

    Raises:
        OutOfRange: less than two divisions.

    >>> indexing(24).value.words
    '1 turn and 10 holes on the 15 circle'
    >>> indexing(127).value.words.split(", ")[:2]
    ['5 holes on the 15 circle', 'plate geared 7:3 to the spindle and turning against the crank (differential']
    """
    asked = whole_of("Divisions", divisions, least=2)
    sheet = Sheet(f"Indexing {asked} divisions")
    sheet.equation("crank turns for one", f"40/{asked}", RULE)
    found = _simple(asked, asked) or _differential(asked)
    if found is None:
        found = Indexing(_ONE * RATIO / asked, None, 0, asked, Fraction(0))
    if found.gearing:
        sheet.note(f"No plate has a circle that {asked} goes into: {', '.join(map(str, CIRCLES))}.", PLATES)
        sheet.equation(
            "plate to spindle", f"40 ({found.near} - {asked})/{found.near} = {found.gearing}", RULE
        )
    sheet.result("turn", found.words, PLATES)
    return Worked(found, sheet.close())


def _simple(divisions: int, near: int) -> Indexing | None:
    """On a circle the part of a turn divides; None where no plate has one."""
    turns = _ONE * RATIO / near
    part = turns - turns.numerator // turns.denominator
    for circle in CIRCLES:
        if circle % part.denominator == 0:
            return Indexing(turns, circle, int(part * circle), near, _ONE * RATIO * (near - divisions) / near)
    return None


def _differential(divisions: int) -> Indexing | None:
    """Set for the nearest number a plate has, the plate geared for the rest; the simplest gearing of those near."""
    near = [
        found
        for away in range(1, _NEAR + 1)
        for number in (divisions - away, divisions + away)
        if number > 1 and (found := _simple(divisions, number)) is not None and abs(found.gearing) <= _MOST
    ]
    return min(
        near, key=lambda one: (one.gearing.denominator + abs(one.gearing.numerator), one.near), default=None
    )
