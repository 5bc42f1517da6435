"""The piece a part is really made from: whether the part is in it, and what else can be got out of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.blank import finished_across, finished_length
from rebuild.trade.results.door import door
from rebuild.trade.shop.blanks import CHUCKING_MM, FACING_MM, PARTING_MM
from rebuild.trade.sizes.show import show_both
from rebuild.words.counted import counted

#: Words of an end that needs no facing any more.
_TRUE_ENDS = ("faced", "centre", "center", "turned", "ground")


@dataclass(frozen=True, slots=True)
class Stock:
    """A piece as it lies there [mm]: across (diameter, or the smaller side), long, and how its ends are."""

    across_mm: float | None = None
    long_mm: float | None = None
    ends: str = ""

    @property
    def known(self) -> bool:
        """Whether anything of it was measured."""
        return self.across_mm is not None or self.long_mm is not None

    @property
    def facing_mm(self) -> float:
        """What facing both ends takes; ends already faced or centred take none."""
        return 0.0 if any(word in self.ends.lower() for word in _TRUE_ENDS) else 2 * FACING_MM


@door()
def stock_trouble(shape: str, sizes: Mapping[str, Measure], stock: Stock, unit: str) -> str:
    """Why the part is not in the piece, in a sentence; empty when it is, or when the piece was not measured.

    Raises:
        BadEntry: a size of the part that is needed is not known.

    >>> sizes = {"outside diameter": Measure("outside diameter", 24.0), "length": Measure("length", 40.0)}
    >>> stock_trouble("bush", sizes, Stock(24.5, 41.0, "sawn"), "mm")
    'is 41.000 mm (1.6142 in) long; the part is 40.000 mm (1.5748 in), and facing sawn ends takes 2.000 mm (0.0787 in)'
    >>> stock_trouble("bush", sizes, Stock(24.5, 42.5, "sawn"), "mm")
    ''
    """
    if stock.across_mm is not None:
        across = finished_across(shape, sizes)
        if stock.across_mm < across - 1e-9:
            return f"is {show_both(stock.across_mm, unit)} across; the part is {show_both(across, unit)}"
    if stock.long_mm is not None:
        long = finished_length(shape, sizes)
        if stock.long_mm < long + stock.facing_mm - 1e-9:
            ends = (
                f", and facing sawn ends takes {show_both(stock.facing_mm, unit)}" if stock.facing_mm else ""
            )
            return f"is {show_both(stock.long_mm, unit)} long; the part is {show_both(long, unit)}{ends}"
    return ""


@door()
def got_out_of(shape: str, sizes: Mapping[str, Measure], stock: Stock, unit: str) -> str:
    """What can be got out of the piece, in words: how many, and what is left over; empty when it was not measured.

    Raises:
        BadEntry: a size of the part that is needed is not known.

    >>> sizes = {"outside diameter": Measure("outside diameter", 24.0), "length": Measure("length", 40.0)}
    >>> got_out_of("bush", sizes, Stock(25.0, 150.0, "sawn"), "mm")
    '2 pieces, held in the chuck; 27.600 mm (1.0866 in) is left beside the chucking; 1.000 mm (0.0394 in) to turn off'
    """
    if not stock.known:
        return ""
    told = []
    if stock.long_mm is not None:
        one = finished_length(shape, sizes) + 2 * FACING_MM + PARTING_MM
        count = int((stock.long_mm - CHUCKING_MM + 1e-9) // one)
        if count < 1:
            told.append("one piece between centres, none with a grip in the chuck")
        else:
            left = show_both(stock.long_mm - CHUCKING_MM - count * one, unit)
            told += [f"{counted(count, 'piece')}, held in the chuck", f"{left} is left beside the chucking"]
    if stock.across_mm is not None:
        spare = stock.across_mm - finished_across(shape, sizes)
        told.append(f"{show_both(max(spare, 0.0), unit)} to turn off")
    return "; ".join(told)
