"""The one owner of how limits are rounded: to the decimals of the shop and inwards, never wider than they are."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from rebuild.trade.results.door import door
from rebuild.trade.sizes.show import DECIMALS, in_unit, show_number

#: Rounding inwards may take this share of the tolerance; then one more decimal is used.
MOST_LOST = 0.2
#: Binary dust [mm]: nearer than this to a whole digit is that digit.
_BEYOND = Decimal(10) ** 15
_DUST = Decimal("1e-7")
#: A limit this near a whole last digit [of that digit] is shown with it.
_NEAR = 0.05


@door()
def inward(low_mm: float | None, high_mm: float | None, unit: str) -> tuple[float | None, float | None]:
    """Limits rounded inwards to the decimals of the shop, so that what is printed is never wider [mm].

    Limits that need just one more decimal (a 3/32 in key) keep it.

    >>> inward(24.98812, 25.00249, "mm")
    (24.989, 25.002)
    >>> [round(end / 25.4, 5) for end in inward(20.66544, 20.6756, "in")]
    [0.8136, 0.814]
    """
    if low_mm is None or high_mm is None:
        places = DECIMALS[unit]
        return _round(low_mm, unit, places, up=True), _round(high_mm, unit, places, up=False)
    if all(_whole(end, unit, DECIMALS[unit] + 1) for end in (low_mm, high_mm)):
        finer = DECIMALS[unit] + 1
        return _round(low_mm, unit, finer, up=True), _round(high_mm, unit, finer, up=False)
    width = high_mm - low_mm
    for places in range(DECIMALS[unit], DECIMALS[unit] + 3):
        low, high = _round(low_mm, unit, places, up=True), _round(high_mm, unit, places, up=False)
        assert low is not None
        assert high is not None
        if high >= low and width - (high - low) <= MOST_LOST * width + 1e-9:
            return low, high
    return low_mm, high_mm


def _whole(mm: float, unit: str, places: int) -> bool:
    value = Decimal(repr(mm)) / (Decimal("25.4") if unit == "in" else Decimal(1))
    if abs(value) > _BEYOND:  # from a stranger's file: no figure of it lies behind the point
        return True
    return abs(value.quantize(Decimal(1).scaleb(-places)) - value) < _DUST


def _round(mm: float | None, unit: str, places: int, *, up: bool) -> float | None:
    if mm is None:
        return None
    scale = Decimal("25.4") if unit == "in" else Decimal(1)
    value = Decimal(repr(mm)) / scale
    step = Decimal(1).scaleb(-places)
    if abs(value) > _BEYOND:
        return mm
    nearest = value.quantize(step)
    if abs(nearest - value) * scale < _DUST:
        return float(nearest * scale)
    return float(value.quantize(step, rounding=ROUND_CEILING if up else ROUND_FLOOR) * scale)


@door()
def limit_number(mm: float, unit: str) -> str:
    """A limit in its unit: the shop's decimals, more only where the limit needs them.

    >>> limit_number(25.4, "in"), limit_number(24.9875, "mm"), limit_number(11.29284, "in")
    ('1.0000', '24.9875', '0.4446')
    """
    return show_number(mm, unit, _places(mm, unit))


@door()
def limit_numbers(low_mm: float | None, high_mm: float | None, unit: str) -> tuple[str, str]:
    """Two limits as they are written, rounded inwards; empty for one that is open.

    One that a change of units has put a hair beside its last digit stays that digit.

    >>> limit_numbers(0.927743 * 25.4, 0.930243 * 25.4, "in"), limit_numbers(None, 24.9875, "mm")
    (('0.9278', '0.9302'), ('', '24.987'))
    """
    low, high = inward(low_mm, high_mm, unit)
    low, high = (
        kept if kept is not None and _near(kept, unit) else end
        for kept, end in ((low_mm, low), (high_mm, high))
    )
    return in_line(low, high, unit)


@door()
def in_line(low_mm: float | None, high_mm: float | None, unit: str) -> tuple[str, str]:
    """Two limits as they stand, with as many decimals as the one that needs more; empty for one that is open.

    >>> in_line(9.91362, 9.928352, "in")
    ('0.39030', '0.39088')
    """
    ends = [end for end in (low_mm, high_mm) if end is not None]
    places = max((_places(end, unit) for end in ends), default=DECIMALS[unit])
    low, high = ("" if end is None else show_number(end, unit, places) for end in (low_mm, high_mm))
    return low, high


@door()
def limits_both(low_mm: float | None, high_mm: float | None, unit: str) -> str:
    """Two limits in words with the other system in brackets, each rounded inwards in its own unit.

    >>> limits_both(0.9278 * 25.4, 0.9302 * 25.4, "in")
    '0.9278 in (23.567 mm) to 0.9302 in (23.627 mm)'
    >>> limits_both(None, 25.4, "mm")
    'at most 25.400 mm (1.0000 in)'
    """
    other = "mm" if unit == "in" else "in"
    pairs = zip(limit_numbers(low_mm, high_mm, unit), limit_numbers(low_mm, high_mm, other), strict=True)
    low, high = (f"{own} {unit} ({second} {other})" if own else "" for own, second in pairs)
    if low and high:
        return f"{low} to {high}"
    if not (low or high):
        return "not limited"
    return f"at least {low}" if low else f"at most {high}"


def _near(mm: float, unit: str) -> bool:
    """Whether a limit is as good as one of the shop's own decimals."""
    steps = in_unit(mm, unit) * 10 ** DECIMALS[unit]
    return bool(abs(steps - round(steps)) < _NEAR)


def _places(mm: float, unit: str) -> int:
    """The decimals at which a limit is as good as a whole last digit; one more than usual where none are."""
    for places in range(DECIMALS[unit], DECIMALS[unit] + 3):
        steps = in_unit(mm, unit) * 10**places
        if abs(steps - round(steps)) < _NEAR:
            return places
    return DECIMALS[unit] + 1
