"""The piece a part is really made from: whether the part is in it, and what else can be got out of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from rebuild.trade.drawing.measure import Measure
from rebuild.trade.making.blank import finished_across, finished_length
from rebuild.trade.results.door import door
from rebuild.trade.shop.blanks import CHUCKING_MM, FACING_MM, PARTING_MM
from rebuild.trade.sizes.show import show_both
from rebuild.words.counted import counted
from rebuild.words.making import PartShape

#: Words of an end that needs no facing any more.
_TRUE_ENDS = ("faced", "centre", "center", "turned", "ground")


#: What is bored through: it cannot be made between centres.
_BORED = (
    PartShape.BUSH,
    PartShape.NUT,
    PartShape.COLLAR,
    PartShape.WASHER,
    PartShape.SPACER,
    PartShape.GEAR,
)
#: The least a chuck holds of a piece [mm]. Common practice, no source.
_LEAST_GRIP_MM = 10.0


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
        if way_of(shape, sizes, stock) is Way.NOTHING:
            would = show_both(length_to_hold(shape, sizes, stock), unit)
            return f"is {show_both(stock.long_mm, unit)} long: nothing is left to hold; {would} would do"
    return ""


class Way(Enum):
    """How a piece is held: in the chuck and parted off, turned round, between centres, in the vice, or not at all."""

    CHUCK = "held in the chuck and parted off"
    TURN_ROUND = "held on one end, then turned round"
    CENTRES = "between centres"
    VICE = "in the vice"
    NOTHING = "nothing left to hold"


_SAID = {
    Way.TURN_ROUND: "one piece: held on one end and worked through from there, turned round in soft jaws, "
    "its second end faced; nothing is parted off",
    Way.CENTRES: "one piece between centres, none with a grip in the chuck",
    Way.VICE: "one piece, held in the vice",
    Way.NOTHING: "nothing is left to hold",
}


@door()
def way_of(shape: str, sizes: Mapping[str, Measure], stock: Stock) -> Way:
    """How a piece long enough for the part is held; one of unknown length is sawn to be held in the chuck.

    What is bored through has no centres until it is done: a short piece is held on one end, bored and threaded
    through from there, then turned round and its second end faced.

    Raises:
        BadEntry: a size of the part that is needed is not known.

    >>> sizes = {"body diameter": Measure("body diameter", 25.0), "length": Measure("length", 31.0)}
    >>> [way_of("nut", sizes, Stock(31.75, long)).name for long in (38.1, 20.0, 80.0)]
    ['TURN_ROUND', 'NOTHING', 'CHUCK']
    """
    if shape in (PartShape.KEY, PartShape.GIB):
        return Way.VICE
    if stock.long_mm is None or stock.long_mm >= CHUCKING_MM + _one(shape, sizes) - 1e-9:
        return Way.CHUCK
    if shape not in _BORED:
        return Way.CENTRES
    return Way.TURN_ROUND if stock.long_mm >= least_to_hold(stock.across_mm) - 1e-9 else Way.NOTHING


def least_to_hold(across_mm: float | None) -> float:
    """The shortest bored piece that can be turned round [mm]: two grips, each a third of the diameter or 10 mm.

    Common practice, no source.

    >>> least_to_hold(31.5), least_to_hold(None)
    (21.0, 20.0)
    """
    return 2 * max(_LEAST_GRIP_MM, (across_mm or 0.0) / 3)


def length_to_hold(shape: str, sizes: Mapping[str, Measure], stock: Stock) -> float:
    """The length of piece that would do [mm]: enough to turn round, or to hold short and part off."""
    short = finished_length(shape, sizes) + stock.facing_mm + PARTING_MM + least_to_hold(stock.across_mm) / 2
    return min(short, max(least_to_hold(stock.across_mm), finished_length(shape, sizes) + stock.facing_mm))


def _one(shape: str, sizes: Mapping[str, Measure]) -> float:
    """The length a piece takes with facing and parting [mm]."""
    return finished_length(shape, sizes) + 2 * FACING_MM + PARTING_MM


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
        told += _pieces(way_of(shape, sizes, stock), _one(shape, sizes), stock.long_mm, unit)
    if stock.across_mm is not None:
        spare = stock.across_mm - finished_across(shape, sizes)
        told.append(f"{show_both(max(spare, 0.0), unit)} to turn off")
    return "; ".join(told)


def _pieces(way: Way, one_mm: float, long_mm: float, unit: str) -> list[str]:
    """How many pieces, how they are held, and what is left."""
    if way in _SAID:
        return [_SAID[way]]
    count = int((long_mm - CHUCKING_MM + 1e-9) // one_mm)
    left = show_both(long_mm - CHUCKING_MM - count * one_mm, unit)
    return [f"{counted(count, 'piece')}, held in the chuck", f"{left} is left beside the chucking"]
