"""Dividing: whole divisions on hole circles, degrees, and the differential with its wheels, 127 among them.

Plain: the crank turns k/N for each of N divisions (k the head's ratio). Differential: the plate is geared to the
spindle; with N' near N that has a circle, wheels of ratio (N' - N) × k / N' turn the plate with the crank (N' above N)
or against it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, permutations

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.results.door import door
from rebuild.trade.results.working import Sheet, Source, Status, Worked

RULE = Source("Dividing head", "turns = ratio / divisions", Status.COMPUTED)
DIFFERENTIAL = Source("Dividing head", "differential wheels (N' - N) × ratio / N'", Status.COMPUTED)
TURNING = Source(
    "Idlers of the differential", "plate with the crank when N' is above N", Status.COMMON_PRACTICE
)
MOST_DIVISIONS, MOST_RATIO, MOST_CIRCLES = 2_000, 200, 60
SEARCH = 12


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting of the crank: whole turns and holes on a circle (0 holes on 0 when no circle is needed)."""

    turns: int
    holes: int
    circle: int

    def text(self) -> str:
        """As said at the head.

        >>> Setting(1, 24, 36).text()
        '1 turn and 24 holes on the 36 circle'
        """
        whole = f"{self.turns} turn{'' if self.turns == 1 else 's'}" if self.turns or not self.holes else ""
        part = f"{self.holes} holes on the {self.circle} circle" if self.holes else ""
        return " and ".join(filter(None, (whole, part)))


@dataclass(frozen=True, slots=True)
class Division:
    """How to divide: exact settings; or, without one, those of a near number with wheels, drivers over driven."""

    settings: tuple[Setting, ...]
    set_for: int
    drivers: tuple[int, ...] = ()
    driven: tuple[int, ...] = ()
    idler_with: bool = True


@dataclass(frozen=True, slots=True)
class AngleSetting:
    """The nearest setting for an angle, and how far it is off [arc seconds]."""

    setting: Setting
    off_arcsec: float


@door()
def divide(
    divisions: int, circles: Sequence[int], ratio: int = 40, wheels: Sequence[int] = ()
) -> Worked[Division]:
    """Crank settings for a number of divisions; by differential where no circle does.

    Args:
        divisions: how many.
        circles: holes of the circles at hand.
        ratio: turns of the crank for one of the spindle.
        wheels: change wheels for the differential.

    Raises:
        OutOfRange: 0 or above 2000 divisions, a ratio outside 1 to 200; or neither circle nor wheels do it.

    >>> divide(15, (27, 36)).value.settings[1].text()
    '2 turns and 24 holes on the 36 circle'
    """
    _check(circles, ratio)
    if not 1 <= divisions <= MOST_DIVISIONS:
        raise OutOfRange(f"is outside 1 to {MOST_DIVISIONS}.", where="Divisions", value=str(divisions))
    sheet = Sheet(f"Dividing by {divisions}")
    wanted = Fraction(ratio, divisions)
    sheet.equation("turns", f"{ratio} / {divisions} = {_turns(wanted)}", RULE)
    exact = _exact(wanted, circles)
    if exact:
        for one in exact:
            sheet.result("set", one.text())
        return Worked(Division(exact, divisions), sheet.close())
    found = _differential(divisions, circles, ratio, wheels)
    if found is None:
        raise OutOfRange(
            "fits no circle, and no differential with these wheels.",
            where="Divisions",
            value=str(divisions),
            way_out=f"A circle of {wanted.denominator} holes would do, or further change wheels.",
        )
    train = Fraction((found.set_for - divisions) * ratio, found.set_for)
    sheet.note(f"No circle divides into {wanted.denominator}: the plate is geared to the spindle.")
    sheet.equation("set as for", f"{found.set_for}: {found.settings[0].text()}", RULE)
    sheet.equation(
        "wheels", f"({found.set_for} - {divisions}) × {ratio} / {found.set_for} = {train}", DIFFERENTIAL
    )
    sheet.result("wheels", f"{_wheels(found)}; drivers on the spindle side")
    sheet.note(
        f"The plate must turn {'with' if found.idler_with else 'against'} the crank: count the idlers by turning it.",
        TURNING,
    )
    return Worked(found, sheet.close())


@door()
def divide_angle(
    angle_deg: float, circles: Sequence[int], ratio: int = 40
) -> Worked[tuple[AngleSetting, ...]]:
    """The settings nearest an angle, best first, at most three.

    Raises:
        OutOfRange: an angle outside 0 to 360°, or a ratio outside 1 to 200.

    >>> divide_angle(15.0, (27, 36)).value[0].setting.text()
    '1 turn and 18 holes on the 27 circle'
    """
    _check(circles, ratio)
    if not 0 < angle_deg <= 360.0:
        raise OutOfRange("is outside 0 to 360°.", where="Angle", value=f"{angle_deg:g}°")
    turns = angle_deg * ratio / 360.0
    found = []
    for circle in sorted(set(circles)):
        spaces = round(turns * circle)
        off = (spaces / circle - turns) * 360.0 / ratio * 3600.0
        found.append(
            AngleSetting(Setting(spaces // circle, spaces % circle, circle if spaces % circle else 0), off)
        )
    found.sort(key=lambda one: (round(abs(one.off_arcsec), 3), one.setting.circle))
    best = tuple({one.setting: one for one in found}.values())[:3]
    sheet = Sheet(f"Dividing by degrees: {angle_deg:g}°")
    sheet.equation("turns", f"{angle_deg:g} × {ratio} / 360 = {turns:.6g}", RULE)
    for one in best:
        sheet.result(
            one.setting.text(),
            "exact" if abs(one.off_arcsec) < 5e-4 else f"off by {one.off_arcsec:+.1f} arcsec",
        )
    return Worked(best, sheet.close())


def _check(circles: Sequence[int], ratio: int) -> None:
    if not circles:
        raise BadEntry("are not given.", where="Hole circles", way_out="Type them as 24 25 28 30.")
    if len(circles) > MOST_CIRCLES or any(not 2 <= one <= 1000 for one in circles):
        raise OutOfRange(
            f"are not up to {MOST_CIRCLES} circles of 2 to 1000 holes.",
            where="Hole circles",
            value=f"{len(circles)} circles",
        )
    if not 1 <= ratio <= MOST_RATIO:
        raise OutOfRange(f"is outside 1 to {MOST_RATIO}.", where="Turns of the crank", value=str(ratio))


def _exact(wanted: Fraction, circles: Sequence[int]) -> tuple[Setting, ...]:
    whole, part = divmod(wanted.numerator, wanted.denominator)
    if part == 0:
        return (Setting(whole, 0, 0),)
    return tuple(
        Setting(whole, part * circle // wanted.denominator, circle)
        for circle in sorted(set(circles))
        if circle % wanted.denominator == 0
    )


def _differential(
    divisions: int, circles: Sequence[int], ratio: int, wheels: Sequence[int]
) -> Division | None:
    simple = _trains(wheels)
    for off in range(1, SEARCH + 1):
        for near in (divisions + off, divisions - off):
            if near < 2:
                continue
            settings = _exact(Fraction(ratio, near), circles)
            train = simple.get(abs(Fraction((near - divisions) * ratio, near)))
            if settings and train is not None:
                return Division(settings, near, train[0], train[1], near > divisions)
    return None


def _trains(wheels: Sequence[int]) -> dict[Fraction, tuple[tuple[int, ...], tuple[int, ...]]]:
    """Ratios a set makes, simple trains before compound ones."""
    found: dict[Fraction, tuple[tuple[int, ...], tuple[int, ...]]] = {}
    for a, b in permutations(wheels, 2):
        found.setdefault(Fraction(a, b), ((a,), (b,)))
    for drivers in combinations(wheels, 2):
        rest = list(wheels)
        for one in drivers:
            rest.remove(one)
        for driven in combinations(rest, 2):
            found.setdefault(Fraction(drivers[0] * drivers[1], driven[0] * driven[1]), (drivers, driven))
    return found


def _wheels(found: Division) -> str:
    return " × ".join(f"{a}/{b}" for a, b in zip(found.drivers, found.driven, strict=True))


def _turns(turns: Fraction) -> str:
    whole, part = divmod(turns.numerator, turns.denominator)
    fraction = f"{part}/{turns.denominator}" if part else ""
    return " ".join(filter(None, (f"{whole}" if whole or not part else "", fraction)))
