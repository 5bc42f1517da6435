"""The unit the one who asks thinks in: sizes in answers, workings and refusals are said in it first.

It holds while a figure is worked out and reaches only what is said; every number is worked in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from rebuild.trade.sizes.show import in_unit, show_both, show_length

_OWN: ContextVar[str] = ContextVar("own_unit", default="mm")


def own_unit() -> str:
    """``mm`` or ``in``; mm where nobody said.

    >>> own_unit()
    'mm'
    """
    return _OWN.get()


@contextmanager
def sizes_in(unit: str) -> Iterator[None]:
    """Say sizes in ``unit`` (mm or in) for a while.

    >>> with sizes_in("in"):
    ...     said(12.7)
    '0.5 in'
    """
    before = _OWN.set(unit)
    try:
        yield
    finally:
        _OWN.reset(before)


def said(mm: float, digits: int = 6) -> str:
    """A size in a sentence, in the unit of the one who asks, no more decimals than a shop reads.

    >>> said(24.0), said(0.35), said(6.3500001)
    ('24 mm', '0.35 mm', '6.35 mm')
    """
    unit = own_unit()
    if unit == "mm":
        return f"{mm:.{digits}g} mm"
    text = show_length(mm, unit, 4).removesuffix(f" {unit}")
    return f"{text.rstrip('0').rstrip('.') or '0'} {unit}"


def both(mm: float, decimals: int | None = None) -> str:
    """A size in both systems, the unit of the one who asks first; ``decimals`` are those of mm.

    >>> both(25.4)
    '25.400 mm (1.0000 in)'
    >>> with sizes_in("in"):
    ...     both(25.4)
    '1.0000 in (25.400 mm)'
    """
    if own_unit() == "mm":
        return show_both(mm, "mm", decimals)
    return show_both(mm, "in", None if decimals is None else decimals + 1)


def said_range(low_mm: float, high_mm: float) -> str:
    """A range in a sentence, its unit once.

    >>> said_range(0.0, 150.0)
    '0 to 150 mm'
    """
    unit = own_unit()
    return f"{said(low_mm).removesuffix(f' {unit}')} to {said(high_mm)}"


class Numeral(float):
    """A size in mm that is written, within an equation, as a number of the unit of the one who asks.

    Places after the point are those of mm; in inches there is one more.

    >>> f"{Numeral(25.4):.3f} - {Numeral(6.35):.5g} = {Numeral(19.05):.3f} {own_unit()}"
    '25.400 - 6.35 = 19.050 mm'
    >>> with sizes_in("in"):
    ...     f"{Numeral(25.4):.3f} - {Numeral(6.35):.5g} = {Numeral(19.05):.3f} {own_unit()}"
    '1.0000 - 0.25 = 0.7500 in'
    """

    __slots__ = ()

    def __format__(self, spec: str) -> str:
        if own_unit() == "mm":
            return float.__format__(self, spec)
        head, point, places = spec.rstrip("fg").partition(".")
        if spec.endswith("f") and point:
            spec = f"{head}.{max(4, 1 + int(places))}f"
        return float.__format__(in_unit(self, "in"), spec)


def num(mm: float) -> Numeral:
    """A size as a number of the asker's unit, for an equation."""
    return Numeral(mm)
