"""Which Woodruff key is it: from its width with its circle, its height or both, as a caliper reads them."""

from __future__ import annotations

from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.joints.woodruff import HELD, Woodruff, sizes_in_words, woodruff_keys
from rebuild.trade.results.door import door
from rebuild.trade.results.likeness import Likeness, Misfit, check_tolerance, worst
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.own_unit import both, said

#: Further off than this many tolerances a key is not even worth showing.
NEAR = 4.0
#: Of the circle only a part is there, and the corners are broken: it reads worse than the width by this much.
CIRCLE, HEIGHT = 3.0, 2.0


@dataclass(frozen=True, slots=True)
class WoodruffGuess:
    """A key the readings may be, and how it fits them."""

    key: Woodruff
    likeness: Likeness


@door()
def identify_woodruff(
    width_mm: float, diameter_mm: float | None, height_mm: float | None, tolerance_mm: float = 0.1
) -> Worked[tuple[WoodruffGuess, ...]]:
    """The keys that readings may be, best first; those that do not agree say so.

    Args:
        width_mm: its width.
        diameter_mm: of the circle it is cut from (twice its radius), if known.
        height_mm: from the flat top to the round bottom, if known.
        tolerance_mm: how far the width may be off; the height twice, the circle three times as far.

    Raises:
        BadEntry: only a width, or a size not above zero.
        OutOfRange: no key near enough to be shown; or a tolerance that says nothing.

    >>> identify_woodruff(4.75, 19.0, 7.9).value[0].key.number
    '606'
    """
    read = _readings(width_mm, diameter_mm, height_mm)
    check_tolerance(tolerance_mm)
    every = sorted((_guess(key, read, tolerance_mm) for key in woodruff_keys()), key=_order)
    near = tuple(guess for guess in every if _order(guess) <= NEAR)[:4]
    if not near:
        best = every[0]
        raise OutOfRange(
            f"is near no key of the table ({HELD['in']}; {HELD['mm']}); the nearest, {best.key.name}, is off by "
            f"{', '.join(one.text() for one in best.likeness.misfits)}.",
            where="Key",
            value=" x ".join(said(mm) for _, mm, _ in read),
            way_out="Measure again what is furthest off, across the whole key; or copy it.",
        )
    sheet = Sheet("Which Woodruff key")
    sheet.read("readings", ", ".join(f"{name} {both(mm)}" for name, mm, _ in read))
    sheet.read("readings good to", f"{both(tolerance_mm)}; height twice, circle three times as far")
    for guess in near:
        sheet.table(guess.key.name, f"{guess.likeness.sizes}; {guess.likeness.off()}", guess.key.source)
    return Worked(near, sheet.close())


def _readings(
    width_mm: float, diameter_mm: float | None, height_mm: float | None
) -> tuple[tuple[str, float, float], ...]:
    """Each reading given: its name, its size, and how much worse it reads than the width."""
    every = (("width", width_mm, 1.0), ("diameter", diameter_mm, CIRCLE), ("height", height_mm, HEIGHT))
    given = tuple((name, mm, worse) for name, mm, worse in every if mm is not None)
    if len(given) < 2:
        raise BadEntry(
            "alone does not tell a key.",
            where="Width",
            value=said(width_mm),
            way_out="Give its diameter or height too.",
        )
    for name, mm, _ in given:
        if not mm > 0:
            raise BadEntry("is not above zero.", where=name.capitalize(), value=said(mm))
    return given


def _guess(key: Woodruff, read: tuple[tuple[str, float, float], ...], tolerance_mm: float) -> WoodruffGuess:
    should = {"width": key.width_mm, "diameter": key.diameter_mm, "height": key.height_mm}
    misfits = tuple(
        Misfit(name, mm - should[name], worse * tolerance_mm, worse * tolerance_mm)
        for name, mm, worse in read
    )
    return WoodruffGuess(key, Likeness(key.name, sizes_in_words(key), misfits, key.source.cite()))


def _order(guess: WoodruffGuess) -> float:
    return worst(guess.likeness.misfits)
