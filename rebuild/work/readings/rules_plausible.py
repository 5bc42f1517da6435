"""Hold a value that is ten times, or an inch for a millimetre, off what was expected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from rebuild.errors import Implausible
from rebuild.trade.sizes.show import show_length

#: A value this many times larger or smaller than expected is held (10x and 25.4x with room for wear).
TIMES = 9.0
#: A size further than this share from its nominal is held: a transposed digit more often than wear.
SHARE = 0.2
#: A ratio this near a factor is taken for it; and so many others must agree before one is held against them.
NEAR, LEAST_BESIDE = 0.08, 2


@dataclass(frozen=True, slots=True)
class Expected:
    """What a value is held against: the spec and the last reading [mm]."""

    label: str
    nominal_mm: float | None
    low_mm: float | None
    high_mm: float | None
    last_mm: float | None


def refuse_implausible(value_mm: float, expected: Expected, typed: str, unit: str) -> None:
    """Raise Implausible when the value wants a second look.

    A feature with a nominal or both limits is a *size*: too large, too small and negative are all
    odd. One with a high limit alone (runout, lost motion) may well be far smaller than allowed, and what
    is within its limit is never odd.
    """
    for name, reference, is_size in _references(expected, value_mm):
        ratio = value_mm / reference
        hint = _hint(ratio)
        if abs(ratio) >= TIMES or (is_size and (abs(ratio) <= 1 / TIMES or ratio < 0)):
            raise _held(expected, typed, name, reference, unit, hint)
        if is_size and abs(ratio - 1) > SHARE:
            raise _held(expected, typed, name, reference, unit, "more than a fifth off")


def _references(expected: Expected, value_mm: float) -> list[tuple[str, float, bool]]:
    found: list[tuple[str, float, bool]] = []
    is_size = False
    if expected.nominal_mm:
        is_size = True
        found.append(("the nominal", expected.nominal_mm, True))
    elif expected.low_mm is not None and expected.high_mm is not None:
        is_size = expected.low_mm > 0 and expected.high_mm < 2 * expected.low_mm
        if expected.high_mm:
            found.append(("the high limit", expected.high_mm, is_size))
    elif expected.high_mm:
        found.append(("the high limit", expected.high_mm, False))
    within = not is_size and found and abs(value_mm) <= abs(found[0][1])
    if expected.last_mm and not within:
        found.append(("the last reading", expected.last_mm, is_size))
    return found


def slip_of(ratio: float) -> str:
    """The slip a ratio looks like: of the decimal place, or of the unit; empty when like none.

    >>> slip_of(10.02), slip_of(1.1)
    ('ten times: a decimal place?', '')
    """
    for factor, words in (
        (25.4, "25.4 times: millimetres typed for inches?"),
        (1 / 25.4, "1/25.4: inches typed for millimetres?"),
        (10, "ten times: a decimal place?"),
        (0.1, "a tenth: a decimal place?"),
        (100, "a hundred times: a decimal place?"),
        (0.01, "a hundredth: a decimal place?"),
    ):
        if abs(ratio / factor - 1) < NEAR:
            return words
    return ""


def slipped(value_mm: float, expected: Expected) -> bool:
    """Whether an odd value looks like a slip of the decimal place or the unit."""
    return any(slip_of(value_mm / reference) for _, reference, _ in _references(expected, value_mm))


def slip_among(value_mm: float, others_mm: Sequence[float]) -> str:
    """The slip a value looks like beside others of one feature that agree among themselves; else empty."""
    if len(others_mm) < LEAST_BESIDE:
        return ""
    middle = median(others_mm)
    agree = middle and all(abs(other / middle - 1) <= SHARE for other in others_mm)
    return slip_of(value_mm / middle) if agree else ""


def _hint(ratio: float) -> str:
    other_sign = "of the other sign" if abs(ratio + 1) < NEAR else f"{ratio:.3g} times"
    return slip_of(ratio) or other_sign


def _held(expected: Expected, typed: str, name: str, reference: float, unit: str, hint: str) -> Implausible:
    return Implausible(
        f"is far from {name} {show_length(reference, unit)} ({hint}).",
        where=expected.label,
        value=typed,
        way_out="Press Enter again to store it as it is, or mend it.",
    )
