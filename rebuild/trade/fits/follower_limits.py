"""The limits of a follower from its master's readings: every station of the master must be suited at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rebuild.errors import BadEntry, OutOfRange
from rebuild.trade.fits.combining import SIZES, Combining
from rebuild.trade.fits.now import GEOMETRY
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.fits.words import range_words
from rebuild.trade.limits.inward import limits_both
from rebuild.trade.results.working import Sheet, Worked
from rebuild.trade.sizes.show import DECIMALS, show_both, show_length, show_number

_LINE_MM = 1e-9


@dataclass(frozen=True, slots=True)
class FollowerLimits:
    """What the follower may measure [mm]; an end is None where nothing is wanted of it."""

    low_mm: float | None
    high_mm: float | None
    allowed_for_mm: float

    @property
    def aim_mm(self) -> float | None:
        """The middle of the limits, the size to aim at."""
        if self.low_mm is None or self.high_mm is None:
            return None
        return round((self.low_mm + self.high_mm) / 2, 9)


def follower_limits(
    master: Sequence[SideReading],
    master_is_outer: bool,
    low_mm: float | None,
    high_mm: float | None,
    *,
    combining: Combining = SIZES,
    allow_for_uncertainty: bool = False,
    unit: str = "mm",
    names: tuple[str, str] = ("master", "follower"),
) -> Worked[FollowerLimits]:
    """Limits that give a clearance from ``low_mm`` to ``high_mm`` at every station of the master.

    A bore read 25.012 to 25.018 with a clearance of 0.010 to 0.030 wanted leaves a shaft of 24.988 to 25.002:
    the smallest bore sets the high limit, the largest the low one.

    Args:
        master: what was read of it; at least one.
        allow_for_uncertainty: narrow the limits by the expanded uncertainty of the master's readings.
        names: of master and follower, for the working.

    Raises:
        BadEntry: no reading, or no wanted range.
        OutOfRange: the master varies, or is known, too poorly for the wanted range to be kept.

    >>> from rebuild.trade.limits.uncertainty import combine
    >>> bore = [SideReading(s, None, mm, combine([]).value) for s, mm in (("near", 25.012), ("far", 25.018))]
    >>> made = follower_limits(bore, True, 0.010, 0.030).value
    >>> made.low_mm, made.high_mm, made.aim_mm
    (24.988, 25.002, 24.995)
    """
    _refuse_bad(master, low_mm, high_mm, names)
    signs = (combining.outer_sign, combining.inner_sign)
    sign_master, sign = signs if master_is_outer else signs[::-1]
    sheet = Sheet(f"Limits of {names[1]} to suit {names[0]} as read")
    for reading in master:
        place = f", {reading.station}" if reading.station else ""
        sheet.read(f"master{place}", reading.words or show_both(reading.value_mm, unit))
    sheet.read("wanted", range_words(low_mm, high_mm, unit))
    lows, highs = [], []
    widest = 0.0
    for reading in master:
        U = reading.budget.U_mm if allow_for_uncertainty else 0.0
        widest = max(widest, U)
        base = combining.offset_mm + sign_master * reading.value_mm
        ends = [
            None if want is None else (want + push - base) / sign
            for want, push in ((low_mm, U), (high_mm, -U))
        ]
        small, large = (ends[0], ends[1]) if sign > 0 else (ends[1], ends[0])
        _tell(sheet, reading, combining, small, large, U, unit)
        if small is not None:
            lows.append(small)
        if large is not None:
            highs.append(large)
    found = FollowerLimits(
        round(max(lows), 9) if lows else None, round(min(highs), 9) if highs else None, widest
    )
    _refuse_no_room(found, master, low_mm, high_mm, names, unit)
    _result(sheet, found, names[1], unit)
    return Worked(found, sheet.close())


def _refuse_bad(
    master: Sequence[SideReading], low: float | None, high: float | None, names: tuple[str, str]
) -> None:
    if not master:
        raise BadEntry(
            "has no reading yet.", where=names[0], way_out=f"Measure it first; {names[1]} is made to it."
        )
    if low is None and high is None:
        raise BadEntry(
            "is empty.",
            where="To be",
            way_out="Type what is wanted between the two, e.g. 0.02-0.04 or H7/g6.",
        )


def _refuse_no_room(
    found: FollowerLimits,
    master: Sequence[SideReading],
    low: float | None,
    high: float | None,
    names: tuple[str, str],
    unit: str,
) -> None:
    if found.low_mm is None or found.high_mm is None or found.high_mm >= found.low_mm - _LINE_MM:
        return
    assert low is not None
    assert high is not None
    varies = max(r.value_mm for r in master) - min(r.value_mm for r in master)
    U = show_length(found.allowed_for_mm, unit, DECIMALS[unit] + 1)
    known = f" and is known to ± {U}" if found.allowed_for_mm else ""
    raise OutOfRange(
        f"varies by {show_length(varies, unit)} along its length{known}, and the range it is to be in is only "
        f"{show_length(high - low, unit)} wide: no single size of {names[1]} suits it everywhere.",
        where=names[0],
        way_out="True up the master first, measure it better, or widen what the fit is to be.",
    )


def _tell(
    sheet: Sheet,
    reading: SideReading,
    way: Combining,
    low: float | None,
    high: float | None,
    U: float,
    unit: str,
) -> None:
    ends = " to ".join(
        show_number(end, unit, DECIMALS[unit] + 1) if end is not None else "open" for end in (low, high)
    )
    less = f", narrowed by U {show_length(U, unit, DECIMALS[unit] + 1)} at each end" if U else ""
    place = f" at {reading.station}" if reading.station else ""
    sheet.equation(f"from {way.equation} = wanted{place}", f"{ends} {unit}{less}", GEOMETRY)


def _result(sheet: Sheet, found: FollowerLimits, name: str, unit: str) -> None:
    aim = f", aim at {show_length(found.aim_mm, unit)}" if found.aim_mm is not None else ""
    sheet.result(name, f"{limits_both(found.low_mm, found.high_mm, unit)}{aim}")
